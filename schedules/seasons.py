"""Hemispheres, and days of the year counted so that a month and day has one number in every year.

A day number counts a 365-day year (1 January is 1, 29 February counts as 28 February, 1 March is always 60)
from the start of a label year, and runs below 1 into the year before and past 365 into the year after.
"""

from __future__ import annotations

from datetime import date, timedelta
from enum import StrEnum

DAYS_IN_YEAR = 365
_COMMON_YEAR = 2001
_BEFORE_COMMON_YEAR = date(_COMMON_YEAR - 1, 12, 31).toordinal()


class Hemisphere(StrEnum):
    """Which half of the year is summer."""

    NORTH = "north"
    SOUTH = "south"

    @classmethod
    def of_latitude(cls, latitude: float) -> Hemisphere:
        """The hemisphere of a latitude in degrees, north positive; the equator counts as north."""
        return cls.NORTH if latitude >= 0 else cls.SOUTH

    @classmethod
    def of_frosts(
        cls, last: tuple[int, int] | None, first: tuple[int, int] | None, *, usual: Hemisphere
    ) -> Hemisphere:
        """Where frosts that come back on these (month, day) belong; `usual` where they do not tell.

        Common practice, no source: a last frost of February to May or a first one of September to December
        is a northern one, half a year later a southern one.

        >>> Hemisphere.of_frosts((10, 5), None, usual=Hemisphere.NORTH).value
        'south'
        """
        for month_day, north in ((last, range(2, 6)), (first, range(9, 13))):
            if month_day is not None and month_day[0] in north:
                return cls.NORTH
            if month_day is not None and (month_day[0] + 5) % 12 + 1 in north:
                return cls.SOUTH
        return usual


class Side(StrEnum):
    """Which frost of the year: the last one of spring or the first one of autumn."""

    LAST = "last"
    FIRST = "first"


def day_number(day: date, label_year: int) -> int:
    """The number of `day` counted from 1 January of `label_year`.

    >>> day_number(date(2024, 3, 1), 2024), day_number(date(2023, 12, 31), 2024)
    (60, 0)
    """
    day_of_month = 28 if (day.month, day.day) == (2, 29) else day.day
    within_year = date(_COMMON_YEAR, day.month, day_of_month).toordinal() - _BEFORE_COMMON_YEAR
    return within_year + DAYS_IN_YEAR * (day.year - label_year)


def from_day_number(number: int, label_year: int) -> date:
    """The date that `number` stands for; never 29 February.

    >>> from_day_number(60, 2024), from_day_number(0, 2024)
    (datetime.date(2024, 3, 1), datetime.date(2023, 12, 31))
    """
    years, rest = divmod(number - 1, DAYS_IN_YEAR)
    month_day = date(_COMMON_YEAR, 1, 1) + timedelta(days=rest)
    return month_day.replace(year=label_year + years)
