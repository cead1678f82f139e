"""Whether a record's freezes of late come at other times than they used to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import erfc, sqrt

from schedules.frost import FrostRecord, Outcome, RecordCurve
from schedules.seasons import Side, day_number

RECENT_YEARS = 15
FEWEST_EARLIER_YEARS = 10
"""Seasons before the last fifteen below which the two are not compared (common practice, no source)."""

_MIDDLE = 50.0
_BEYOND = 1000  # a season without a freeze lies past every date


@dataclass(frozen=True, slots=True)
class Trend:
    """The middle freeze of the last fifteen years beside that of all, as day numbers.

    `by_chance` is how often so great a difference between the last fifteen and the years before would come
    about by chance alone (rank sum test, two-sided; Mann and Whitney 1947, with ties).
    """

    side: Side
    celsius: float
    recent: int | None
    every: int | None
    recent_years: int
    every_years: int
    by_chance: float

    @property
    def days_later(self) -> int | None:
        """By how many days the freezes of late come later; below 0: earlier."""
        return None if self.recent is None or self.every is None else self.recent - self.every


def recent_since(record: FrostRecord) -> int | None:
    """The first label year of the last fifteen that can be counted; `None` for a record without any."""
    used = [
        year.year
        for year in record.years(0.0)
        if any(year.of(side) not in (None, Outcome.LEFT_OUT) for side in Side)
    ]
    return max(used) - RECENT_YEARS + 1 if used else None


def trend(record: FrostRecord, side: Side, celsius: float = 0.0) -> Trend | None:
    """How the last fifteen years differ; `None` where too few years came before them."""
    since = recent_since(record)
    if since is None:
        return None
    years = record.years(celsius)
    recent = RecordCurve(side, celsius, [year for year in years if year.year >= since])
    earlier = RecordCurve(side, celsius, [year for year in years if year.year < since])
    if earlier.used < FEWEST_EARLIER_YEARS or not recent.used:
        return None
    every = record.curve(side, celsius)
    return Trend(
        side,
        celsius,
        recent.day(_MIDDLE),
        every.day(_MIDDLE),
        recent.used,
        every.used,
        rank_sum_chance(_ranked(recent), _ranked(earlier)),
    )


def rank_sum_chance(one: Sequence[float], other: Sequence[float]) -> float:
    """How often two samples of one kind lie as far apart as these, by the normal approximation.

    >>> round(rank_sum_chance([1, 2, 3, 4, 5, 6], [4, 5, 6, 7, 8, 9]), 2)
    0.04
    """
    pooled = sorted([*one, *other])
    count, total = len(one), len(pooled)
    ranks: dict[float, float] = {}
    ties = 0.0
    for value in set(pooled):
        times = pooled.count(value)
        ranks[value] = pooled.index(value) + (times + 1) / 2
        ties += times**3 - times
    over = sum(ranks[value] for value in one) - count * (total + 1) / 2
    variance = count * (total - count) / 12 * (total + 1 - ties / (total * (total - 1)))
    return erfc(max(abs(over) - 0.5, 0.0) / sqrt(2 * variance)) if variance else 1.0


def _ranked(curve: RecordCurve) -> list[float]:
    """The day numbers of a side's used seasons, those without a freeze beyond the end they stand for."""
    days: list[float] = [day_number(day, year) for year, day in curve.dates.items()]
    never = -_BEYOND if curve.side is Side.LAST else _BEYOND
    return days + [never] * (curve.used - curve.frozen)
