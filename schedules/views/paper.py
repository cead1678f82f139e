"""How a view hands out a printed sheet, and what its file is called."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from django.http import HttpResponse
from django.utils.http import content_disposition_header
from django.utils.text import slugify

LONGEST_NAME = 100
# What is chosen among several, so that the kind's name alone does not tell the sheets apart.
_CHOSEN = frozenset({"member", "plots", "week", "workshop", "workday", "notice", "text", "place"})


def paper(content: bytes, name: str) -> HttpResponse:
    """The sheet as an answer, called `name`.pdf; no browser or proxy keeps it."""
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = content_disposition_header(False, f"{name}.pdf")
    response["Cache-Control"] = "private, no-store"
    return response


def file_name(
    *, garden: str, kind: str, asks: Sequence[str], title: str, asked: Mapping[str, Sequence[str]], on: date
) -> str:
    """What a sheet's file is called, without its ending: the garden's slug, what it is, and for when.

    `kind` and `title` are as people read them, in whatever letters; `asked` is what the form was filled in
    with. A sheet that asks for no time is told by `on`, the day of its printing.
    """
    what, which = slugify(kind, allow_unicode=True), slugify(title, allow_unicode=True)
    if _CHOSEN.intersection(asks) and which:
        what = which if what in which else f"{what}-{which}"
    when = _period(asked) or on.isoformat()
    named = f"{garden}-{what}"[:LONGEST_NAME].rstrip("-")
    return named if named.endswith(f"-{when}") else f"{named}-{when}"


def _period(asked: Mapping[str, Sequence[str]]) -> str:
    """The days or the year that was asked for; a whole year of the calendar is its number."""
    since, until, year = ("".join(asked.get(name, ())[:1]) for name in ("since", "until", "year"))
    if since and until:
        whole = since[:4] == until[:4] and (since[4:], until[4:]) == ("-01-01", "-12-31")
        return since[:4] if whole else f"{since}-{until}"
    return year
