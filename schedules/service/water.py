"""The water of a garden's plots: from its weather, its rain gauge, what grows there and what was poured."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from crops.water_needs import water_needs
from plots.models import Garden, Plot
from plots.queries import water_off_since
from schedules.amounts import depth_mm, litres_over
from schedules.jobs import monday_of
from schedules.models import DailyWeather, GardenClimate, WorkChoice, WorkLog
from schedules.seasons import Side, day_number
from schedules.service.calendar import GardenDates, PlantingDates, dated_plantings, years_around
from schedules.service.measures import area_of
from schedules.standing import standing_on
from schedules.water import (
    Basis,
    CropWater,
    Grown,
    WaterJob,
    Weather,
    crop_water,
    filled,
    in_season,
    is_recent,
    over_the_plot,
    owed_by_practice,
    rain_by_day,
)
from schedules.water.evaporation import reference_mm

_LOOKED_BACK_DAYS = 120
_WEEK = 7
_WARM_ENOUGH_C = 5.0  # little grows below; common practice, no source


@dataclass(frozen=True)
class PlotWater:
    """What one plot is owed this week and what that rests on, in mm; litres where its size is known."""

    plot: Plot
    basis: Basis
    growing: tuple[Grown, ...]
    crops: tuple[CropWater, ...]  # by the weather alone
    owed_mm: float
    by: date | None
    rain_mm: float  # of the last seven days
    poured_mm: float  # of the last seven days
    unmeasured: int  # waterings of these days that do not count: no amount, or a plot without a size
    off_since: date | None  # the garden's water is turned off, so that nothing is asked for
    long_dry: bool  # by the logs something owed water found too little on each of the last seven days

    @property
    def litres(self) -> float | None:
        area = area_of(self.plot)
        return None if area is None else litres_over(self.owed_mm, area)


@dataclass(frozen=True)
class _Watering:
    """A watering that was logged; without litres where nobody said how much."""

    planting: int | None
    day: date
    litres: float | None


class GardenWater:
    """The water of one garden's plots on one day, everything read once for all of them.

    `known` are the plantings of the `plots` in the years around the day, where they are read already.
    """

    def __init__(
        self,
        garden: Garden,
        plots: Sequence[Plot],
        *,
        dates: GardenDates | None,
        today: date,
        known: Iterable[PlantingDates] | None = None,
    ) -> None:
        self.garden, self.dates, self.today = garden, dates, today
        if known is None:
            known = dated_plantings(garden, plots, years_around(today), dates)
        self.off_since = water_off_since(garden, today)
        self.sunday = monday_of(today) + timedelta(days=6)
        first = today - timedelta(days=_LOOKED_BACK_DAYS)
        self.weather = _weather(garden, first, today)
        self.is_recent = is_recent(self.weather, today)
        self._filled = filled(self.weather)
        self._rain = {one.day: one.rain for one in self.weather if one.rain}
        self._waterings = _waterings(plots, first, today)
        self._growing = self._grown(known)

    def plot(self, plot: Plot) -> PlotWater:
        """What the plot is owed."""
        growing = self._growing.get(plot.pk, [])
        waterings = self._waterings.get(plot.pk, [])
        poured = {one.planting: _depths(one, waterings, plot) for one in growing}
        recent = [one for one in waterings if (self.today - one.day).days < _WEEK]
        measured = [one.litres for one in recent if one.litres is not None and area_of(plot)]
        poured_mm = depth_mm(sum(measured), area_of(plot) or 1.0)
        rain_mm = sum(mm for day, mm in self._rain.items() if 0 <= (self.today - day).days < _WEEK)
        crops = self._balances(growing, poured) if self.is_recent else ()
        if self.is_recent:
            owed = over_the_plot(crops)
        else:
            owed = owed_by_practice(rain=rain_mm, poured=poured_mm) if growing and self._is_warm() else 0.0
        return PlotWater(
            plot=plot,
            basis=Basis.WEATHER if self.is_recent else Basis.PRACTICE,
            growing=tuple(growing),
            crops=crops,
            owed_mm=0.0 if self.off_since else owed,
            by=min((one.by for one in crops if one.owed and one.by), default=None),
            rain_mm=rain_mm,
            poured_mm=poured_mm,
            unmeasured=len(recent) - len(measured),
            off_since=self.off_since,
            long_dry=any(one.owed and one.stressed_days >= _WEEK for one in crops),
        )

    def _balances(
        self, growing: Iterable[Grown], poured: Mapping[int, Mapping[date, float]]
    ) -> tuple[CropWater, ...]:
        found = (
            crop_water(one, self._filled, poured[one.planting], today=self.today, until=self.sunday)
            for one in growing
        )
        return tuple(one for one in found if one is not None)

    def _is_warm(self) -> bool:
        """Whether it is the time of year in which things drink; without any dates, always."""
        climate = self.dates.climate if self.dates else None
        if climate is None:
            return True
        today = day_number(self.today, self.today.year)
        if climate.air_c is not None:
            return climate.air_c[today - 1] >= _WARM_ENOUGH_C
        curves = climate.risk(Side.LAST, 0.0), climate.risk(Side.FIRST, 0.0)
        last, first = (curve.day(50) if curve else None for curve in curves)
        return last is None or first is None or in_season(today, last, first)

    def _grown(self, known: Iterable[PlantingDates]) -> dict[int, list[Grown]]:
        """What stands in the ground of each plot today."""
        found: dict[int, list[Grown]] = defaultdict(list)
        for dated in known:
            if one := self._in_the_ground(dated):
                found[dated.planting.plot_id].append(one)
        return {plot: _with_shares(growing) for plot, growing in found.items()}

    def _in_the_ground(self, dated: PlantingDates) -> Grown | None:
        """The planting from the day it was begun, or should have been, to its last harvest or clearing."""
        planting, told = dated.planting, dated.told
        stands = standing_on(self.today, told.start, told.happened, dated.windows, told.plot_cleared)
        if stands is None:
            return None
        facts = planting.facts()
        ground = (planting.row_length_m or 0.0) * (facts.row_spacing_m or 0.0)
        return Grown(planting.pk, dated.name, water_needs(facts), stands.since, stands.until, ground)


def plot_water(plot: Plot, *, today: date) -> PlotWater:
    """The water of one plot."""
    return GardenWater(plot.garden, [plot], dates=GardenDates.of(plot.garden), today=today).plot(plot)


def plots_water(
    garden: Garden, plots: Sequence[Plot], *, dates: GardenDates | None, today: date
) -> list[PlotWater]:
    """The water of several plots, in their order, in a bounded number of queries."""
    water = GardenWater(garden, plots, dates=dates, today=today)
    return [water.plot(plot) for plot in plots]


def water_jobs(
    garden: Garden,
    plots: Sequence[Plot],
    *,
    dates: GardenDates | None,
    today: date,
    known: Iterable[PlantingDates] | None = None,
) -> list[WaterJob]:
    """The plots that are owed water this week, in their order; `known` as for `GardenWater`."""
    water = GardenWater(garden, plots, dates=dates, today=today, known=known)
    owed = [one for one in map(water.plot, plots) if one.owed_mm]
    return [WaterJob(one.plot.pk, one.plot.label, one.owed_mm, one.litres, one.by, one.basis) for one in owed]


def _weather(garden: Garden, first: date, today: date) -> list[Weather]:
    """Every day from `first` to `today`: by the garden's newest record, and by its rain gauge above it."""
    record = garden.station_records.order_by("-last_day").first()
    rows = [] if record is None else DailyWeather.objects.filter(record=record, day__range=(first, today))
    known = {row.day: row for row in rows}
    planned_by = GardenClimate.objects.filter(garden=garden, record=record).first() if known else None
    offset = planned_by.offset_c if planned_by else 0.0
    readings = garden.rain_readings.filter(day__range=(first, today)).values_list("since", "day", "mm")
    fallen = rain_by_day({day: row.precip_mm or 0.0 for day, row in known.items()}, readings)
    days = [first + timedelta(days=step) for step in range((today - first).days + 1)]
    latitude = garden.latitude
    return [Weather(day, _reference(known.get(day), offset, latitude), fallen.get(day, 0.0)) for day in days]


def _reference(row: DailyWeather | None, offset: float, latitude: float) -> float | None:
    if row is None or row.tmin_c is None or row.tmax_c is None:
        return None
    return reference_mm(row.tmin_c + offset, row.tmax_c, latitude=latitude, day=row.day)


def _waterings(plots: Iterable[Plot], first: date, today: date) -> dict[int, list[_Watering]]:
    rows = WorkLog.objects.standing().filter(
        plot__in=list(plots), work=WorkChoice.WATER, day__range=(first, today)
    )
    found: dict[int, list[_Watering]] = defaultdict(list)
    for plot, planting, day, litres in rows.values_list("plot", "planting", "day", "litres"):
        found[plot].append(_Watering(planting, day, litres))
    return found


def _with_shares(growing: list[Grown]) -> list[Grown]:
    """Each with its share of the plot: by the ground of its rows if that is known of all, else alike."""
    ground = [one.share for one in growing]
    shares = [own / sum(ground) for own in ground] if all(ground) else [1 / len(growing)] * len(growing)
    return [replace(one, share=share) for one, share in zip(growing, shares, strict=True)]


def _depths(grown: Grown, waterings: Iterable[_Watering], plot: Plot) -> dict[date, float]:
    """The millimetres a planting got each day: its part of the plot's water, and what was for it alone."""
    area, found = area_of(plot), defaultdict(float)
    for one in waterings:
        if area and one.litres is not None and one.planting in (None, grown.planting):
            found[one.day] += depth_mm(one.litres, area * (1.0 if one.planting is None else grown.share))
    return found
