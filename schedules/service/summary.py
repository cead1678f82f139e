"""A period in summary, put together once for page, PDF and CSV: of a garden, a plot or a member."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from io import BytesIO

from django.db.models import QuerySet

from crops.models import Crop
from plots.models import Garden, Plot, User
from schedules.access import Known, known_people, logs_to_read
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
    Figure,
    Figures,
    Period,
    WorkshopHeld,
    figures_of_garden,
    figures_of_logs,
    languages_read,
    of_period,
    share_of_plots,
)
from schedules.time_given import WorkGiven, work_given
from schedules.windows import Operation
from schedules.windows.happened import Stage
from schedules.work import Work
from schedules.yields import CropYield, crop_yields, plots_weighed

EARLIER = 3  # years beside the period
PHOTOS = 6
_PHOTO_PIXELS = 900
_A_QUARTER = timedelta(days=89)  # what a shorter time shows is no reason to change a year
_BEGUN = {Operation.SOW: Stage.SOW, Operation.TRANSPLANT: Stage.TRANSPLANT}


@dataclass(frozen=True, kw_only=True)
class Summary:
    """What a period came to; `beside` are the same figures of the years before, the nearest first.

    `until` is the last day that is counted: today, while the period still runs. `weighed_grams` were picked
    on `weighed_m2` of plots that weighed all of it, where the size of all of these is known. From `share` on
    it is a garden's alone; `hidden` is what its reader may not see.
    """

    garden: Garden
    period: Period
    until: date
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
    weighed_grams: float = 0.0
    weighed_m2: float | None = None
    share: Share | None = None
    workshops: Sequence[WorkshopHeld] = ()
    work: Sequence[WorkGiven] = ()
    languages: Mapping[str, int] = field(default_factory=dict)
    hidden: Sequence[Figure] = ()


@dataclass(frozen=True, kw_only=True)
class _OfGarden:
    """What only a whole garden's summary tells."""

    share: Share | None = None
    workshops: Sequence[WorkshopHeld] = ()
    work: Sequence[WorkGiven] = ()
    languages: Mapping[str, int] = field(default_factory=dict)
    hidden: Sequence[Figure] = ()


def garden_summary(
    garden: Garden, period: Period, today: date, *, money: bool = True, hours: bool = True
) -> Summary:
    """The whole garden's, for its landowner or who funds it; names no member.

    Dues and hours are left out where whoever asks may not see them.
    """
    periods = [period.earlier(years) for years in range(1, EARLIER + 1)]
    known = written = garden_known(garden, periods[-1].first, period.last)
    if not money:
        known = replace(known, paid=())
    if not hours:
        known = replace(known, hours=(), logs=[one for one in known.logs if one.work != Work.HOURS])
    figures = figures_of_garden(known, period, today)
    days = period.within(period.first, today)
    rows = WorkLog.objects.standing().filter(garden=garden, day__range=(period.first, period.last))
    alone = _OfGarden(hidden=[one for one, seen in ((Figure.HOURS, hours), (Figure.DUES, money)) if not seen])
    if days is not None:
        alone = replace(
            alone,
            share=share_of_plots(written, days),
            workshops=[one for one in known.workshops if one.day in days],
            work=work_given(one for one in known.hours if one.day in days),
            languages=languages_read(known, days),
        )
    return _summary(
        garden,
        period,
        today,
        rows=rows,
        logs=of_period(known.logs, period),
        sowings=sowings_of(garden, garden.plots.all(), period, GardenDates.of(garden)),
        figures=figures,
        beside=_told((one, figures_of_garden(known, one, today)) for one in periods),
        alone=alone,
    )


def plot_summary(plot: Plot, user: User | None, period: Period, today: date) -> Summary:
    """One plot's, of the logs that the user may read; of all of them for who sits at the installation.

    To whom those gave who had it before is not told to who has it now.
    """
    garden = plot.garden
    rows = WorkLog.objects.standing().filter(garden=garden) if user is None else logs_to_read(user, garden)
    readable = rows.filter(plot=plot)
    sowings = sowings_of(garden, [plot], period, GardenDates.of(garden))
    known = Known() if user is None else known_people(user, garden)
    return _of_logs(garden, readable, sowings, period, today, known)


def member_summary(garden: Garden, person: User, period: Period, today: date) -> Summary:
    """A member's own: their plots as long as they had them, their hours, whatever they did elsewhere."""
    dates = GardenDates.of(garden)
    sowings = [
        sowing
        for plot, first, last in _held_by(garden, person)
        if (days := period.within(first, last))
        for sowing in sowings_of(garden, [plot], days, dates)
        if sowing.begun or last is None or (sowing.planned and sowing.planned[1] <= last)
    ]
    return _of_logs(garden, logs_of_member(garden, person), sowings, period, today, Known(), person=person)


def _held_by(garden: Garden, person: User) -> list[tuple[Plot, date, date | None]]:
    """The plots of a member from the first to the last day; seasons that follow each other are one time."""
    found: list[tuple[Plot, date, date | None]] = []
    for one in sorted(assignments_of(garden, person), key=lambda one: (one.plot_id, one.began_on)):
        if found and found[-1][0].pk == one.plot_id:
            plot, first, last = found[-1]
            if last is None or one.began_on <= last + timedelta(days=1):
                found[-1] = plot, first, one.ended_on
                continue
        found.append((one.plot, one.began_on, one.ended_on))
    return found


def _of_logs(
    garden: Garden,
    rows: QuerySet[WorkLog],
    sowings: Sequence[Sowing],
    period: Period,
    today: date,
    known: Known,
    *,
    person: User | None = None,
) -> Summary:
    periods = [period.earlier(years) for years in range(1, EARLIER + 1)]
    whole = Period(periods[-1].first, period.last)
    logs = work_logged(rows.filter(day__range=(whole.first, whole.last)), known)
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
    alone: _OfGarden | None = None,
) -> Summary:
    alone = alone or _OfGarden()
    sums = totals(logs)
    yields = crop_yields(logs, rows_picked(rows))
    chosen = chosen_climate(garden)
    climate = garden_climate(garden, chosen)
    until = min(today, period.last)
    weighed = plots_weighed(logs)
    return Summary(
        garden=garden,
        period=period,
        until=until,
        figures=figures,
        beside=beside,
        sums=sums,
        logs=logs,
        yields=yields,
        crops=crops_by_key(one.crop for one in yields),
        gifts=gifts(logs),
        sowings=sowings,
        plan=plan_against_done(sowings, until),
        suggestions=[]
        if until - period.first < _A_QUARTER
        else suggestions(sums, sowings, until, share=alone.share, figures=figures, workshops=alone.workshops),
        endings=_endings(garden, chosen, climate, period),
        climate=climate,
        photos=photos_to_show(rows, PHOTOS),
        weighed_grams=weighed.grams,
        weighed_m2=_ground_m2(garden, weighed.plots),
        share=alone.share,
        workshops=alone.workshops,
        work=alone.work,
        languages=alone.languages,
        hidden=alone.hidden,
    )


def _ground_m2(garden: Garden, plots: Collection[int]) -> float | None:
    """Square metres of these plots; `None` where the size of any is not known."""
    areas = [area_of(plot) for plot in plots_by_key(garden, plots).values()]
    known = [area for area in areas if area is not None]
    return sum(known) if known and len(known) == len(plots) else None


def _endings(
    garden: Garden, chosen: GardenClimate | None, climate: Climate | None, period: Period
) -> list[Ending]:
    """The freezes of the years that the period touches; which of them lie within is for the sheet to say."""
    if chosen is None or climate is None:
        return []
    years = range(period.first.year - 1, period.last.year + 1)  # a winter bears the name of its first year
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
