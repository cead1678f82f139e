"""Days as drawings and sheets write them: short, in the order of the reader's language."""

from __future__ import annotations

from datetime import date

from django.utils.formats import date_format
from django.utils.translation import pgettext


def short_day(day: date, year: int | None = None) -> str:
    """The day as short as it is clear, "May 4": with its year unless that is `year`, or none is asked for."""
    # Translators: how a day is written where there is little room, in the date format letters of Django.
    of_year, of_another = pgettext("date format", "M j"), pgettext("date format", "M j, Y")
    return date_format(day, of_year if year in (None, day.year) else of_another)
