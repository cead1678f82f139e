"""How a view hands out a printed sheet: whose it is, and the file itself.

A sheet's view asks `plots.access` first, gathers rows, and ends in `paper(...)`; the maker is imported inside
it, because reportlab is slow to load.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import HttpResponse
from django.utils.text import slugify
from django.utils.translation import get_language

from plots.models import Garden

if TYPE_CHECKING:
    from schedules.reports.frame import Head


def head_of(garden: Garden, title: str, *, subtitle: str = "", note: str = "") -> Head:
    """The head of a sheet of the garden: its name, its paper, its date of today."""
    from schedules.reports.frame import Head  # lazy: reportlab

    return Head(
        garden=garden.name,
        title=title,
        subtitle=subtitle,
        note=note,
        paper=garden.paper,
        language=get_language() or "en",
        printed_on=garden.today(),
    )


def paper(content: bytes, name: str, *, private: bool = True) -> HttpResponse:
    """The sheet as an answer, called `name`.pdf; `private` ones are kept by no browser or proxy."""
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{slugify(name) or "sheet"}.pdf"'
    if private:
        response["Cache-Control"] = "private, no-store"
    return response
