"""A garden's climate out of what is stored about it, kept in memory until that changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from functools import lru_cache

from plots.models import Garden
from schedules.bases import RecordClimate, TableDate, from_mean, from_record, from_table
from schedules.climate import Climate
from schedules.days import DayWeather
from schedules.models import BasisChoice, DailyWeather, GardenClimate, StationRecord
from schedules.neighbours import Weighed, blended
from schedules.seasons import Hemisphere, Side
from schedules.soil import SoilReading

_RECORDS_KEPT = 32
_SERIES_KEPT = 4  # a station's days take megabytes, what was counted in them little
_SOIL_DAYS = 800


def garden_climate(garden: Garden, chosen: GardenClimate | None = None) -> Climate | None:
    """The climate that a garden plans by, or `None` while nothing is set; `chosen` saves a query if known."""
    chosen = chosen or chosen_climate(garden)
    if chosen is None:
        return None
    hemisphere = Hemisphere.of_latitude(garden.latitude)
    if chosen.basis == BasisChoice.RECORD:
        counted = _record_climate(
            _stations(garden, chosen), chosen.offset_c, hemisphere, recent_only=chosen.recent_only
        )
        soil_read = _soil_read(garden)
        return replace(counted, soil_read=soil_read) if soil_read else counted
    return _dates_climate(garden, chosen.basis, hemisphere)


def chosen_climate(garden: Garden) -> GardenClimate | None:
    """Which basis, record and offset a garden has chosen; its `changed_at` follows every change of them."""
    return GardenClimate.objects.select_related("record").filter(garden=garden).first()


def station_days(garden: Garden, chosen: GardenClimate) -> Mapping[date, DayWeather]:
    """The days of the station that a garden plans by, or of several as one; no offset is in them."""
    return {day.day: day for day in _series(_stations(garden, chosen))}


@lru_cache(maxsize=_SERIES_KEPT)
def record_days(record_id: int, _changed_at: datetime) -> Mapping[date, DayWeather]:
    """A station's days; kept per process, a changed record has another `_changed_at` and is read anew."""
    rows = DailyWeather.objects.filter(record_id=record_id).order_by("day")
    columns = rows.values_list("day", "tmin_c", "tmax_c", "precip_mm")
    return {row[0]: DayWeather(*row) for row in columns.iterator()}


def climate_of(record: StationRecord, hemisphere: Hemisphere) -> RecordClimate:
    """The climate of one station alone, of all its years, without any offset."""
    return _record_climate(((record.pk, record.changed_at, 100),), 0.0, hemisphere, recent_only=False)


_Station = tuple[int, datetime, int]  # key of the record, when it changed, its share in percent


def _stations(garden: Garden, chosen: GardenClimate) -> tuple[_Station, ...]:
    """The records that count for a garden."""
    if chosen.weighted:
        weighed = garden.station_records.filter(share__gt=0).order_by("pk")
        return tuple(weighed.values_list("pk", "changed_at", "share"))
    return ((chosen.record_id, chosen.record.changed_at, 100),)


def _series(stations: tuple[_Station, ...]) -> Sequence[DayWeather]:
    weighed = [Weighed(record_days(pk, changed_at), share) for pk, changed_at, share in stations]
    return tuple(weighed[0].days.values()) if len(weighed) == 1 else blended(weighed)


@lru_cache(maxsize=_RECORDS_KEPT)
def _record_climate(
    stations: tuple[_Station, ...], offset_c: float, hemisphere: Hemisphere, *, recent_only: bool
) -> RecordClimate:
    return from_record(_series(stations), hemisphere, offset_c=offset_c, recent_only=recent_only)


def _soil_read(garden: Garden) -> tuple[SoilReading, ...]:
    """What the soil thermometer showed of late; a window never reaches farther back."""
    since = garden.today() - timedelta(days=_SOIL_DAYS)
    rows = garden.readings.filter(soil_c__isnull=False, day__gte=since).order_by("day")
    return tuple(SoilReading(day, celsius) for day, celsius in rows.values_list("day", "soil_c"))


def _dates_climate(garden: Garden, basis: str, hemisphere: Hemisphere) -> Climate | None:
    if basis == BasisChoice.TABLE:
        dates = [
            TableDate(row.celsius, Side(row.side), row.percent, row.month, row.day)
            for row in garden.frost_table.all()
        ]
        return from_table(dates, hemisphere) if dates else None
    mean = getattr(garden, "mean_frost", None)
    if mean is None:
        return None
    return from_mean(hemisphere, last=mean.last, first=mean.first, spread_days=mean.spread_days)
