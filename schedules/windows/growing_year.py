"""One garden's year as the rules see it: frost dates and normals on one axis of day numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property, lru_cache

from schedules.climate import Climate, RiskCurve
from schedules.seasons import DAYS_IN_YEAR, Hemisphere, Side, from_day_number
from schedules.soil import READ_NEAR_DAYS, soil_as_read
from schedules.windows.practice import Practice
from schedules.windows.types import Nerve, Turn

HALF_YEAR = 182
MEDIAN = 50.0


@lru_cache(maxsize=64)  # every crop of a garden asks for those of the same climate
def _means_of_months(air_c: tuple[float, ...]) -> tuple[float, ...]:
    """Mean over the month around each day of the year, of daily normals."""
    month = range(-15, 16)
    return tuple(
        sum(air_c[(day + step) % DAYS_IN_YEAR] for step in month) / len(month) for day in range(DAYS_IN_YEAR)
    )


@dataclass(frozen=True)
class GrowingYear:
    """A climate, the year of its spring and autumn, the nerve and the published practice.

    Plants lie under a row cover that keeps `cover_c` (°C) of frost away from them; 0 for none.
    Day numbers count from 1 January of `year`. In the south the first frost that ends a spring's crops
    belongs to the calendar year after.
    """

    climate: Climate
    year: int
    nerve: Nerve
    practice: Practice
    cover_c: float = 0.0

    @property
    def south(self) -> bool:
        return self.climate.hemisphere is Hemisphere.SOUTH

    def date(self, number: int) -> date:
        """The date of a day number."""
        return from_day_number(number, self.year)

    def northern(self, number: int) -> int:
        """The same point of the year in a northern garden, for rules fitted to northern frost dates."""
        return number - HALF_YEAR if self.south else number

    def curve(self, side: Side, celsius: float) -> RiskCurve | None:
        """The risk curve of a side at a temperature, if anything is known."""
        return self.climate.risk(side, celsius)

    def last_frost(self, celsius: float = 0.0, percent: float = MEDIAN) -> int | None:
        """Day on or after which a freeze comes in `percent` of springs; `None` if unknown or too rare."""
        curve = self.curve(Side.LAST, celsius)
        return None if curve is None else curve.day(percent)

    def first_frost(self, turn: Turn, celsius: float = 0.0, percent: float = MEDIAN) -> int | None:
        """Day on or before which the freeze that ends a turn's crops comes in `percent` of years."""
        curve = self.curve(Side.FIRST, celsius)
        day = None if curve is None else curve.day(percent)
        if day is None:
            return None
        return day + DAYS_IN_YEAR if self.south and turn is Turn.SPRING else day

    def killing(self, side: Side, celsius: float) -> float:
        """The air temperature (°C) at which plants that die at `celsius` do so under their cover.

        Where the dates known do not reach so low, the coldest freeze that they tell of counts.
        """
        known = self.climate.known_from(side, round(celsius - self.cover_c, 2))
        return celsius if known is None else min(known, celsius)

    def ending_freeze(self, turn: Turn, dies_at_c: float) -> tuple[int | None, dict[str, object]]:
        """The day by which the freeze that ends a turn's crops has come at the nerve, and what it rests on.

        The values are those of a reason, empty where there is no such day.
        """
        celsius = self.killing(Side.FIRST, dies_at_c)
        day = self.first_frost(turn, celsius, self.accepted_percent)
        if day is None:
            return None, {}
        cover = round(dies_at_c - celsius, 2)
        return day, {
            "freeze": self.date(day),
            "percent": self.accepted_percent,
            "celsius": celsius,
            "cover_c": cover,
        }

    @property
    def accepted_percent(self) -> float:
        """The nerve as a percentage; published practice stands for the even chance."""
        return MEDIAN if self.nerve.percent is None else self.nerve.percent

    @cached_property
    def coldest_day(self) -> int:
        """The middle of winter before this year's spring, from the normals."""
        day = self._month_means.index(min(self._month_means)) + 1
        return day if self.south or day < DAYS_IN_YEAR - HALF_YEAR // 2 else day - DAYS_IN_YEAR

    @cached_property
    def _hottest(self) -> int:
        return self._month_means.index(max(self._month_means)) + 1

    @cached_property
    def _month_means(self) -> Sequence[float]:
        air = self.climate.air_c
        if air is None:
            raise ValueError("a climate without normals has no coldest day")
        return _means_of_months(tuple(air))

    def hottest_day(self, turn: Turn) -> int:
        """The middle of summer after this year's spring, or before this year's autumn."""
        after = self.coldest_day + (self._hottest - self.coldest_day) % DAYS_IN_YEAR
        return after - DAYS_IN_YEAR if turn is Turn.AUTUMN and self.south else after

    def midwinter_after(self, turn: Turn) -> int:
        """The middle of the winter that follows the turn's summer."""
        return self.hottest_day(turn) + (self.coldest_day - self.hottest_day(turn)) % DAYS_IN_YEAR

    def air(self, number: int) -> float:
        """Normal mean air temperature (°C) of the month around a day number."""
        return self._month_means[(number - 1) % DAYS_IN_YEAR]

    def soil(self, number: int) -> float | None:
        """Normal soil temperature (°C) at seed depth on a day number."""
        soil = self.soil_c
        return None if soil is None else soil[(number - 1) % DAYS_IN_YEAR]

    @cached_property
    def soil_c(self) -> Sequence[float] | None:
        """Soil temperature (°C) of each day of this year: the normals, corrected by what was read in it."""
        soil_c = self.climate.soil_c
        return None if soil_c is None else soil_as_read(soil_c, self.climate.soil_read, self.year)

    @property
    def hiding_soil_c(self) -> Sequence[float] | None:
        """The soil in which seed counts as hidden from frost: the normals of the station alone.

        Soil that was read cold must not have seed sown earlier because it would lie for longer.
        """
        return self.climate.station_soil_c

    @property
    def unread(self) -> GrowingYear:
        """The same year as the normals alone tell it, without what the soil thermometer showed."""
        return replace(self, climate=replace(self.climate, soil_read=())) if self.climate.soil_read else self

    def soil_read_near(self, number: int) -> dict[str, object]:
        """For a reason: the day of the soil thermometer's reading that decides about a day, if one does."""
        day = self.date(number)
        near = [read.day for read in self.climate.soil_read if abs((read.day - day).days) <= READ_NEAR_DAYS]
        return {"read": min(near, key=lambda read: abs((read - day).days))} if near else {}

    @property
    def has_normals(self) -> bool:
        """Whether daily normals are known."""
        return self.climate.air_c is not None
