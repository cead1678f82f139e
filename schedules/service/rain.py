"""Readings of the rain gauge."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from plots.models import Garden, User
from plots.service import record, save_changes
from schedules.models import RainReading


@transaction.atomic
def keep_rain(*, garden: Garden, day: date, since: date, mm: float, by: User) -> RainReading:
    """Keeps what the gauge held; a day read before is corrected, and its history says so."""
    Garden.objects.select_for_update().get(pk=garden.pk)
    former = RainReading.objects.filter(garden=garden, day=day).first()
    if former is None:
        return RainReading.objects.create(garden=garden, day=day, since=since, mm=mm, made_by=by)
    former.since, former.mm = since, mm
    save_changes(garden=garden, by=by, row=former, what="rain-changed")
    return former


def remove_rain(*, reading: RainReading, by: User) -> None:
    """Takes a reading off the list, as if the gauge had not been read."""
    with transaction.atomic():
        record(
            garden=reading.garden,
            by=by,
            about=reading,
            what="rain-removed",
            before={"day": reading.day, "since": reading.since, "mm": reading.mm},
        )
        reading.delete()
