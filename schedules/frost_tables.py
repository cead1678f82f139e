"""The risk of a freeze where there is no daily record: from a published table, or a mean and a spread.

Freeze dates of many years scatter about normally: one normal curve reproduces the National Weather
Service's tables for Wilmington and Southport, North Carolina, within 0.05 percentage points
(tests/reference/frost_expected.json). So dates between two published chances are read off on normal scores,
and dates beyond them follow the normal tail.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import NormalDist

from schedules.frost import half_up
from schedules.seasons import Side

DEFAULT_SPREAD_DAYS = 12.0
"""Standard deviation in days assumed when a source prints a mean date alone.

Published ones in North Carolina run from 8 to 20 days (NC State Extension, seven stations), in Georgetown,
Delaware, from 9 to 12, and the record of Champion, Nebraska, gives 12.5 in spring and 9.5 in autumn.
"""

_STANDARD = NormalDist()


def _score(percent: float, side: Side) -> float:
    """How many spreads after its mean date the date with this chance lies."""
    if not 0 < percent < 100:
        raise ValueError(f"A chance must lie between 0 and 100 percent, not at {percent}.")
    score = _STANDARD.inv_cdf(percent / 100)
    return -score if side is Side.LAST else score


def _chance(score: float, side: Side) -> float:
    return _STANDARD.cdf(-score if side is Side.LAST else score)


@dataclass(frozen=True, slots=True)
class AssumedCurve:
    """A normal curve about a mean date; implements `schedules.climate.RiskCurve`.

    `mean_day` is a day number (fractions allowed), `spread_days` a standard deviation above 0.
    """

    side: Side
    celsius: float
    mean_day: float
    spread_days: float = DEFAULT_SPREAD_DAYS

    def __post_init__(self) -> None:
        if self.spread_days <= 0:
            raise ValueError("The spread must be more than 0 days.")

    def day(self, percent: float) -> int:
        """The day number that a freeze comes on or after (last), or on or before (first), in `percent` of
        100."""
        return half_up(self.mean_day + self.spread_days * _score(percent, self.side))

    def chance(self, day: int) -> float:
        """The share (0 to 1) of seasons with a freeze on or after (last), or on or before (first), `day`."""
        return _chance((day - self.mean_day) / self.spread_days, self.side)


@dataclass(frozen=True, slots=True)
class TablePoint:
    """A published date: a freeze comes on or after (last), or on or before (first) it, in `percent` of
    100."""

    percent: float
    day: int


class TableCurve:
    """A curve through published dates; implements `schedules.climate.RiskCurve`.

    Between two dates it is linear on normal scores; beyond the outermost it goes on with the spread that
    all of them together show, or with `DEFAULT_SPREAD_DAYS` when there is only one.
    """

    def __init__(self, side: Side, celsius: float, points: Sequence[TablePoint]) -> None:
        """Raise `ValueError` when there are no points, or when they do not run one way."""
        self.side = side
        self.celsius = celsius
        ordered = sorted(points, key=lambda point: _score(point.percent, side))
        if not ordered:
            raise ValueError("A table needs at least one date.")
        if first_disorder(side, points) is not None:
            raise ValueError("The dates of the table do not run in the order of their chances.")
        self._scores = [_score(point.percent, side) for point in ordered]
        self._days = [float(point.day) for point in ordered]
        self.spread_days = DEFAULT_SPREAD_DAYS
        if len(ordered) > 1:
            self.spread_days = (self._days[-1] - self._days[0]) / (self._scores[-1] - self._scores[0])

    def day(self, percent: float) -> int:
        """The day number that a freeze comes on or after (last), or on or before (first), in `percent` of
        100."""
        score = _score(percent, self.side)
        if score <= self._scores[0]:
            return half_up(self._days[0] + self.spread_days * (score - self._scores[0]))
        for (left, right), (early, late) in zip(pairwise(self._scores), pairwise(self._days), strict=True):
            if score <= right:
                return half_up(early + (late - early) * (score - left) / (right - left))
        return half_up(self._days[-1] + self.spread_days * (score - self._scores[-1]))

    def chance(self, day: int) -> float:
        """The share (0 to 1) of seasons with a freeze on or after (last), or on or before (first), `day`."""
        return _chance(self._score_of(day), self.side)

    def _score_of(self, day: int) -> float:
        if day < self._days[0]:
            return self._scores[0] + (day - self._days[0]) / self.spread_days
        for (left, right), (early, late) in zip(pairwise(self._scores), pairwise(self._days), strict=True):
            if day <= late:
                return left + (right - left) * (day - early) / (late - early)
        return self._scores[-1] + (day - self._days[-1]) / self.spread_days


def first_disorder(side: Side, points: Sequence[TablePoint]) -> tuple[TablePoint, TablePoint] | None:
    """The first two points whose dates contradict their chances, or `None`.

    A rarer last freeze must come later and a rarer first freeze earlier; most often a table that counts the
    other way round gives itself away here.
    """
    ordered = sorted(points, key=lambda point: _score(point.percent, side))
    for early, late in pairwise(ordered):
        if late.day <= early.day or late.percent == early.percent:
            return early, late
    return None
