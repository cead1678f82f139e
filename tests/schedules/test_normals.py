"""Daily normals: smooth, true to the means, and refused where a record cannot carry them."""

from __future__ import annotations

from datetime import date, timedelta
from math import cos, pi

import pytest

from schedules.days import DayWeather
from schedules.normals import daily_normals
from schedules.seasons import day_number
from tests.schedules.records import champion


def wave(day: date) -> float:
    return 10 + 12 * cos(2 * pi * (day_number(day, day.year) - 200) / 365)


def years(count: int, *, start: date = date(2001, 1, 1)) -> list[DayWeather]:
    days = [start + timedelta(days=n) for n in range(365 * count)]
    return [DayWeather(day, wave(day) - 5, wave(day) + 5) for day in days]


def test_a_pure_wave_is_given_back():
    normals = daily_normals(years(3))
    assert normals.mean_c[199] == pytest.approx(22, abs=1e-6)
    assert normals.tmin_c[17] == pytest.approx(wave(date(2001, 1, 18)) - 5, abs=1e-6)
    assert normals.years == pytest.approx(3)


def test_gaps_do_not_tilt_the_curve():
    whole = [day for day in years(5) if not (day.day.year > 2001 and day.day.month in (2, 3))]
    normals = daily_normals(whole)
    assert max(abs(normals.mean_c[n] - wave(date(2001, 1, 1) + timedelta(days=n))) for n in range(365)) < 1e-6


@pytest.mark.parametrize(
    "days",
    [years(2), [day for day in years(10) if day.day.month != 7], [], [DayWeather(date(2001, 1, 1), 1.0)]],
    ids=["two years", "never July", "nothing", "one day"],
)
def test_too_little_gives_none(days):
    assert daily_normals(days) is None


def test_a_record_without_maximums_has_no_normals():
    assert daily_normals([DayWeather(day.day, day.tmin_c) for day in years(5)]) is None


def test_a_real_record():
    normals = daily_normals(champion().days)
    by_month = [
        [day.tmin_c for day in champion().days if day.day.month == month and day.tmin_c is not None]
        for month in range(1, 13)
    ]
    starts = [date(2001, month, 1).timetuple().tm_yday - 1 for month in range(1, 13)] + [365]
    for month, values in enumerate(by_month):
        days = normals.tmin_c[starts[month] : starts[month + 1]]
        assert sum(days) / len(days) == pytest.approx(sum(values) / len(values), abs=0.5)
    steps = [abs(a - b) for a, b in zip(normals.tmin_c, normals.tmin_c[1:] + normals.tmin_c[:1], strict=True)]
    assert max(steps) < 0.4  # no jumps, over New Year neither
