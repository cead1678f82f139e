"""Several stations near a garden: what they disagree on, and by which of them and which years to plan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.models import Garden, User
from plots.service.history import fields_of, record_fields
from schedules.bases import RecordClimate
from schedules.days import DayWeather
from schedules.models import BasisChoice, GardenClimate, StationRecord
from schedules.neighbours import (
    FEWEST_COMMON_DAYS,
    Difference,
    difference,
    distance_km,
    shares_by_distance,
)
from schedules.seasons import Hemisphere, Side
from schedules.service.climate import climate_of, garden_climate, record_days
from schedules.service.offset import OFFSET_FIELDS
from schedules.trend import Trend, trend

PERCENTS = (50, 10)


@dataclass(frozen=True)
class Compared:
    """A station as the garden sees it: how far, how much colder than the first one, and its freeze days.

    `dates` maps a side and a percent to a day number, `None` where freezes are too rare.
    """

    record: StationRecord
    distance_km: float | None
    rise_m: float | None
    seasons: int
    difference: Difference | None
    dates: Mapping[tuple[Side, int], int | None]
    is_first: bool
    proposed_share: int = 0

    @property
    def comparable(self) -> bool:
        """Whether it shares nights enough with the first station to be weighed beside it."""
        shared = self.difference
        return self.is_first or (shared is not None and shared.days >= FEWEST_COMMON_DAYS)

    @property
    def fall_m(self) -> float | None:
        """By how many metres it lies lower than the garden."""
        return None if self.rise_m is None else -self.rise_m


def compared(garden: Garden, chosen: GardenClimate | None) -> list[Compared]:
    """The garden's stations side by side at 0 °C, the one it plans by first; without any offset."""
    records = list(garden.station_records.all())
    main = chosen.record_id if chosen is not None else None
    records.sort(key=lambda record: (record.pk != main, record.name))
    series = [_by_day(record) for record in records]
    hemisphere = Hemisphere.of_latitude(garden.latitude)
    found = []
    for record, days in zip(records, series, strict=True):
        climate = climate_of(record, hemisphere)
        found.append(
            Compared(
                record=record,
                distance_km=_distance(garden, record),
                rise_m=_rise(garden, record),
                seasons=climate.record.curve(Side.LAST, 0.0).used,
                difference=None if days is series[0] else difference(days, series[0]),
                dates={
                    (side, percent): climate.record.curve(side, 0.0).day(percent)
                    for side in Side
                    for percent in PERCENTS
                },
                is_first=days is series[0],
            )
        )
    return _with_shares(found)


def _with_shares(rows: Sequence[Compared]) -> list[Compared]:
    """The rows with the shares that are proposed: by distance, or, where one is not known, even ones."""
    counting = [row for row in rows if row.comparable]
    ways = [row.distance_km for row in counting if row.distance_km is not None]
    shares = shares_by_distance(ways if len(ways) == len(counting) else [1.0] * len(counting))
    proposed = {row.record.pk: share for row, share in zip(counting, shares, strict=True)}
    return [replace(row, proposed_share=proposed.get(row.record.pk, 0)) for row in rows]


def trends(garden: Garden, chosen: GardenClimate | None) -> list[Trend]:
    """How the last fifteen years of the record differ from all of it; nothing of a short one.

    All its years are read, whichever the garden plans by.
    """
    if chosen is None:
        return []
    every = copy(chosen)
    every.recent_only = False
    climate = garden_climate(garden, every)
    if not isinstance(climate, RecordClimate):
        return []
    return [found for side in Side if (found := trend(climate.record, side)) is not None]


@transaction.atomic
def weigh_stations(*, garden: Garden, shares: Mapping[int, int], by: User) -> None:
    """Plan by several stations, each with its share in percent; else raises `ValidationError`."""
    chosen = _held(garden)
    records = list(garden.station_records.filter(pk__in=[pk for pk, share in shares.items() if share > 0]))
    if sum(shares.values()) != 100 or len(records) < 2:
        raise ValidationError(_("The shares of two stations or more have to make 100 together."))
    common = set.intersection(*(set(_nights(record)) for record in records))
    if len(common) < FEWEST_COMMON_DAYS:
        raise ValidationError(
            _("These stations have only %(days)s nights in common; a year of them is needed.")
            % {"days": len(common)}
        )
    before = fields_of(chosen, ("basis", "record", "weighted", *OFFSET_FIELDS))
    former = _weights(garden) if chosen.weighted else {}
    garden.station_records.update(share=0)
    for record in records:
        garden.station_records.filter(pk=record.pk).update(share=shares[record.pk])
    chosen.basis, chosen.weighted = BasisChoice.RECORD, True
    if chosen.record_id not in {record.pk for record in records}:
        chosen.record = max(records, key=lambda record: shares[record.pk])
    if _weights(garden) != former:
        chosen.forget_learned()
    _save(chosen)
    record_fields(garden=garden, by=by, about=chosen, what="stations-weighed", before=before)


@transaction.atomic
def plan_by_years(*, garden: Garden, recent_only: bool, by: User) -> None:
    """Plan by the last fifteen years alone, or by all."""
    chosen = _held(garden)
    before = fields_of(chosen, ("recent_only",))
    chosen.recent_only = recent_only
    _save(chosen)
    record_fields(garden=garden, by=by, about=chosen, what="years-chosen", before=before)


def _held(garden: Garden) -> GardenClimate:
    Garden.objects.select_for_update().get(pk=garden.pk)
    return GardenClimate.objects.filter(garden=garden).first() or GardenClimate(garden=garden)


def _weights(garden: Garden) -> dict[int, int]:
    return dict(garden.station_records.filter(share__gt=0).values_list("pk", "share"))


def _save(chosen: GardenClimate) -> None:
    chosen.changed_at = timezone.now()
    chosen.save()


def _by_day(record: StationRecord) -> Mapping[object, DayWeather]:
    return record_days(record.pk, record.changed_at)


def _nights(record: StationRecord) -> Sequence[object]:
    return [day for day, row in _by_day(record).items() if row.tmin_c is not None]


def _distance(garden: Garden, record: StationRecord) -> float | None:
    if None in (garden.longitude, record.latitude, record.longitude):
        return None
    return distance_km(garden.latitude, garden.longitude, record.latitude, record.longitude)


def _rise(garden: Garden, record: StationRecord) -> float | None:
    if garden.elevation_m is None or record.elevation_m is None:
        return None
    return record.elevation_m - garden.elevation_m
