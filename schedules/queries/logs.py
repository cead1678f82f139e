"""What the form of a log offers somebody, and what they logged last."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from django.db.models import Exists, OuterRef, Q, QuerySet

from crops.models import Planting
from plots.access import logs_everywhere, own_plots, plots_to_log
from plots.models import Assignment, Garden, Membership, Plot, StandIn, User, WalkBy
from plots.queries import plots_in_walk_order, site_of
from plots.queries.site import plot_box
from plots.sitemap.walk import Stop, rows_of
from schedules.anchors import grown_as, happened
from schedules.models import HoseFlow, WorkLog
from schedules.queries.calendar import logged, telling_logs, with_telling_logs
from schedules.windows import Start
from schedules.work import Work

REMEMBERED_DAYS = 400
_LEAST_FOR_ROWS = 4


@dataclass(frozen=True)
class SeveralPlots:
    """Plots that are logged together: a row of the map, the communal beds, all."""

    kind: str
    number: int
    plots: Sequence[Plot]

    @property
    def value(self) -> str:
        """As the form sends it: the keys themselves, so that a map changed meanwhile changes nothing."""
        return "-".join(str(plot.pk) for plot in self.plots)


@dataclass(frozen=True)
class LogChoices:
    """What somebody may choose from when they log something in a garden today."""

    garden: Garden
    user: User
    plots: Sequence[Plot]  # in the order of the walk
    own: Sequence[Plot]
    everywhere: bool
    together: Sequence[SeveralPlots] = ()
    plantings: Sequence[Planting] = ()
    hoses: Sequence[HoseFlow] = ()
    people: Sequence[User] = ()
    last: dict[str, WorkLog] = field(default_factory=dict)

    @property
    def near(self) -> list[Plot]:
        """The plots to tick: one's own and what all garden; the others are named by label."""
        own = {plot.pk for plot in self.own}
        shared = [plot for plot in self.plots if plot.pk not in own and not plot.is_personal]
        return [plot for plot in self.plots if plot.pk in own] + shared

    def usual_plot(self) -> Plot | None:
        """The plot that is meant where nobody says: the one logged last, else the first of one's own."""
        latest = max(self.last.values(), key=lambda log: (log.day, log.pk), default=None)
        own = {plot.pk: plot for plot in self.own}
        if latest is not None and latest.plot_id in own:
            return own[latest.plot_id]
        return self.own[0] if self.own else None


def log_choices(user: User, garden: Garden, *, chosen: Collection[int] = ()) -> LogChoices:
    """Plots, plantings, hoses and people to choose from; plantings of one's own plots and those `chosen`."""
    everywhere = logs_everywhere(user, garden)
    plots = plots_in_walk_order(plots_to_log(user, garden), garden)
    own = own_and_looked_after(user, garden)
    with_plans = {plot.pk for plot in own} | set(chosen)
    if not everywhere:
        with_plans |= {plot.pk for plot in plots}
    return LogChoices(
        garden=garden,
        user=user,
        plots=plots,
        own=own,
        everywhere=everywhere,
        together=plots_together(garden, plots),
        plantings=_standing(plantings_to_log(garden, with_plans)),
        hoses=list(HoseFlow.objects.standing().filter(garden=garden).order_by("-measured_on", "-pk")),
        people=_people(user, garden, own, everywhere=everywhere),
        last=last_logs(user, garden),
    )


def own_and_looked_after(user: User, garden: Garden) -> list[Plot]:
    """The plots that somebody gardens today, then those that they stand in for."""
    own = list(own_plots(user, garden).filter(retired_on__isnull=True))
    asked = [one.assignment.plot for one in stand_ins_of(user, garden)]
    return list({plot.pk: plot for plot in [*own, *asked]}.values())


def stand_ins_of(user: User, garden: Garden) -> list[StandIn]:
    """Whom the person was asked to stand in for, today."""
    asked = StandIn.objects.on(garden.today()).filter(person=user, assignment__plot__garden=garden)
    return list(asked.select_related("assignment__plot", "asked_by"))


def plantings_to_log(garden: Garden, plots: Collection[int]) -> QuerySet[Planting]:
    """What may stand at the plots today: of last year, this and the next, not removed, not yet cleared."""
    year = garden.today().year
    cleared = WorkLog.objects.standing().filter(
        planting=OuterRef("pk"), work=Work.CLEAR, succession__isnull=True
    )
    in_season = Q(year__gte=year - 1, year__lte=year + 1) | Q(crop__perennial=True)
    rows = Planting.objects.filter(in_season, ~Exists(cleared), plot__in=plots, removed_at=None)
    return rows.select_related("plot", "crop", "variety").order_by("plot__label", "-year", "crop__name", "pk")


def _standing(plantings: QuerySet[Planting]) -> list[Planting]:
    """Those of which a sowing is left, or still to come, where a whole plot was cleared."""
    return [one for one in with_telling_logs(plantings) if not _ended_with_its_plot(one)]


def _ended_with_its_plot(planting: Planting) -> bool:
    logs = logged(telling_logs(planting))
    if not any(one.whole_plot for one in logs):
        return False
    start = grown_as(logs, Start(planting.start), list(Start))
    told = happened(logs, start, sowings=planting.successions)
    sowings = [told.get(number) for number in range(1, planting.successions + 1)]
    return all(sowing is not None and sowing.ended for sowing in sowings)


def last_logs(user: User, garden: Garden) -> dict[str, WorkLog]:
    """By work the log that the person made last, within about a year; one query."""
    since = garden.today() - timedelta(days=REMEMBERED_DAYS)
    rows = WorkLog.objects.standing().filter(garden=garden, person=user, day__gte=since)
    found: dict[str, WorkLog] = {}
    for row in rows.select_related("plot", "planting__crop", "crop").order_by("-day", "-pk")[:200]:
        found.setdefault(row.work, row)
    return found


def last_watered(user: User, garden: Garden, plots: Collection[Plot], *, since: date) -> WorkLog | None:
    """The watering that somebody may want to log again: their last one at one of these plots."""
    rows = WorkLog.objects.standing().filter(
        garden=garden, person=user, work=Work.WATER, plot__in=plots, day__gte=since, amount__isnull=False
    )
    return rows.select_related("plot").order_by("-day", "-pk").first()


def plots_together(garden: Garden, plots: Sequence[Plot]) -> list[SeveralPlots]:
    """Rows of the map, communal beds and all plots, where there are enough of them to be worth a name."""
    if len(plots) < _LEAST_FOR_ROWS:
        return []
    known = {plot.pk: plot for plot in plots}
    stops = [Stop(plot.pk, plot.label, plot_box(plot)) for plot in plots]
    rows = rows_of(stops, columns=site_of(garden).walk_by == WalkBy.COLUMNS)
    found = [
        SeveralPlots("row", number, [known[stop.key] for stop in row])
        for number, row in enumerate(rows, start=1)
        if len(row) > 1
    ]
    communal = [plot for plot in plots if not plot.is_personal]
    if len(communal) > 1:
        found.append(SeveralPlots("communal", 0, communal))
    return [*found, SeveralPlots("all", 0, plots)]


def _people(user: User, garden: Garden, own: Sequence[Plot], *, everywhere: bool) -> list[User]:
    """Who may have done it: everybody for who logs everywhere, else the people of one's own plots."""
    if everywhere:
        rows = Membership.objects.filter(garden=garden).select_related("user").order_by("user__name")
        return [row.user for row in rows]
    held = Assignment.objects.on(garden.today()).filter(plot__in=own)
    found = {user.pk: user}
    for assignment in held.select_related("holder").prefetch_related("co_gardeners"):
        found.update({one.pk: one for one in [assignment.holder, *assignment.co_gardeners.all()]})
    return list(found.values())
