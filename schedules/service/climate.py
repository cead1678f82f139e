"""A garden's climate out of what is stored about it, kept in memory until that changes."""

from __future__ import annotations

from datetime import datetime
from functools import lru_cache

from plots.models import Garden
from schedules.bases import TableDate, from_mean, from_record, from_table
from schedules.climate import Climate
from schedules.days import DayWeather
from schedules.models import BasisChoice, DailyWeather, GardenClimate
from schedules.seasons import Hemisphere, Side

_RECORDS_KEPT = 32


def garden_climate(garden: Garden, chosen: GardenClimate | None = None) -> Climate | None:
    """The climate that a garden plans by, or `None` while nothing is set; `chosen` saves a query if known."""
    chosen = chosen or chosen_climate(garden)
    if chosen is None:
        return None
    hemisphere = Hemisphere.of_latitude(garden.latitude)
    if chosen.basis == BasisChoice.RECORD:
        return _record_climate(chosen.record_id, chosen.record.changed_at, chosen.offset_c, hemisphere)
    return _dates_climate(garden, chosen.basis, hemisphere)


def chosen_climate(garden: Garden) -> GardenClimate | None:
    """Which basis, record and offset a garden has chosen; its `changed_at` follows every change of them."""
    return GardenClimate.objects.select_related("record").filter(garden=garden).first()


@lru_cache(maxsize=_RECORDS_KEPT)
def _record_climate(
    record_id: int, _changed_at: datetime, offset_c: float, hemisphere: Hemisphere
) -> Climate:
    """Kept per process; a changed record has another `_changed_at` and is read anew."""
    rows = DailyWeather.objects.filter(record_id=record_id).order_by("day")
    columns = rows.values_list("day", "tmin_c", "tmax_c", "precip_mm")
    return from_record((DayWeather(*row) for row in columns.iterator()), hemisphere, offset_c=offset_c)


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
