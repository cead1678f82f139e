"""Warmth that ripens a crop: degree-days of °C, summed through a garden's normals.

The warmth of a day is what a sine wave between its minimum and its maximum holds above the crop's base
temperature, with what lies above its ceiling left out (single sine, horizontal cut-off: Baskerville and Emin
1969). Degree-days of other methods are other numbers: on a cool day of 38 and 60 °F above 50 °F, simple means
give 0, cut means 5 and the sine 3 (tests/reference/thermal_checks.json).
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate
from math import asin, pi, sqrt

from schedules.seasons import DAYS_IN_YEAR

_NOISE = 1e-9  # fifty fiftieths fall short of one by the noise of floats


def warmth_of_day(low_c: float, high_c: float, *, base_c: float, ceiling_c: float) -> float:
    """Degree-days (°C) of a day with this minimum and maximum.

    >>> round(warmth_of_day(10.0, 20.0, base_c=5.0, ceiling_c=30.0), 6)
    10.0
    """
    return _above(low_c, high_c, base_c) - _above(low_c, high_c, ceiling_c)


def _above(low_c: float, high_c: float, limit_c: float) -> float:
    """Mean height above a limit of a sine wave from `low_c` to `high_c`."""
    mean, half = (low_c + high_c) / 2, (high_c - low_c) / 2
    if low_c >= limit_c:
        return mean - limit_c
    if high_c <= limit_c:
        return 0.0
    crossing = (limit_c - mean) / half
    return ((mean - limit_c) * (pi / 2 - asin(crossing)) + half * sqrt(1 - crossing**2)) / pi


class YearOfWarmth:
    """The degree-days of each day of a year that repeats itself; day 1 is 1 January.

    Raises `ValueError` when asked to sum up in a year that has none.
    """

    def __init__(self, degree_days: Iterable[float]) -> None:
        self._until = (0.0, *accumulate(degree_days))  # before day 1, at the end of day 1, ...
        if len(self._until) != DAYS_IN_YEAR + 1:
            raise ValueError(f"a year has {DAYS_IN_YEAR} days, not {len(self._until) - 1}")

    @property
    def total(self) -> float:
        """Degree-days of the whole year."""
        return self._until[-1]

    def ready(self, begun: int, need: float) -> int:
        """The day after the one on which `need` degree-days are full, counted from day `begun` on.

        So it lies as many days after `begun` as were needed.
        """
        years, rest = self._in_years(self._sum(begun - 1) + need - _NOISE)
        return years * DAYS_IN_YEAR + bisect_left(self._until, rest) + 1

    def begun_by(self, ready: int, need: float) -> int:
        """The last day from which `need` degree-days are full before day `ready`."""
        years, rest = self._in_years(self._sum(ready - 1) - need + _NOISE)
        return years * DAYS_IN_YEAR + bisect_right(self._until, rest)

    def _in_years(self, degree_days: float) -> tuple[int, float]:
        if not self.total:
            raise ValueError("no day of the year has any warmth")
        years, rest = divmod(degree_days, self.total)
        return int(years), rest

    def _sum(self, day: int) -> float:
        """Degree-days from 1 January of the first year to the end of a day."""
        years, rest = divmod(day, DAYS_IN_YEAR)
        return years * self.total + self._until[rest]


def year_of_warmth(
    low_c: Sequence[float], high_c: Sequence[float], *, base_c: float, ceiling_c: float, most_c: float
) -> YearOfWarmth:
    """The year of the normals of minimum and maximum; no day counts for more than `most_c` degree-days."""
    return YearOfWarmth(
        min(warmth_of_day(low, high, base_c=base_c, ceiling_c=ceiling_c), most_c)
        for low, high in zip(low_c, high_c, strict=True)
    )
