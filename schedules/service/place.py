"""The place that a handout is made for, out of what a garden keeps or of frost dates typed on the spot."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from django.utils.translation import gettext as _

from crops.facts import CropFacts
from crops.models import Crop
from crops.wording.names import crop_label
from plots.models import Garden
from schedules.amounts import CAN_LITRES
from schedules.bases import from_mean
from schedules.climate import Climate
from schedules.entries import Way, is_dated, planning_year, ways
from schedules.frost import THRESHOLDS_C
from schedules.models import HoseFlow
from schedules.place import Bed, FreezeDates, MonthNormals, Place, PlaceCrop
from schedules.queries import guidance_of
from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.season import FrostChart
from schedules.risk import known_thresholds
from schedules.scouting import Advice
from schedules.seasons import DAYS_IN_YEAR, Hemisphere, Side, from_day_number
from schedules.service.calendar import GardenDates
from schedules.service.measures import can_litres
from schedules.windows import AS_PUBLISHED, Nerve, Turn, Window, derive
from schedules.wording import operation_name, tell
from schedules.wording.calendar import row_name, succession_text
from schedules.wording.climate import climate_source_text, threshold_text
from schedules.wording.risk import chart_of, month_day

PERCENTS = (10, 30, 50, 70, 90)
_USUAL_BED = {"us": Bed(1.2192, 2.4384), "metric": Bed(1.2, 2.4)}  # 4 by 8 feet; common practice, no source
_COMMON_YEAR = 2001
MonthDay = tuple[int, int]


def place_of(
    garden: Garden,
    *,
    crops: Iterable[Crop] = (),
    today: date,
    year: int | None = None,
    bed: Bed | None = None,
    dates: GardenDates | None = None,
) -> Place:
    """The garden as handouts know it; without a `year` that which its pages about planting open with.

    Sums are worked for `bed`, else for a plot of the size that is commonest here. `dates` saves reading the
    climate again. A garden without frost dates gives a place without dates.
    """
    dates = dates or GardenDates.of(garden)
    place = place_in(
        None if dates is None else dates.climate,
        name=garden.name,
        record=climate_source_text(garden),
        units=garden.units,
        hemisphere=Hemisphere.of_latitude(garden.latitude),
        latitude=garden.latitude,
        nerve=AS_PUBLISHED if dates is None else dates.nerve,
        crops=[(_facts(crop, dates), crop_label(crop)) for crop in crops],
        today=today,
        year=year,
    )
    hoses = HoseFlow.objects.standing().filter(garden=garden)
    return replace(
        place,
        bed=bed or _commonest_bed(garden),
        hoses=tuple((hose.name, hose.litres_per_minute) for hose in hoses),
        can_litres=can_litres(garden),
        guidance=tuple(
            Advice(one.thing, one.signs, one.tolerate, one.prevent, one.by_hand, one.ask)
            for one in guidance_of(garden)
        ),
    )


def guest_place(
    name: str,
    *,
    last: MonthDay | None = None,
    first: MonthDay | None = None,
    crops: Iterable[Crop] = (),
    units: str,
    hemisphere: Hemisphere,
    today: date,
    year: int | None = None,
    bed: Bed | None = None,
) -> Place:
    """A guest's own place by its mean frost dates as (month, day); published practice is counted from them.

    Raises `ValueError` without any date.
    """
    if last is None and first is None:
        raise ValueError("a guest's place needs a last or a first frost date")
    place = place_in(
        from_mean(hemisphere, last=last, first=first),
        name=name,
        record=_guest_record(last, first),
        units=units,
        hemisphere=hemisphere,
        crops=[(crop.facts(), crop_label(crop)) for crop in crops],
        today=today,
        year=year,
    )
    return replace(place, guest=True, bed=bed or place.bed)


def place_in(
    climate: Climate | None,
    *,
    name: str,
    record: str,
    units: str,
    hemisphere: Hemisphere,
    crops: Iterable[tuple[CropFacts, str]],
    today: date,
    year: int | None = None,
    nerve: Nerve = AS_PUBLISHED,
    latitude: float | None = None,
) -> Place:
    """A place of this climate, with a usual bed and a usual can; each crop with its name for the reader."""
    year = year or planning_year(today, hemisphere)
    return Place(
        name=name,
        guest=False,
        units=units,
        hemisphere=hemisphere,
        year=year,
        today=today,
        record=record,
        basis=None if climate is None else climate.basis,
        nerve_percent=nerve.percent,
        freeze=_freezes(climate, year),
        season_days=_season_days(climate),
        charts=_charts(climate, units),
        crops=tuple(_crop(facts, named, climate, year, nerve, units) for facts, named in crops),
        months=_months(climate),
        bed=_USUAL_BED[units],
        hoses=(),
        can_litres=CAN_LITRES[units],
        latitude=latitude,
    )


def _guest_record(last: MonthDay | None, first: MonthDay | None) -> str:
    """Where a guest's dates come from, in one line."""
    days = {
        name: month_day(date(_COMMON_YEAR, month, min(day, 28) if month == 2 else day))
        for name, (month, day) in (("last", last or (1, 1)), ("first", first or (1, 1)))
    }
    if last is None:
        return _("Counted from a mean first frost on %(first)s, as stated for this place") % days
    if first is None:
        return _("Counted from a mean last frost on %(last)s, as stated for this place") % days
    return _("Counted from mean frost dates, %(last)s and %(first)s, as stated for this place") % days


def _facts(crop: Crop, dates: GardenDates | None) -> CropFacts:
    return crop.facts() if dates is None else dates.facts_of(crop, None)


def _crop(
    facts: CropFacts, name: str, climate: Climate | None, year: int, nerve: Nerve, units: str
) -> PlaceCrop:
    if climate is None:
        return PlaceCrop(facts, name, ())
    windows = _season(facts, climate, year, nerve)
    rows = tuple(_row(name, window, way, units) for way in ways(windows) for window in way.windows)
    return PlaceCrop(facts, name, rows, windows)


def _season(facts: CropFacts, climate: Climate, year: int, nerve: Nerve) -> tuple[Window, ...]:
    """The windows of the season that begins in the spring of `year`; in the south its autumn is the next."""
    windows = derive(facts, climate, year=year, nerve=nerve)
    if climate.hemisphere is Hemisphere.NORTH:
        return windows
    following = derive(facts, climate, year=year + 1, nerve=nerve)
    return (
        *(one for one in windows if one.turn is Turn.SPRING),
        *(one for one in following if one.turn is Turn.AUTUMN),
    )


def _row(crop: str, window: Window, way: Way, units: str) -> CalendarRow:
    told = tell(window.reasons, units)
    return CalendarRow(
        crop=row_name(crop, window.turn),
        operation=window.operation.value,
        operation_name=operation_name(window.operation),
        detail=succession_text(window.succession, way.successions),
        earliest=window.earliest,
        best=window.best,
        latest=window.latest,
        reasons=tuple(one.sentence for one in told if one.decisive or not is_dated(window)),
    )


def _freezes(climate: Climate | None, year: int) -> tuple[FreezeDates, ...]:
    """Those of the temperatures that the climate knows anything about."""
    if climate is None:
        return ()
    return tuple(
        FreezeDates(
            celsius,
            last=_dates(climate, Side.LAST, celsius, year),
            first=_dates(climate, Side.FIRST, celsius, year),
        )
        for celsius in THRESHOLDS_C
        if celsius in known_thresholds(climate)
    )


def _dates(climate: Climate, side: Side, celsius: float, year: int) -> Mapping[int, date | None]:
    curve = climate.risk(side, celsius)
    if curve is None:
        return {}
    moved = DAYS_IN_YEAR if side is Side.FIRST and climate.hemisphere is Hemisphere.SOUTH else 0
    numbers = {percent: curve.day(percent) for percent in PERCENTS}
    return {
        percent: None if number is None else from_day_number(number + moved, year)
        for percent, number in numbers.items()
    }


def _season_days(climate: Climate | None) -> int | None:
    """How long half of the seasons between freezes last at least; only a record knows."""
    if climate is None or climate.freeze_free is None:
        return None
    return climate.freeze_free(0.0).reached_in(50)


def _charts(climate: Climate | None, units: str) -> tuple[FrostChart, ...]:
    if climate is None:
        return ()
    names = [(celsius, threshold_text(celsius, units)) for celsius in known_thresholds(climate)]
    charts = [chart_of(climate, side, names, asked=None, marker=None) for side in Side]
    return tuple(chart for chart in charts if chart.curves)


def _months(climate: Climate | None) -> tuple[MonthNormals, ...]:
    if climate is None or climate.low_c is None or climate.high_c is None:
        return ()
    return tuple(
        MonthNormals(
            month,
            low_c=_mean(climate.low_c, month),
            high_c=_mean(climate.high_c, month),
            soil_c=None if climate.soil_c is None else _mean(climate.soil_c, month),
        )
        for month in range(1, 13)
    )


def _mean(normals: Sequence[float], month: int) -> float:
    days = [normals[day.timetuple().tm_yday - 1] for day in _days_of(month)]
    return sum(days) / len(days)


def _days_of(month: int) -> list[date]:
    first = date(_COMMON_YEAR, month, 1)
    days = [first + timedelta(days=step) for step in range(31)]
    return [day for day in days if day.month == month]


def _commonest_bed(garden: Garden) -> Bed:
    """A plot of the commonest size, the smaller one where two are as common; else a usual bed."""
    sides = garden.plots.filter(retired_on=None, width_m__gt=0, length_m__gt=0)
    sizes = Counter(sides.values_list("width_m", "length_m"))
    if not sizes:
        return _USUAL_BED[garden.units]
    return Bed(*min(sizes, key=lambda size: (-sizes[size], size[0] * size[1], size)))
