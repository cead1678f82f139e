"""Readings of the garden's thermometers, typed one by one or read out of a logger's file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial

from django.db import transaction
from django.db.models import Q

from plots.models import Garden, User
from plots.service import record, save_changes
from schedules.days import DayWeather
from schedules.models import GardenReading
from schedules.service.calendar import GardenDates
from schedules.service.shifts import note_moved

_VALUES = ("tmin_c", "tmax_c", "soil_c")


@dataclass(frozen=True)
class Imported:
    """What a logger's file brought: days that are new or changed, the same as before, or typed by hand."""

    new: int
    unchanged: int
    typed: int


def keep_reading(*, garden: Garden, by: User, day: date, **values: float | None) -> GardenReading:
    """Keeps the values that were typed of a day; those typed before stay unless typed anew.

    Dates that the soil's warmth moves are kept as they were told before.
    """
    unknown = values.keys() - set(_VALUES)
    if unknown:
        raise TypeError(f"a reading has no {sorted(unknown)}")
    typed = {name: value for name, value in values.items() if value is not None}
    before = _dates_by_soil(garden) if "soil_c" in typed else None
    reading = _kept(garden, by, day, typed)
    told = {"what": "soil-read", "after": {"soil_c": reading.soil_c}}
    keep = partial(record, garden=garden, by=by, about=reading, **told)
    note_moved(garden=garden, before=before, keep=keep, only=_by_soil_of(day))
    return reading


@transaction.atomic
def _kept(garden: Garden, by: User, day: date, typed: Mapping[str, float]) -> GardenReading:
    _hold(garden)
    former = GardenReading.objects.filter(garden=garden, day=day).first()
    if former is None:
        return GardenReading.objects.create(garden=garden, day=day, made_by=by, **typed)
    for name, value in typed.items():
        setattr(former, name, value)
    former.from_logger = former.from_logger and typed.keys() == {"soil_c"}
    save_changes(garden=garden, by=by, row=former, what="thermometer-changed")
    return former


def remove_reading(*, reading: GardenReading, by: User) -> None:
    """Takes a day's reading off the list, as if nobody had looked."""
    dates = None if reading.soil_c is None else _dates_by_soil(reading.garden)
    before = {name: getattr(reading, name) for name in ("day", *_VALUES)}
    with transaction.atomic():
        told = {"about": reading, "what": "thermometer-removed", "before": before}
        change = record(garden=reading.garden, by=by, **told)
        reading.delete()
    note_moved(garden=reading.garden, before=dates, keep=lambda: change, only=_by_soil_of(reading.day))


def _dates_by_soil(garden: Garden) -> GardenDates | None:
    """The garden's dates, if the soil's warmth has a part in them."""
    dates = GardenDates.of(garden)
    return None if dates is None or dates.climate.soil_c is None else dates


def _by_soil_of(day: date) -> Q:
    """The plantings whose soil a reading may correct: of its year, or of a southern season of the next."""
    return Q(year__in=(day.year, day.year + 1))


@transaction.atomic
def import_readings(*, garden: Garden, days: Sequence[DayWeather], by: User) -> Imported:
    """Keeps a logger's days; what somebody typed stays, a file imported twice changes nothing."""
    _hold(garden)
    known = {row.day: row for row in GardenReading.objects.filter(garden=garden)}
    rows, unchanged, typed = [], 0, 0
    for day in days:
        former = known.get(day.day)
        if former is not None and former.air_was_typed:
            typed += 1
        elif former is not None and (former.tmin_c, former.tmax_c) == (day.tmin_c, day.tmax_c):
            unchanged += 1
        else:
            row = former or GardenReading(garden=garden, day=day.day, made_by=by)
            row.tmin_c, row.tmax_c, row.from_logger = day.tmin_c, day.tmax_c, True
            rows.append(row)
    GardenReading.objects.bulk_create(
        rows,
        update_conflicts=True,
        unique_fields=["garden", "day"],
        update_fields=["tmin_c", "tmax_c", "from_logger"],
    )
    return Imported(len(rows), unchanged, typed)


@transaction.atomic
def remove_logger_days(*, garden: Garden, first: date, last: date, by: User) -> int:
    """Takes what loggers told of these days off the list, and says of how many; soil that was read stays."""
    _hold(garden)
    told = GardenReading.objects.filter(garden=garden, from_logger=True, day__range=(first, last))
    days = told.count()
    if days:
        told.filter(soil_c__isnull=True).delete()
        told.update(tmin_c=None, tmax_c=None, from_logger=False)
        span = {"first_day": first, "last_day": last, "days": days}
        record(garden=garden, by=by, about=garden, what="logger-removed", after=span)
    return days


def _hold(garden: Garden) -> None:
    """Two who read at once wait here for each other."""
    Garden.objects.select_for_update().get(pk=garden.pk)
