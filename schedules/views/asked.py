"""What an address asks for, read with a usual answer for anything that is missing or cannot be."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest

from crops.models.planting import FIRST_YEAR, LAST_YEAR


def asked_year(request: HttpRequest, usual: int) -> int:
    """The year of `?year=`."""
    text = request.GET.get("year", "")
    year = int(text) if text.isascii() and text.isdigit() and len(text) == 4 else usual
    # Windows reach into the years beside their own.
    return year if FIRST_YEAR < year < LAST_YEAR else usual


def asked_day(request: HttpRequest, name: str, usual: date) -> date:
    """The day of `?<name>=2026-04-13`."""
    try:
        day = date.fromisoformat(request.GET.get(name, ""))
    except ValueError:
        return usual
    return day if FIRST_YEAR < day.year < LAST_YEAR else usual


def asked_keys(request: HttpRequest, *names: str) -> list[int]:
    """The keys of rows in `?<name>=12&<name>=13`; what is none is left out."""
    texts = [text for name in names for text in request.GET.getlist(name)]
    return [int(text) for text in texts if text.isascii() and text.isdecimal() and len(text) < 18]
