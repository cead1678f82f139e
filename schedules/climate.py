"""What the derivation of windows knows about a garden's weather, whatever it came from."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from schedules.frost import FreezeFreeLengths
from schedules.seasons import Hemisphere, Side
from schedules.soil import SoilReading


class Basis(StrEnum):
    """Where a garden's frost dates come from, best first."""

    RECORD = "record"
    TABLE = "table"
    MEAN = "mean"


class RiskCurve(Protocol):
    """The risk of a freeze at one temperature, on one side of the growing season.

    Day numbers are those of `schedules.seasons`, relative to the label year of the spring or autumn.
    """

    @property
    def side(self) -> Side: ...

    @property
    def celsius(self) -> float: ...

    def day(self, percent: float) -> int | None:
        """The day that a freeze comes on or after (last) or on or before (first) in `percent` of 100.

        `None` where freezes are too rare for such a day to exist.
        """
        ...

    def chance(self, day: int) -> float:
        """The share (0 to 1) of seasons with a freeze on or after (last), or on or before (first), `day`."""
        ...


@dataclass(frozen=True)
class Climate:
    """A garden's weather as the rules need it.

    `risk` gives the curve for a side and a temperature in °C, or `None` when nothing is known about that
    side. `air_c` and `soil_c` are daily normals of mean air temperature and of soil temperature at seed
    depth, `low_c` and `high_c` of daily minimum and maximum: 365 values, 1 January first, or `None` when
    there is no daily record. `freeze_free` gives the lengths of the season between the last and the first
    freeze at a temperature in °C, year by year; only a record knows them. `soil_read` is what the garden's
    own soil thermometer showed, which beats the normals near its day. `station_soil_c` is the soil without
    the garden's offset, by which seed is counted as hidden from frost: an offset is learned from nights, and
    a colder garden must not be sown earlier because its seed would lie for longer. `known_from` gives, for a
    side, the lowest temperature from one on of which `risk` knows anything, `None` where there is none.
    """

    basis: Basis
    hemisphere: Hemisphere
    risk: Callable[[Side, float], RiskCurve | None]
    air_c: Sequence[float] | None = None
    soil_c: Sequence[float] | None = None
    station_soil_c: Sequence[float] | None = None
    low_c: Sequence[float] | None = None
    high_c: Sequence[float] | None = None
    freeze_free: Callable[[float], FreezeFreeLengths] | None = None
    soil_read: tuple[SoilReading, ...] = ()
    known_from: Callable[[Side, float], float | None] = lambda side, celsius: None
