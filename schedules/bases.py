"""A garden's `Climate` from each of its three bases: a daily record, a published table, a mean pair."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from schedules.climate import Basis, Climate, RiskCurve
from schedules.days import DayWeather
from schedules.frost import FrostRecord
from schedules.frost_tables import DEFAULT_SPREAD_DAYS, AssumedCurve, TableCurve, TablePoint
from schedules.normals import daily_normals
from schedules.seasons import Hemisphere, Side, day_number
from schedules.soil import soil_normals
from schedules.trend import recent_since

_COMMON_YEAR = 2001


@dataclass(frozen=True, slots=True)
class TableDate:
    """One typed date; `percent`: the chance of a freeze on or after it (last), on or before it (first)."""

    celsius: float
    side: Side
    percent: float
    month: int
    day: int


def typed_day_number(month: int, day: int, side: Side, hemisphere: Hemisphere) -> int:
    """The day number of a date typed without a year.

    In the season's far half it belongs to the neighbouring year: a northern last freeze on 20 December
    comes before the spring it decides, a northern first freeze on 10 January after its autumn; in the
    south, a last freeze in January comes after its spring.

    >>> north = Hemisphere.NORTH
    >>> typed_day_number(12, 20, Side.LAST, north), typed_day_number(1, 10, Side.FIRST, north)
    (-11, 375)
    """
    year = _COMMON_YEAR
    if hemisphere is Hemisphere.NORTH:
        if side is Side.LAST and month >= 8:
            year -= 1
        elif side is Side.FIRST and month < 8:
            year += 1
    elif month == 1:
        year += 1
    return day_number(date(year, month, min(day, 28) if month == 2 else day), _COMMON_YEAR)


@dataclass(frozen=True, kw_only=True)
class RecordClimate(Climate):
    """A climate that keeps the record it was counted in, for whoever shows its years."""

    record: FrostRecord


def from_record(
    days: Iterable[DayWeather], hemisphere: Hemisphere, *, offset_c: float = 0.0, recent_only: bool = False
) -> RecordClimate:
    """The climate of a station's daily record, moved by the garden's offset in °C.

    With `recent_only` the last fifteen years alone are counted. Normals are `None` where the record is too
    short for them or has no maximums.
    """
    days = tuple(days)
    minimums = {day.day: day.tmin_c for day in days if day.tmin_c is not None}
    record = FrostRecord(minimums, hemisphere, offset_c=offset_c)
    since = recent_since(record) if recent_only else None
    if since is not None:
        record = FrostRecord(minimums, hemisphere, offset_c=offset_c, since=since)
        days = tuple(day for day in days if day.day.year >= since)
    normals = daily_normals(days, offset_c=offset_c)
    air = None if normals is None else normals.mean_c
    station = daily_normals(days) if offset_c else normals

    def risk(side: Side, celsius: float) -> RiskCurve | None:
        curve = record.curve(side, celsius)
        return None if curve.too_short else curve

    def known_from(side: Side, celsius: float) -> float | None:
        if risk(side, celsius) is not None:
            return celsius
        return next((milder.celsius for milder in record.milder(side, celsius) if not milder.too_short), None)

    return RecordClimate(
        basis=Basis.RECORD,
        hemisphere=hemisphere,
        risk=risk,
        air_c=air,
        soil_c=None if air is None else soil_normals(air, hemisphere),
        station_soil_c=None if station is None else soil_normals(station.mean_c, hemisphere),
        low_c=None if normals is None else normals.tmin_c,
        high_c=None if normals is None else normals.tmax_c,
        freeze_free=record.freeze_free_days,
        known_from=known_from,
        record=record,
    )


def from_table(dates: Iterable[TableDate], hemisphere: Hemisphere) -> Climate:
    """The climate of a typed table. Only the temperatures that it lists are known.

    Raises `ValueError` when the dates of one side and temperature do not run one way.
    """
    points: dict[tuple[Side, float], list[TablePoint]] = {}
    for row in dates:
        number = typed_day_number(row.month, row.day, row.side, hemisphere)
        points.setdefault((row.side, row.celsius), []).append(TablePoint(row.percent, number))
    curves = {key: TableCurve(*key, rows) for key, rows in points.items()}

    def known_from(side: Side, celsius: float) -> float | None:
        return min((known for of, known in curves if of is side and known >= celsius), default=None)

    return Climate(
        Basis.TABLE, hemisphere, lambda side, celsius: curves.get((side, celsius)), known_from=known_from
    )


def from_mean(
    hemisphere: Hemisphere,
    *,
    last: tuple[int, int] | None = None,
    first: tuple[int, int] | None = None,
    spread_days: float = DEFAULT_SPREAD_DAYS,
    celsius: float = 0.0,
) -> Climate:
    """The climate of a mean last and first frost as (month, day), either of which may be unknown.

    Such dates are of freezes at 0 °C unless their source says otherwise; nothing is known about other
    temperatures.
    """
    curves = {
        side: AssumedCurve(side, celsius, typed_day_number(*month_day, side, hemisphere), spread_days)
        for side, month_day in ((Side.LAST, last), (Side.FIRST, first))
        if month_day is not None
    }

    def risk(side: Side, asked_celsius: float) -> RiskCurve | None:
        return curves.get(side) if asked_celsius == celsius else None

    def known_from(side: Side, asked_celsius: float) -> float | None:
        return celsius if side in curves and asked_celsius <= celsius else None

    return Climate(Basis.MEAN, hemisphere, risk, known_from=known_from)
