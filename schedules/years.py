"""The year that logs are read back by: it runs from winter to winter, so south of the equator from July."""

from __future__ import annotations

from datetime import date

from schedules.seasons import Hemisphere

_SOUTH_BEGINS = 7


def year_of(day: date, hemisphere: Hemisphere) -> int:
    """The year that a day belongs to, named by the spring in it.

    >>> year_of(date(2027, 1, 9), Hemisphere.NORTH), year_of(date(2027, 1, 9), Hemisphere.SOUTH)
    (2027, 2026)
    """
    return day.year - (hemisphere is Hemisphere.SOUTH and day.month < _SOUTH_BEGINS)


def span_of(year: int, hemisphere: Hemisphere) -> tuple[date, date]:
    """The first and the last day of a year.

    >>> span_of(2026, Hemisphere.SOUTH)
    (datetime.date(2026, 7, 1), datetime.date(2027, 6, 30))
    """
    if hemisphere is Hemisphere.SOUTH:
        return date(year, _SOUTH_BEGINS, 1), date(year + 1, _SOUTH_BEGINS - 1, 30)
    return date(year, 1, 1), date(year, 12, 31)
