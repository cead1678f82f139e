"""Several stations near one garden: how they differ, how much each counts, and one series out of all.

Each station's level of a month is first brought to that of all together, so that a day on which one of them
is missing does not jump; then its share weighs it. Two stations near each other have the same cold nights:
their mean is hardly milder than either on the coldest of them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import asin, cos, radians, sin, sqrt
from statistics import fmean

from schedules.days import DayWeather

FEWEST_COMMON_DAYS = 365
"""Days that all stations must share before they can be weighed against each other."""

_EARTH_RADIUS_KM = 6371.0
_NEAREST_KM = 1.0  # nearer than this, distance tells nothing more
_FEWEST_OF_A_MONTH = 20
_VALUES: tuple[Callable[[DayWeather], float | None], ...] = (lambda day: day.tmin_c, lambda day: day.tmax_c)


class TooFewInCommonError(ValueError):
    """Stations whose records hardly overlap; `days` is how many they share."""

    def __init__(self, days: int) -> None:
        super().__init__(f"The stations share {days} days; they need {FEWEST_COMMON_DAYS}.")
        self.days = days


@dataclass(frozen=True, slots=True)
class Weighed:
    """A station's days and its share; shares need not add up to anything."""

    days: Mapping[date, DayWeather]
    share: float


@dataclass(frozen=True, slots=True)
class Difference:
    """How much colder (below 0) or warmer one station's nights are than another's, over `days` in common."""

    days: int
    tmin_c: float


def distance_km(latitude: float, longitude: float, to_latitude: float, to_longitude: float) -> float:
    """The way over ground between two places given in degrees (haversine formula).

    >>> round(distance_km(40.0, -100.0, 41.0, -100.0))
    111
    """
    high, other = radians(latitude), radians(to_latitude)
    across = sin((other - high) / 2) ** 2
    along = cos(high) * cos(other) * sin(radians(to_longitude - longitude) / 2) ** 2
    return 2 * _EARTH_RADIUS_KM * asin(sqrt(across + along))


def shares_by_distance(distances_km: Sequence[float]) -> tuple[int, ...]:
    """Whole percents by the inverse square of the distance (common practice, no source); they make 100.

    >>> shares_by_distance([10, 20]), shares_by_distance([5, 5, 5])
    ((80, 20), (34, 33, 33))
    """
    weights = [1 / max(distance, _NEAREST_KM) ** 2 for distance in distances_km]
    whole = sum(weights)
    shares = [int(100 * weight / whole) for weight in weights]
    by_rest = sorted(range(len(weights)), key=lambda at: shares[at] - 100 * weights[at] / whole)
    for at in by_rest[: 100 - sum(shares)]:
        shares[at] += 1
    return tuple(shares)


def difference(one: Mapping[date, DayWeather], other: Mapping[date, DayWeather]) -> Difference | None:
    """How the nights of `one` differ from those of `other`; `None` where no night is in both."""
    apart = [
        low - there.tmin_c
        for day, here in one.items()
        if (low := here.tmin_c) is not None
        and (there := other.get(day)) is not None
        and there.tmin_c is not None
    ]
    return Difference(len(apart), fmean(apart)) if apart else None


def blended(stations: Sequence[Weighed]) -> tuple[DayWeather, ...]:
    """One series out of several; it spans every day that any of them has, each in °C and mm.

    Raises `TooFewInCommonError` where they share too few days to be compared.
    """
    counting = [station for station in stations if station.share > 0]
    if len(counting) == 1:
        return tuple(counting[0].days[day] for day in sorted(counting[0].days))
    columns = [_blended_column(counting, value) for value in _VALUES]
    rain = _mean_rain(counting)
    days = sorted({day for column in (*columns, rain) for day in column})
    return tuple(DayWeather(day, columns[0].get(day), columns[1].get(day), rain.get(day)) for day in days)


def _blended_column(
    stations: Sequence[Weighed], value: Callable[[DayWeather], float | None]
) -> dict[date, float]:
    known = [
        {day: found for day, row in one.days.items() if (found := value(row)) is not None} for one in stations
    ]
    levels = _levels(known, [station.share for station in stations], needed=value is _VALUES[0])
    together: dict[date, float] = {}
    for day in {day for column in known for day in column}:
        parts = [
            (station.share, column[day] - level(day.month))
            for station, column, level in zip(stations, known, levels, strict=True)
            if day in column
        ]
        together[day] = _weighed_mean(parts)
    return together


def _levels(
    known: Sequence[Mapping[date, float]], shares: Sequence[float], *, needed: bool
) -> list[Callable[[int], float]]:
    """For each station, by how many °C it lies above all together in a month of the year."""
    common = set(known[0]).intersection(*known[1:])
    if len(common) < FEWEST_COMMON_DAYS:
        if needed:
            raise TooFewInCommonError(len(common))
        return [lambda _month: 0.0 for _column in known]
    whole = sum(shares)
    apart: list[dict[int, list[float]]] = [defaultdict(list) for _column in known]
    for day in common:
        together = sum(share * column[day] for share, column in zip(shares, known, strict=True)) / whole
        for column, months in zip(known, apart, strict=True):
            months[day.month].append(column[day] - together)
    return [_level(months) for months in apart]


def _level(months: Mapping[int, Sequence[float]]) -> Callable[[int], float]:
    of_year = fmean(value for values in months.values() for value in values)
    of_month = {month: fmean(values) for month, values in months.items() if len(values) >= _FEWEST_OF_A_MONTH}
    return lambda month: of_month.get(month, of_year)


def _mean_rain(stations: Iterable[Weighed]) -> dict[date, float]:
    parts: dict[date, list[tuple[float, float]]] = defaultdict(list)
    for station in stations:
        for day, row in station.days.items():
            if row.precip_mm is not None:
                parts[day].append((station.share, row.precip_mm))
    return {day: _weighed_mean(rows) for day, rows in parts.items()}


def _weighed_mean(parts: Sequence[tuple[float, float]]) -> float:
    return round(sum(share * value for share, value in parts) / sum(share for share, _value in parts), 2)
