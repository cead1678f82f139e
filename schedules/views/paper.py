"""How a view hands out a printed sheet: whose it is, and the file itself.

A sheet's view asks `plots.access` first, gathers rows, and ends in `on_paper(...)`.
"""

from __future__ import annotations

from django.http import HttpResponse
from django.utils.text import slugify
from django.utils.translation import get_language

from plots.models import Garden
from schedules.reports.document import Document, Head


def head_of(garden: Garden, title: str, *, subtitle: str = "", note: str = "", large: bool = False) -> Head:
    """The head of a sheet of the garden: its name, its paper, its date of today."""
    return Head(
        garden=garden.name,
        title=title,
        subtitle=subtitle,
        note=note,
        paper=garden.paper,
        language=get_language() or "en",
        printed_on=garden.today(),
        large=large,
    )


def on_paper(document: Document, name: str, *, private: bool = True) -> HttpResponse:
    """The document on its paper, as an answer."""
    from schedules.reports.setting import to_pdf  # lazy: reportlab

    return paper(to_pdf(document), name, private=private)


def paper(content: bytes, name: str, *, private: bool = True) -> HttpResponse:
    """The sheet as an answer, called `name`.pdf; `private` ones are kept by no browser or proxy."""
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{slugify(name) or "sheet"}.pdf"'
    if private:
        response["Cache-Control"] = "private, no-store"
    return response
