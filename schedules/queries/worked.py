"""What logs tell of the care of plots."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from django.db.models import OuterRef, Subquery

from plots.models import Garden, Plot
from schedules.models import WorkLog
from schedules.work import NO_VISIT


def latest_work(garden: Garden, *, until: date, plots: Iterable[Plot] | None = None) -> dict[int, WorkLog]:
    """The latest work at each plot (or at `plots`) up to a day, by the plot's key; see `work.NO_VISIT`."""
    done = WorkLog.objects.standing().filter(plot=OuterRef("pk"), day__lte=until).exclude(work__in=NO_VISIT)
    newest = Subquery(done.order_by("-day", "-pk").values("pk")[:1])
    ground = garden.plots.all() if plots is None else garden.plots.filter(pk__in=[plot.pk for plot in plots])
    logs = WorkLog.objects.filter(pk__in=ground.values_list(newest))
    return {log.plot_id: log for log in logs.only("plot", "day", "work")}
