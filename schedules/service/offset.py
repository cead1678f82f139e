"""How the garden differs from its station, out of stored readings, and taking it into every date."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from plots.models import Garden, User
from plots.service.history import fields_of, record_fields
from schedules.bases import RecordClimate
from schedules.days import DayWeather
from schedules.models import BasisChoice, GardenClimate
from schedules.offset import Estimate, Learned, learn_offset
from schedules.service.climate import garden_climate, station_days

OFFSET_FIELDS = ("offset_c", "offset_half_c", "offset_nights")


def learned_offset(garden: Garden, chosen: GardenClimate | None) -> Learned | None:
    """What the garden's nights tell beside its station's; `None` for a garden that has no station."""
    if chosen is None or chosen.basis != BasisChoice.RECORD:
        return None
    readings = [DayWeather(*row, None) for row in garden.readings.values_list("day", "tmin_c", "tmax_c")]
    if not readings:
        return Learned(paired=0, counted=0, by_clear_nights=False)
    climate = garden_climate(garden, chosen)
    return learn_offset(
        readings, station_days(garden, chosen), normal_span_c=_normal_span(climate, chosen.offset_c)
    )


def _normal_span(climate: object, offset_c: float) -> list[float] | None:
    """From the station's normal minimum to its maximum, day by day; the garden's offset is not in it."""
    if not isinstance(climate, RecordClimate) or climate.low_c is None or climate.high_c is None:
        return None
    return [high - (low - offset_c) for low, high in zip(climate.low_c, climate.high_c, strict=True)]


def accept_offset(*, garden: Garden, estimate: Estimate, by: User) -> None:
    """Takes a learned offset into every date of the garden; its uncertainty, who and when are kept."""
    _set(
        garden,
        by,
        "offset-accepted",
        offset_c=estimate.offset_c,
        offset_half_c=estimate.half_width_c,
        offset_nights=estimate.nights,
    )


def set_offset(*, garden: Garden, offset_c: float, by: User | None = None) -> None:
    """Take the garden as this many °C warmer (or, below 0, colder) than its station, as somebody says."""
    _set(garden, by, "offset-changed", offset_c=offset_c, offset_half_c=None, offset_nights=None)


@transaction.atomic
def _set(garden: Garden, by: User | None, what: str, **values: float | None) -> None:
    Garden.objects.select_for_update().get(pk=garden.pk)
    chosen = GardenClimate.objects.filter(garden=garden).first()
    if chosen is None:
        return
    before = fields_of(chosen, OFFSET_FIELDS)
    for name, value in values.items():
        setattr(chosen, name, value)
    chosen.offset_by, chosen.offset_on = by, garden.today()
    chosen.changed_at = timezone.now()
    chosen.save()
    record_fields(garden=garden, by=by, about=chosen, what=what, before=before)
