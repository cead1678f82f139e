"""A period in summary, put together once for page, PDF and CSV: of a garden, a plot or a member."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from io import BytesIO

from django.db.models import QuerySet

from crops.models import Crop
from plots.models import Garden, Plot, User
from schedules.access import Known, logs_to_read
from schedules.climate import Climate
from schedules.entries import BEGINNINGS, windows_of_way
from schedules.figures import Gift, Logged, Share, Totals, gifts, totals
from schedules.models import GardenClimate, LogPhoto, WorkLog
from schedules.plan_done import PlanAgainstDone, Sowing, Suggestion, plan_against_done, suggestions
from schedules.queries.diary import crops_by_key, plots_by_key, work_logged
from schedules.queries.summary import (
    assignments_of,
    garden_known,
    hours_of_member,
    logs_of_member,
    photos_to_show,
    rows_picked,
)
from schedules.service.calendar import GardenDates, PlantingDates, dated_plantings
from schedules.service.climate import chosen_climate, garden_climate
from schedules.service.measures import area_of
from schedules.service.retrospect import Ending, endings
from schedules.summary import (
    CropYield,
    Figures,
    Period,
    WorkshopHeld,
    crop_yields,
    figures_of_garden,
    figures_of_logs,
    of_period,
    share_of_plots,
)
from schedules.windows import Operation
from schedules.windows.happened import Stage
from schedules.work import Work

EARLIER = 3  # years beside the period
PHOTOS = 6
_PHOTO_PIXELS = 900
_BEGUN = {Operation.SOW: Stage.SOW, Operation.TRANSPLANT: Stage.TRANSPLANT}


@dataclass(frozen=True, kw_only=True)
class Summary:
    """What a period came to; `beside` are the same figures of the years before, the nearest first.

    `weighed_m2` is the ground on which the weighed pickings grew, where the size of all of it is known;
    `share` and `workshops` are a garden's alone.
    """

    garden: Garden
    period: Period
    figures: Figures
    beside: Sequence[tuple[Period, Figures]]
    sums: Totals
    logs: Sequence[Logged]
    yields: Sequence[CropYield]
    crops: dict[int, Crop]
    gifts: Sequence[Gift]
    sowings: Sequence[Sowing]
    plan: PlanAgainstDone
    suggestions: Sequence[Suggestion]
    endings: Sequence[Ending]
    climate: Climate | None
    photos: Sequence[LogPhoto]
    weighed_m2: float | None = None
    share: Share | None = None
    workshops: Sequence[WorkshopHeld] = ()


def garden_summary(garden: Garden, period: Period, today: date) -> Summary:
    """The whole garden's, for its landowner or who funds it; names no member."""
    periods = [period.earlier(years) for years in range(1, EARLIER + 1)]
    known = garden_known(garden, periods[-1].first, period.last)
    figures = figures_of_garden(known, period, today)
    logs = of_period(known.logs, period)
    share = share_of_plots(known, period)
    rows = WorkLog.objects.standing().filter(garden=garden, day__range=(period.first, period.last))
    workshops = [one for one in known.workshops if one.day in period]
    return _summary(
        garden,
        period,
        today,
        rows=rows,
        logs=logs,
        sowings=sowings_of(garden, garden.plots.all(), period, GardenDates.of(garden)),
        figures=figures,
        beside=_told((one, figures_of_garden(known, one, today)) for one in periods),
        share=share,
        workshops=workshops,
    )


def plot_summary(plot: Plot, user: User | None, period: Period, today: date) -> Summary:
    """One plot's, of the logs that the user may read; of all of them for who sits at the installation."""
    garden = plot.garden
    rows = WorkLog.objects.standing().filter(garden=garden) if user is None else logs_to_read(user, garden)
    readable = rows.filter(plot=plot)
    sowings = sowings_of(garden, [plot], period, GardenDates.of(garden))
    return _of_logs(garden, readable, sowings, period, today)


def member_summary(garden: Garden, person: User, period: Period, today: date) -> Summary:
    """A member's own: their plots as long as they had them, their hours, whatever they did elsewhere."""
    dates = GardenDates.of(garden)
    sowings = [
        sowing
        for held in assignments_of(garden, person)
        if (days := period.within(held.began_on, held.ended_on))
        for sowing in sowings_of(garden, [held.plot], days, dates)
    ]
    return _of_logs(garden, logs_of_member(garden, person), sowings, period, today, person=person)


def _of_logs(
    garden: Garden,
    rows: QuerySet[WorkLog],
    sowings: Sequence[Sowing],
    period: Period,
    today: date,
    *,
    person: User | None = None,
) -> Summary:
    periods = [period.earlier(years) for years in range(1, EARLIER + 1)]
    whole = Period(periods[-1].first, period.last)
    logs = work_logged(rows.filter(day__range=(whole.first, whole.last)), Known())
    if person is not None:
        logs = [one for one in logs if one.work != Work.HOURS] + [
            Logged(day, Work.HOURS, person=person.pk, minutes=minutes)
            for day, minutes in hours_of_member(garden, person, whole)
        ]
    own = of_period(logs, period)
    return _summary(
        garden,
        period,
        today,
        rows=rows.filter(day__range=(period.first, period.last)),
        logs=own,
        sowings=sowings,
        figures=figures_of_logs(own),
        beside=_told((one, figures_of_logs(of_period(logs, one))) for one in periods),
    )


def _told(columns: Iterable[tuple[Period, Figures]]) -> list[tuple[Period, Figures]]:
    """The earlier years of which anything at all is known."""
    return [
        (period, found) for period, found in columns if any(value is not None for value in found.values())
    ]


def _summary(
    garden: Garden,
    period: Period,
    today: date,
    *,
    rows: QuerySet[WorkLog],
    logs: Sequence[Logged],
    sowings: Sequence[Sowing],
    figures: Figures,
    beside: Sequence[tuple[Period, Figures]],
    share: Share | None = None,
    workshops: Sequence[WorkshopHeld] = (),
) -> Summary:
    sums = totals(logs)
    yields = crop_yields(logs, rows_picked(rows))
    chosen = chosen_climate(garden)
    climate = garden_climate(garden, chosen)
    until = min(today, period.last)
    return Summary(
        garden=garden,
        period=period,
        figures=figures,
        beside=beside,
        sums=sums,
        logs=logs,
        yields=yields,
        crops=crops_by_key(one.crop for one in yields),
        gifts=gifts(logs),
        sowings=sowings,
        plan=plan_against_done(sowings, until),
        suggestions=suggestions(sums, sowings, until, share=share, figures=figures, workshops=workshops),
        endings=_endings(garden, chosen, climate, period),
        climate=climate,
        photos=photos_to_show(rows, PHOTOS),
        weighed_m2=_weighed_m2(garden, logs),
        share=share,
        workshops=workshops,
    )


def _weighed_m2(garden: Garden, logs: Iterable[Logged]) -> float | None:
    """Square metres of the plots with weighed pickings; `None` where the size of any is not known."""
    plots = {one.plot for one in logs if one.work == Work.PICK and one.grams}
    areas = [area_of(plot) for plot in plots_by_key(garden, plots).values()]
    known = [area for area in areas if area is not None]
    return sum(known) if known and len(known) == len(plots) else None


def _endings(
    garden: Garden, chosen: GardenClimate | None, climate: Climate | None, period: Period
) -> list[Ending]:
    """The freezes of the years that the period touches; which of them lie within is for the sheet to say."""
    if chosen is None or climate is None:
        return []
    years = sorted({period.first.year, period.last.year})
    return [one for year in years for one in endings(garden, chosen, climate, year)]


def sowings_of(
    garden: Garden, plots: Iterable[Plot], period: Period, dates: GardenDates | None
) -> list[Sowing]:
    """Every sowing that was to begin, or was begun, in the period, in the order of its days."""
    years = range(period.first.year - 1, period.last.year + 1)
    found = [
        sowing
        for dated in dated_plantings(garden, plots, years, dates)
        for sowing in _sowings(dated, dates)
        if _falls_into(sowing, period)
    ]
    return sorted(
        found, key=lambda one: (one.begun or (one.planned or (period.last,))[0], one.plot, one.name)
    )


def _falls_into(sowing: Sowing, period: Period) -> bool:
    if sowing.begun is not None:
        return sowing.begun in period
    if sowing.planned is None:
        return False
    first, last = sowing.planned
    return first <= period.last and last >= period.first


def _sowings(dated: PlantingDates, dates: GardenDates | None) -> Iterable[Sowing]:
    """Of each sowing of a planting its plan, before logs moved it, and what logs tell."""
    planting, way = dated.planting, dated.way
    known = dates.all_windows_of(planting) if dates else ()
    planned = windows_of_way(known, way.turn, way.start, successions=planting.successions)
    begin = next(one for one in BEGINNINGS if one.value == way.start.value)
    for number in range(1, planting.successions + 1):
        own = {one.operation: one for one in planned if one.succession == number}
        window, harvest = own.get(begin), own.get(Operation.HARVEST)
        told = dated.told.happened.get(number)
        days = {} if told is None else {stage: done.day for stage, done in told.days.items()}
        span = None
        if window is not None and window.earliest is not None and window.latest is not None:
            span = window.earliest, window.latest
        yield Sowing(
            name=dated.name,
            plot=planting.plot.label,
            succession=number,
            successions=planting.successions,
            planned=span,
            picking_planned=harvest.earliest if harvest else None,
            begun=days.get(_BEGUN[begin]),
            first_picked=days.get(Stage.HARVEST),
            lost=days.get(Stage.KILLED),
        )


def printed_photo(photo: LogPhoto) -> bytes:
    """The picture as JPEG, no larger than a sheet needs it."""
    from PIL import Image  # lazy: only sheets need it here

    with photo.image.open("rb") as file, Image.open(file) as picture:
        picture.thumbnail((_PHOTO_PIXELS, _PHOTO_PIXELS))
        out = BytesIO()
        picture.convert("RGB").save(out, "JPEG", quality=82)
        return out.getvalue()
