"""Dates as they were told before a change, each in a bounded number of queries."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from django.db.models import Count, Prefetch, Q, QuerySet

from crops.models import Planting
from crops.wording.names import crop_label
from plots.models import Garden, Plot
from schedules.models import DateBefore, DatesMoved
from schedules.shifts import Dates, Shift
from schedules.windows import Operation, Turn
from schedules.wording.calendar import row_name


def dates_moved(garden: Garden, plots: QuerySet[Plot]) -> QuerySet[DatesMoved]:
    """The changes that moved dates of these plots, latest first, each with how many."""
    rows = DatesMoved.objects.filter(garden=garden).select_related("change__undone_by")
    counted = Count("rows", filter=Q(rows__planting__plot__in=plots))
    return rows.annotate(count=counted).filter(count__gt=0).order_by("-pk")


def rows_of(moved: DatesMoved, plots: QuerySet[Plot]) -> list[Shift]:
    """What a change moved at these plots."""
    rows = moved.rows.filter(planting__plot__in=plots)
    return [
        _shift(row) for row in rows.select_related("planting__plot", "planting__crop", "planting__variety")
    ]


def told_before(planting: Planting) -> list[DatesMoved]:
    """The changes that moved dates of a planting, latest first, with its rows in `own`; 2 queries."""
    own = DateBefore.objects.filter(planting=planting)
    moved = DatesMoved.objects.filter(rows__planting=planting).distinct().select_related("change")
    found = list(moved.prefetch_related(Prefetch("rows", own, to_attr="own")))
    for one in found:
        for row in one.own:
            row.planting = planting
        one.shifts = [_shift(row) for row in one.own]
    return found


def _shift(row: DateBefore) -> Shift:
    planting = row.planting
    return Shift(
        planting=planting.pk,
        plot=planting.plot_id,
        plot_label=planting.plot.label,
        name=row_name(crop_label(planting.crop, planting.variety), Turn(planting.turn)),
        operation=Operation(row.operation),
        succession=row.succession,
        before=_dates((row.old_earliest, row.old_best, row.old_latest)),
        after=_dates((row.new_earliest, row.new_best, row.new_latest)),
    )


def _dates(days: Iterable[date | None]) -> Dates | None:
    known = [day for day in days if day is not None]
    return (known[0], known[1], known[2]) if len(known) == 3 else None
