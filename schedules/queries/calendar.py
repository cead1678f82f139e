"""What the calendar reads, each in a bounded number of queries."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from django.db.models import OuterRef, Prefetch, QuerySet

from crops.models import Planting
from crops.queries import plantings_with_facts
from plots.models import Garden, Plot, User
from schedules.anchors import TELLING, Logged
from schedules.models import CalendarFeed, WorkLog
from schedules.queries.nerve import holder_nerve


def plantings_of(garden: Garden, plots: Iterable[Plot], years: Collection[int]) -> QuerySet[Planting]:
    """The plantings in the plans of `plots` for `years`, ready to give their facts and their dates."""
    found = plantings_with_facts(garden).filter(plot__in=plots, year__in=years)
    return with_telling_logs(found.annotate(holder_nerve=holder_nerve(garden, OuterRef("plot"))))


def with_telling_logs(plantings: QuerySet[Planting]) -> QuerySet[Planting]:
    """The plantings with what `telling_logs` gives; 2 queries."""
    return plantings.prefetch_related(
        Prefetch("logs", _telling(), to_attr="telling_logs"),
        Prefetch("plot__logs", _clearings(), to_attr="clearings"),
    )


def telling_logs(planting: Planting) -> list[WorkLog]:
    """The logs that move a planting's dates, or did until they were taken back; read with `plantings_of`.

    Those of a whole plot that was cleared are among them.
    """
    own: list[WorkLog] | None = getattr(planting, "telling_logs", None)
    of_plot: list[WorkLog] | None = getattr(planting.plot, "clearings", None)
    if own is None:
        own = list(_telling().filter(planting=planting))
    if of_plot is None:
        of_plot = list(_clearings().filter(plot=planting.plot_id))
    return own + of_plot


def logged(logs: Iterable[WorkLog]) -> list[Logged]:
    """Those of `telling_logs` that stand, as `schedules.anchors` reads them."""
    return [
        Logged(log.pk, log.work, log.day, log.succession, whole_plot=log.planting_id is None)
        for log in logs
        if log.removed_at is None
    ]


def _telling() -> QuerySet[WorkLog]:
    return _read(WorkLog.objects.filter(work__in=TELLING))


def _clearings() -> QuerySet[WorkLog]:
    return _read(WorkLog.objects.of_whole_plots())


def _read(logs: QuerySet[WorkLog]) -> QuerySet[WorkLog]:
    known = logs.only("plot_id", "planting_id", "work", "day", "succession", "changed_at", "removed_at")
    return known.order_by("day", "pk")


def planted_years(plots: Iterable[Plot]) -> list[int]:
    """The years for which something stands in the plans of `plots`, earliest first."""
    standing = Planting.objects.filter(plot__in=plots, removed_at__isnull=True)
    return list(standing.order_by("year").values_list("year", flat=True).distinct())


def people_of(plot: Plot) -> list[str]:
    """The names of those who hold the plot now, the holder before the co-gardeners."""
    current = plot.assignments.on(plot.garden.today()).select_related("holder")
    found: dict[str, None] = {}
    for assignment in current.prefetch_related("co_gardeners"):
        people = [assignment.holder, *assignment.co_gardeners.all()]
        found.update((person.name, None) for person in people)
    return list(found)


def live_feed(user: User, garden: Garden) -> CalendarFeed | None:
    """The calendar address that the person uses now."""
    return CalendarFeed.objects.filter(user=user, garden=garden, revoked_at__isnull=True).first()


def feed_at(token: str) -> CalendarFeed | None:
    """The feed behind a secret; `None` for one that was revoked, never was, or belongs to nobody active."""
    live = CalendarFeed.objects.filter(token=token, revoked_at__isnull=True, user__is_active=True)
    return live.select_related("user", "garden").first()
