"""What a plot costs for a season or for a part of one, by the garden's own rates and rule."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from fractions import Fraction

CENT = Decimal("0.01")
SQUARE_METRES = {"100sqft": 9.290304, "10m2": 10.0}


@dataclass(frozen=True, slots=True)
class Rates:
    """`per_plot` for every plot, and `per_area` for each stretch of ground of so many square metres."""

    per_plot: Decimal
    per_area: Decimal
    area_m2: float


def plot_dues(rates: Rates, *, area_m2: float | None) -> Decimal:
    """The amount for one plot, to the cent; ground that was never measured costs nothing by area.

    >>> rates = Rates(per_plot=Decimal(32), per_area=Decimal(15), area_m2=SQUARE_METRES["100sqft"])
    >>> plot_dues(rates, area_m2=18.580608)
    Decimal('62.00')
    >>> plot_dues(rates, area_m2=None)
    Decimal('32.00')
    """
    share = Decimal(area_m2 / rates.area_m2) if area_m2 else Decimal(0)
    return (rates.per_plot + rates.per_area * share).quantize(CENT, ROUND_HALF_UP)


class PartRule(StrEnum):
    """What is asked for a plot that is held for a part of the season only."""

    WHOLE = "whole"
    DAYS = "days"  # by the days held, both ends counted
    MONTHS = "months"  # a month counts for whoever holds the plot on its first day
    HALF = "half"  # half of who begins in the second half of the season; nothing off for who leaves


@dataclass(frozen=True, slots=True)
class Held:
    """The days on which a plot is held, and those of the season, first and last both counted.

    Without `until` it is held to the end.
    """

    began: date
    until: date | None
    first: date
    last: date

    @property
    def from_day(self) -> date:
        return max(self.began, self.first)

    @property
    def to_day(self) -> date:
        return self.last if self.until is None else min(self.until, self.last)


@dataclass(frozen=True, slots=True)
class Share:
    """So many of so many days, months or halves of a season."""

    part: int
    of: int

    @property
    def is_whole(self) -> bool:
        return self.part == self.of

    def amount(self, whole: Decimal) -> Decimal:
        """The share of an amount, to the cent, half a cent up.

        >>> Share(2, 3).amount(Decimal("62.00"))
        Decimal('41.33')
        """
        exact = Fraction(whole) * Fraction(self.part, self.of)
        return (Decimal(exact.numerator) / exact.denominator).quantize(CENT, ROUND_HALF_UP)


def season_share(rule: PartRule, held: Held) -> Share:
    """What part of a season's dues somebody owes who holds the plot on these days.

    By days and by months the shares of all who hold a plot one after another make up the whole.

    >>> season = date(2024, 4, 1), date(2024, 10, 31)
    >>> season_share(PartRule.MONTHS, Held(date(2024, 6, 16), None, *season))
    Share(part=4, of=7)
    """
    if rule is PartRule.DAYS:
        return Share(_days(held.from_day, held.to_day), _days(held.first, held.last))
    if rule is PartRule.MONTHS:
        starts = _month_starts(held.first, held.last)
        return Share(sum(held.from_day <= start <= held.to_day for start in starts), len(starts))
    if rule is PartRule.HALF and held.from_day > middle_of(held.first, held.last):
        return Share(1, 2)
    return Share(1, 1)


def middle_of(first: date, last: date) -> date:
    """The last day of a season's first half, which is the longer one where days are odd."""
    return first + timedelta(days=(_days(first, last) + 1) // 2 - 1)


def _days(first: date, last: date) -> int:
    return max(0, (last - first).days + 1)


def _month_starts(first: date, last: date) -> list[date]:
    """The season's first day, and the first of each later month in it."""
    months = range(first.year * 12 + first.month, last.year * 12 + last.month)
    return [first, *(date(month // 12, month % 12 + 1, 1) for month in months)]
