"""Days as drawings and sheets write them: short, in the order of the reader's language."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from django.utils.formats import date_format
from django.utils.translation import get_language, pgettext


def short_day(day: date, year: int | None = None) -> str:
    """The day as short as it is clear, "May 4": with its year unless that is `year`, or none is asked for."""
    return _short_day(day, year in (None, day.year), get_language())


@lru_cache(maxsize=4096)
def _short_day(day: date, of_year: bool, _language: str | None) -> str:
    """Remembered, for a garden's calendars write the same days thousands of times."""
    # Translators: how a day is written where there is little room, in the date format letters of Django.
    usual, with_year = pgettext("date format", "M j"), pgettext("date format", "M j, Y")
    return date_format(day, usual if of_year else with_year)
