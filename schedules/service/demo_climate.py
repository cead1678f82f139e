"""The demonstration's own climate: a logger that hung in the garden, and what thermometers showed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from plots.models import Garden, User
from schedules.days import DayWeather
from schedules.models import DailyWeather
from schedules.seasons import DAYS_IN_YEAR, day_number
from schedules.service.climate import garden_climate
from schedules.service.readings import import_readings, keep_reading

COLDER_C = 1.3  # on clear nights; the garden lies by the creek
SCATTER_C = (0.0, -0.4, 0.5, 0.2, -0.6, 0.3, -0.1)  # invented
LOGGED_DAYS = 75
SOIL_WARMER_C = ((20, -1.5), (12, 0.5), (4, 1.5))  # days ago, beside what the record lets expect; invented
NIGHTS_OF = 2016  # their nights stand for those of the demonstration's own year
FROST_MONTHS = (3, 4, 5, 6, 8, 9, 10)


def read_thermometers(garden: Garden, people: list[User], today: date) -> None:
    """A logger's spring beside the station's last one, one slip of the pen, this year's nights and soil."""
    coordinator, member = people[0], people[1]
    record = garden.climate.record
    spring = date(record.last_day.year, 3, 15)
    nights = DailyWeather.objects.filter(
        record=record, day__range=(spring, spring + timedelta(days=LOGGED_DAYS)), tmin_c__isnull=False
    ).order_by("day")
    import_readings(
        garden=garden, days=[_in_garden(night, at) for at, night in enumerate(nights)], by=coordinator
    )
    slip = spring + timedelta(days=9)
    keep_reading(garden=garden, by=member, day=slip, tmin_c=19.5, tmax_c=24.0)
    import_readings(garden=garden, days=_this_year(garden, today), by=coordinator)
    expected = garden_climate(garden).soil_c
    for ago, warmer in SOIL_WARMER_C:
        day = today - timedelta(days=ago)
        celsius = round(expected[(day_number(day, day.year) - 1) % DAYS_IN_YEAR] + warmer, 1)
        keep_reading(garden=garden, by=member, day=day, soil_c=celsius)


def _this_year(garden: Garden, today: date) -> list[DayWeather]:
    """The nights of this year in which frosts come and go, as if the logger had been hung up again."""
    nights = DailyWeather.objects.filter(
        record=garden.climate.record, day__year=NIGHTS_OF, day__month__in=FROST_MONTHS, tmin_c__isnull=False
    ).order_by("day")
    read = [_in_garden(night, at) for at, night in enumerate(nights)]
    moved = [replace(one, day=one.day.replace(year=today.year), tmax_c=None) for one in read]
    return [one for one in moved if one.day < today]


def _in_garden(night: DailyWeather, at: int) -> DayWeather:
    """The night as the garden had it: colder, the more so the clearer it was."""
    span = (night.tmax_c or night.tmin_c) - night.tmin_c
    colder = COLDER_C if span >= 15 else COLDER_C / 3
    low = round(night.tmin_c - colder + SCATTER_C[at % len(SCATTER_C)], 1)
    high = None if night.tmax_c is None else max(round(night.tmax_c + SCATTER_C[-at % 7], 1), low)
    return DayWeather(night.day, low, high, None)
