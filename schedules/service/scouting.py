"""What a log tells about pests and damage, kept beside it, and what a product's label forbids after it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from django.db import transaction

from crops.models import Planting
from plots.models import Plot
from schedules.entries import Entry, held_back
from schedules.intervals import Treated, hold_on
from schedules.models import Sighting, Treatment, WorkLog
from schedules.scouting import Seen, Used
from schedules.windows import Operation
from schedules.work import Work


@transaction.atomic
def attach(*, log: WorkLog, seen: Seen | None = None, used: Used | None = None) -> None:
    """Makes what hangs on the log what is told now; what is told no more goes."""
    if seen is None:
        Sighting.objects.filter(log=log).delete()
    else:
        values = {"seen": seen.thing, "seen_on": seen.on, "severity": seen.severity}
        Sighting.objects.update_or_create(log=log, defaults=values)
    if used is None:
        Treatment.objects.filter(log=log).delete()
    else:
        told = {"product": used.product, "label_days": used.label_days, "asked": used.asked}
        Treatment.objects.update_or_create(log=log, defaults=told)


def picked_too_early(treatment: Treatment) -> list[WorkLog]:
    """Pickings of what a product reaches, from its day until its label's days are past; one query."""
    log = treatment.log
    used = Treated(
        log.plot_id, log.day, treatment.label_days, treatment.product, log.planting_id,
        log.crop_grown.pk if log.crop_grown else None,
    )  # fmt: skip
    picked = WorkLog.objects.standing().filter(
        plot=log.plot_id, work=Work.PICK, day__gte=used.day, day__lt=used.until
    )
    return [
        row
        for row in picked.select_related("planting__crop", "crop").order_by("day", "pk")
        if used.reaches(
            plot=used.plot, planting=row.planting_id, crop=row.crop_grown.pk if row.crop_grown else None
        )
    ]


def treated_at(plots: Iterable[Plot | int]) -> list[Treated]:
    """Products used at `plots` (or their keys), by logs that stand; one query."""
    rows = Treatment.objects.filter(log__plot__in=list(plots), log__removed_at__isnull=True).values_list(
        "log__plot", "log__day", "label_days", "product", "log__planting", "log__planting__crop", "log__crop"
    )
    return [
        Treated(plot, day, days, product, planting, grown or crop)
        for plot, day, days, product, planting, grown, crop in rows
    ]


def holds_on(entries: list[Entry], plantings: Iterable[Planting]) -> list[Entry]:
    """The rows of these plantings, each harvest with what a label forbids there; one query, or none."""
    if not any(row.operation is Operation.HARVEST for row in entries):
        return entries
    crops = {planting.pk: planting.crop_id for planting in plantings}
    return held_back(entries, treated_at({row.plot for row in entries}), crops)


def hold_at(plot: Plot, *, planting: int | None = None, crop: int | None = None, day: date) -> Treated | None:
    """What forbids picking at the plot on `day`, if a product's label does."""
    treated = treated_at([plot])
    return hold_on(treated, plot=plot.pk, planting=planting, crop=crop, day=day)
