"""A cold night ahead at a garden's plots, and the notice about it, which a person sends."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from uuid import UUID, uuid5

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from crops.models import Planting
from plots.models import Assignment, Audience, Garden, Notice, Plot, User
from plots.service import keep_notice
from plots.spelling import natural_key
from schedules.models import BasisChoice, WorkLog
from schedules.seasons import day_number, from_day_number
from schedules.service.calendar import GardenDates, PlantingDates, dated_plantings, years_around
from schedules.service.climate import chosen_climate
from schedules.service.logs import keep_logs
from schedules.standing import Standing, sowings_on
from schedules.tonight import Growing, PlotAtRisk, at_risk, expected_low
from schedules.windows import Start
from schedules.windows.growth import YOUNG_PLANT_DIES_AT_C, dies_at, exposed_from
from schedules.windows.happened import IN_THE_GROUND, Happened, Stage
from schedules.windows.types import Turn
from schedules.work import Work


@dataclass(frozen=True)
class Tonight:
    """What is forecast, what that means in the garden, and what it endangers; temperatures in °C.

    `offset_c` is `None` where the garden has no station to differ from.
    """

    night: date
    forecast_c: float
    offset_c: float | None
    low_c: float
    cover_c: float
    plots: tuple[PlotAtRisk, ...]

    @property
    def plot_keys(self) -> list[int]:
        return [one.plot for one in self.plots]


def tonight(garden: Garden, plots: Iterable[Plot], forecast_c: float) -> Tonight:
    """What a forecast low endangers at these plots, in a bounded number of queries."""
    night = garden.today()
    chosen = chosen_climate(garden)
    offset = chosen.offset_c if chosen is not None and chosen.basis == BasisChoice.RECORD else None
    low = expected_low(forecast_c, offset or 0.0)
    dates = GardenDates.of(garden)
    known = dated_plantings(garden, plots, years_around(night), dates)
    growing = _all_growing(known, dates, night)
    found = at_risk(growing, low, night=night, cover_c=garden.row_cover_c)
    return Tonight(night, forecast_c, offset, low, garden.row_cover_c, found)


def growing_now(garden: Garden, plots: Iterable[Plot]) -> list[Growing]:
    """What shows above the ground at these plots today, by plot and name, in a bounded number of queries."""
    today, dates = garden.today(), GardenDates.of(garden)
    known = dated_plantings(garden, plots, years_around(today), dates)
    found = _all_growing(known, dates, today)
    return sorted(found, key=lambda one: (natural_key(one.plot_label), one.plot, one.name))


@transaction.atomic
def keep_losses(
    *, garden: Garden, plantings: Iterable[Planting], day: date, by: User, key: UUID
) -> list[WorkLog]:
    """Logs each of these plantings as lost to frost, all or none; the same `key` keeps them once.

    The caller has asked `plots.access` whether `by` may write logs there. Raises `ValidationError` by field.
    """
    rows: list[WorkLog] = []
    for one in plantings:
        told = {"planting": one, "day": day, "person": by, "by": by, "key": uuid5(key, str(one.pk))}
        rows += keep_logs(garden=garden, work=Work.KILLED, plots=[one.plot], **told).rows
    return rows


def _all_growing(known: Iterable[PlantingDates], dates: GardenDates | None, day: date) -> list[Growing]:
    return [one for dated in known for one in _growing(dated, dates, day)]


def _growing(dated: PlantingDates, dates: GardenDates | None, night: date) -> Iterator[Growing]:
    """The youngest sowing of a planting that shows above the ground, which is the most tender one."""
    planting, told = dated.planting, dated.told
    standing = sowings_on(night, told.start, told.happened, dated.windows, told.plot_cleared)
    shown = {
        number: shows
        for number, one in standing.items()
        if (shows := _shows(dated, dates, one, told.happened.get(number, Happened()))) <= night
    }
    if not shown:
        return
    youngest = max(shown, key=lambda number: shown[number])
    facts = planting.facts()
    yield Growing(
        planting=planting.pk,
        plot=planting.plot_id,
        plot_label=planting.plot.label,
        name=dated.name,
        shows=shown[youngest],
        logged=_is_logged(told.start, told.happened.get(youngest, Happened())),
        young_dies_c=YOUNG_PLANT_DIES_AT_C[facts.hardiness],
        grown_dies_c=dies_at(facts),
        covered=planting.covered,
    )


def _is_logged(start: Start, happened: Happened) -> bool:
    return any(stage in happened.days for stage in IN_THE_GROUND[start])


def _shows(dated: PlantingDates, dates: GardenDates | None, standing: Standing, happened: Happened) -> date:
    """Since when it can be hurt: seed lies hidden until it comes up, by its log or by the soil's warmth."""
    start, planting = dated.told.start, dated.planting
    up = happened.on(Stage.CAME_UP)
    if start is Start.TRANSPLANT:
        return standing.since
    if up is not None:
        return up.day
    soil = dates and dates.course_for(planting, Turn(planting.turn), start).year.soil_c
    shows = exposed_from(planting.facts(), soil, day_number(standing.since, planting.year))
    later = [done.day for stage, done in happened.days.items() if stage is not Stage.SOW]
    by_soil = standing.since if shows is None else from_day_number(shows, planting.year)
    return min([by_soil, *later])


def people_of_plots(garden: Garden, plots: Iterable[int]) -> list[User]:
    """Who gardens these plots today, each once."""
    held = Assignment.objects.on(garden.today()).filter(plot__in=list(plots))
    found: dict[int, User] = {}
    for one in held.select_related("holder").prefetch_related("co_gardeners"):
        found.update({person.pk: person for person in (one.holder, *one.co_gardeners.all())})
    return [person for person in found.values() if person.is_active]


@transaction.atomic
def draft_notice(*, garden: Garden, plots: Iterable[int], subject: str, body: str, by: User) -> Notice:
    """Keeps a notice for the people of these plots; a person reads it over and gives it out.

    Raises `ValidationError` where nobody gardens any of them.
    """
    people = people_of_plots(garden, plots)
    if not people:
        raise ValidationError(_("Nobody gardens a plot at which something is in danger."))
    notice = Notice(garden=garden, subject=subject, body=body, audience=Audience.PICKED)
    return keep_notice(notice=notice, picked=people, by=by)
