"""How a view hands out a printed sheet."""

from __future__ import annotations

from django.http import HttpResponse
from django.utils.text import slugify


def paper(content: bytes, name: str) -> HttpResponse:
    """The sheet as an answer, called `name`.pdf; no browser or proxy keeps it."""
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{slugify(name) or "sheet"}.pdf"'
    response["Cache-Control"] = "private, no-store"
    return response
