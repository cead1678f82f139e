"""A cold night ahead: what of that which stands in the ground it may kill, and what a cover saves.

A forecast is for the station; the garden's own difference is added to it. Young plants die at the
temperatures of their hardiness, grown ones at those that end their harvest (`windows.growth`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from itertools import groupby

from plots.spelling import natural_key

YOUNG_DAYS = 42
"""After coming up or being set out a plant counts as young so long; common practice, no source."""

MARGIN_C = 2.0
"""Forecasts miss by so much, and frost lies on leaves before a thermometer at head height shows it; value
from memory: weather services warn of frost up to 36 °F (2.2 °C)."""


class Danger(StrEnum):
    """What the night may do to a plant, worst first."""

    KILLED = "killed"
    CLOSE = "close"


@dataclass(frozen=True, slots=True, kw_only=True)
class Growing:
    """What stands in the ground; temperatures in °C.

    It shows since `shows`; with `logged` a log tells of it, else the plan alone. `covered` is it already.
    """

    planting: int
    plot: int
    plot_label: str
    name: str
    shows: date
    logged: bool
    young_dies_c: float
    grown_dies_c: float
    covered: bool = False

    def is_young(self, night: date) -> bool:
        """Whether it is still as tender as its seedlings are."""
        return night < self.shows + timedelta(days=YOUNG_DAYS)

    def dies_at_c(self, night: date) -> float:
        """The air temperature at which it dies; a grown plant is never more tender than a young one."""
        return self.young_dies_c if self.is_young(night) else min(self.grown_dies_c, self.young_dies_c)


@dataclass(frozen=True, slots=True)
class AtRisk:
    """A planting that the night endangers; `saved` where a cover's degrees are enough."""

    growing: Growing
    danger: Danger
    young: bool
    dies_at_c: float
    saved: bool


@dataclass(frozen=True, slots=True)
class PlotAtRisk:
    """The plantings of one plot that are in danger, the worst first."""

    plot: int
    label: str
    rows: tuple[AtRisk, ...]


def expected_low(forecast_c: float, offset_c: float) -> float:
    """The lowest temperature to expect in the garden, in °C.

    >>> expected_low(1.1, -1.2)
    -0.1
    """
    return round(forecast_c + offset_c, 2)


def at_risk(
    growing: Iterable[Growing], low_c: float, *, night: date, cover_c: float
) -> tuple[PlotAtRisk, ...]:
    """What a low of `low_c` endangers, by plot; a row cover keeps `cover_c` of it off."""
    rows = [row for one in growing if (row := _weighed(one, low_c, night, cover_c)) is not None]
    rows.sort(key=_order)
    by_plot = groupby(rows, key=lambda row: (row.growing.plot, row.growing.plot_label))
    return tuple(PlotAtRisk(plot, label, tuple(own)) for (plot, label), own in by_plot)


def _weighed(one: Growing, low_c: float, night: date, cover_c: float) -> AtRisk | None:
    dies_at = one.dies_at_c(night)
    under_cover = round(low_c + cover_c, 2)
    felt = under_cover if one.covered else low_c
    if felt > round(dies_at + MARGIN_C, 2):
        return None
    danger = Danger.KILLED if felt <= dies_at else Danger.CLOSE
    saved = not one.covered and under_cover > dies_at
    return AtRisk(one, danger, one.is_young(night), dies_at, saved)


def _order(row: AtRisk) -> tuple[object, ...]:
    one = row.growing
    return natural_key(one.plot_label), one.plot, row.danger is Danger.CLOSE, one.name
