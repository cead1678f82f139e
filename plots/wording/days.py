"""Days of the year in words."""

from __future__ import annotations

from datetime import date

from django.utils.formats import date_format

_A_LEAP_YEAR = 2000


def month_day_text(value: tuple[int, int]) -> str:
    """A day of the year, as the page's language writes it: "May 10"."""
    return date_format(date(_A_LEAP_YEAR, *value), "MONTH_DAY_FORMAT")
