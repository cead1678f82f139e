"""Changes to where a garden's frost dates come from: records, tables, mean dates, and the choice."""

from __future__ import annotations

from collections.abc import Generator, Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from plots.models import Garden
from schedules.bases import TableDate
from schedules.days import DayWeather
from schedules.models import (
    BasisChoice,
    DailyWeather,
    FrostTableDate,
    GardenClimate,
    MeanFrost,
    StationRecord,
)
from schedules.stations import StationFile
from schedules.stations.summary import as_plain, summary_of

DAYS_AT_ONCE = 3660
"""Days saved in one go: about ten years, which is also how often progress is told."""

_NAME_LONGEST = 90
_VALUES = ("tmin_c", "tmax_c", "precip_mm")


@dataclass(frozen=True)
class ImportResult:
    """What an import changed: days that are new, that got other values, and that were there already."""

    record: StationRecord
    new: int
    changed: int
    unchanged: int


def import_station(
    *, garden: Garden, station: StationFile, name: str, plan_by_it: bool = True
) -> ImportResult:
    """Keep a station's days; importing the same file twice changes nothing."""
    steps = importing_station(garden=garden, station=station, name=name, plan_by_it=plan_by_it)
    while True:
        try:
            next(steps)
        except StopIteration as finished:
            return finished.value


def importing_station(
    *, garden: Garden, station: StationFile, name: str, plan_by_it: bool = True
) -> Generator[date, None, ImportResult]:
    """As `import_station`, telling after each ten years up to which day it has come.

    Everything is one transaction: whoever stops halfway leaves nothing behind.
    """
    with transaction.atomic():
        _locked(garden)
        record = _record_for(garden, station, name)
        new, changed, unchanged = _compared(record, station.days)
        for batch in _batches(new):
            DailyWeather.objects.bulk_create(batch)
            yield batch[-1].day
        for batch in _batches(changed):
            DailyWeather.objects.bulk_create(
                batch, update_conflicts=True, unique_fields=["record", "day"], update_fields=_VALUES
            )
            yield batch[-1].day
        if new or changed:
            record.changed_at = timezone.now()
            record.save(update_fields=["changed_at"])
        if plan_by_it or not GardenClimate.objects.filter(garden=garden).exists():
            _choose(
                garden, anew=bool(new or changed), basis=BasisChoice.RECORD, record=record, weighted=False
            )
        elif new or changed:
            counts = GardenClimate.objects.filter(garden=garden)
            counts.filter(Q(record=record) | Q(weighted=True)).update(changed_at=timezone.now())
    return ImportResult(record, len(new), len(changed), unchanged)


def plans_by(garden: Garden, record: StationRecord) -> bool:
    """Whether the garden plans by a record, alone or among others."""
    chosen = GardenClimate.objects.filter(garden=garden, basis=BasisChoice.RECORD)
    counts = Q(weighted=True) if record.share else Q(record=record, weighted=False)
    return chosen.filter(counts).exists()


@transaction.atomic
def choose_basis(*, garden: Garden, basis: str, record: StationRecord | None = None) -> bool:
    """Plan by another basis; false, and nothing happens, where the garden has no such dates of its own."""
    _locked(garden)
    there = {
        BasisChoice.RECORD: record is not None and record.garden_id == garden.pk,
        BasisChoice.TABLE: garden.frost_table.exists(),
        BasisChoice.MEAN: MeanFrost.objects.filter(garden=garden).exists(),
    }
    if not there.get(basis):
        return False
    alone = {"record": record, "weighted": False} if basis == BasisChoice.RECORD else {}
    _choose(garden, basis=basis, **alone)
    return True


@transaction.atomic
def save_frost_table(*, garden: Garden, dates: Iterable[TableDate], counts_passed: bool, source: str) -> None:
    """Replace the garden's typed table, and plan by it."""
    _locked(garden)
    garden.frost_table.all().delete()
    FrostTableDate.objects.bulk_create(
        FrostTableDate(
            garden=garden,
            celsius=row.celsius,
            side=row.side,
            percent=row.percent,
            month=row.month,
            day=row.day,
        )
        for row in dates
    )
    _choose(
        garden, anew=True, basis=BasisChoice.TABLE, table_counts_passed=counts_passed, table_source=source
    )


@transaction.atomic
def save_mean_frost(
    *,
    garden: Garden,
    last: tuple[int, int] | None,
    first: tuple[int, int] | None,
    spread_days: float,
    source: str,
) -> None:
    """Replace the garden's mean dates, given as (month, day), and plan by them."""
    _locked(garden)
    last_month, last_day = last or (None, None)
    first_month, first_day = first or (None, None)
    values = {
        "last_month": last_month,
        "last_day": last_day,
        "first_month": first_month,
        "first_day": first_day,
        "spread_days": spread_days,
        "source": source,
    }
    MeanFrost.objects.update_or_create(garden=garden, defaults=values)
    _choose(garden, anew=True, basis=BasisChoice.MEAN)


@transaction.atomic
def remove_record(*, record: StationRecord) -> bool:
    """Forget a station's days; false, and nothing happens, while the garden plans by it."""
    _locked(record.garden)
    chosen = GardenClimate.objects.filter(record=record)
    if chosen.filter(basis=BasisChoice.RECORD).exists():
        return False
    weighed = GardenClimate.objects.filter(garden=record.garden_id, basis=BasisChoice.RECORD, weighted=True)
    if record.share and weighed.exists():
        return False
    chosen.update(record=None)
    record.delete()
    return True


def _locked(garden: Garden) -> None:
    """One change of a garden's climate at a time, on PostgreSQL as on SQLite."""
    Garden.objects.select_for_update().get(pk=garden.pk)


def _choose(garden: Garden, *, anew: bool = False, **values: object) -> None:
    """Set the choice; its time of change moves when it differs, or when what it rests on is new."""
    chosen = GardenClimate.objects.filter(garden=garden).first() or GardenClimate(garden=garden)
    if chosen.pk and not anew and all(getattr(chosen, key) == value for key, value in values.items()):
        return
    stations = chosen.record_id, chosen.weighted
    for key, value in values.items():
        setattr(chosen, key, value)
    if stations != (chosen.record_id, chosen.weighted):
        chosen.forget_learned()
    chosen.changed_at = timezone.now()
    chosen.save()


def _record_for(garden: Garden, station: StationFile, name: str) -> StationRecord:
    """The record that this station's days belong to, brought up to what the file tells of it.

    A station is known by its number, or, where a file has none, by the name that the coordinator gave.
    """
    own = garden.station_records.all()
    other_name = f"{name[:_NAME_LONGEST]} ({station.station_id or station.layout})"
    if station.station_id:
        record = own.filter(station_id=station.station_id).first()
    else:
        record = own.filter(station_id="", name__in=[name, other_name]).first()
    if record is None:
        taken = own.filter(name=name).exists()
        record = StationRecord(
            garden=garden, name=other_name if taken else name, station_id=station.station_id
        )
        record.first_day, record.last_day = station.days[0].day, station.days[-1].day
    record.file_format = station.layout
    record.latitude, record.longitude = station.latitude, station.longitude
    record.elevation_m = station.elevation_m
    record.first_day = min(record.first_day, station.days[0].day)
    record.last_day = max(record.last_day, station.days[-1].day)
    record.findings = as_plain(summary_of(station))
    record.save()
    return record


def _compared(
    record: StationRecord, days: Sequence[DayWeather]
) -> tuple[list[DailyWeather], list[DailyWeather], int]:
    """New and changed days as rows to save, and the number of the others.

    A quantity that the file does not hold at all keeps the values that an earlier file gave.
    """
    kept = {day: values for day, *values in record.days.values_list("day", *_VALUES)}
    held = [any(getattr(day, value) is not None for day in days) for value in _VALUES]
    new: list[DailyWeather] = []
    changed: list[DailyWeather] = []
    for day in days:
        before = kept.get(day.day, [None, None, None])
        read = (day.tmin_c, day.tmax_c, day.precip_mm)
        values = [now if known else old for now, old, known in zip(read, before, held, strict=True)]
        row = DailyWeather(record=record, day=day.day, **dict(zip(_VALUES, values, strict=True)))
        if day.day not in kept:
            new.append(row)
        elif values != before:
            changed.append(row)
    return new, changed, len(days) - len(new) - len(changed)


def _batches(rows: Sequence[DailyWeather]) -> Iterable[Sequence[DailyWeather]]:
    return (rows[start : start + DAYS_AT_ONCE] for start in range(0, len(rows), DAYS_AT_ONCE))
