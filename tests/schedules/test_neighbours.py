"""Several stations: shares, differences, and one series that does not jump."""

from __future__ import annotations

from datetime import date, timedelta
from math import cos, pi

import pytest

from schedules.days import DayWeather
from schedules.neighbours import (
    Difference,
    TooFewInCommonError,
    Weighed,
    blended,
    difference,
    distance_km,
    shares_by_distance,
)

FIRST = date(2020, 1, 1)


def station(*, colder: float = 0.0, days: int = 800, rain: float | None = None) -> dict[date, DayWeather]:
    found = {}
    for step in range(days):
        day = FIRST + timedelta(days=step)
        low = round(5 - 10 * cos(2 * pi * step / 365) - colder, 2)
        found[day] = DayWeather(day, low, low + 12, rain)
    return found


def test_shares_make_a_hundred_and_follow_distance() -> None:
    assert distance_km(40.40, -101.72, 40.40, -101.72) == 0.0
    assert distance_km(0.0, 179.5, 0.0, -179.5) == pytest.approx(111.2, abs=0.1)
    assert shares_by_distance([4.0, 12.0]) == (90, 10)
    assert shares_by_distance([0.1, 0.1, 8.0]) == (50, 49, 1)


def test_two_stations_are_weighed_and_a_missing_day_does_not_jump() -> None:
    valley, hill = station(colder=3.0, rain=4.0), station(rain=8.0)
    gone = [FIRST + timedelta(days=step) for step in (100, 101, 500)]
    for day in gone[:2]:
        del valley[day]
    valley[gone[2]] = DayWeather(gone[2], None, 20.0, None)
    days = blended([Weighed(valley, 75), Weighed(hill, 25)])
    assert len(days) == 800
    for row in days:
        low = hill[row.day].tmin_c - 2.25
        assert row.tmin_c == pytest.approx(low, abs=0.02)
    assert days[0].precip_mm == 5.0
    assert days[100].precip_mm == 8.0
    assert difference(valley, hill) == Difference(797, pytest.approx(-3.0))
    assert difference(valley, {}) is None


def test_a_share_of_nothing_leaves_a_station_out() -> None:
    valley, hill = station(colder=3.0), station(days=30)
    assert blended([Weighed(valley, 100), Weighed(hill, 0)]) == tuple(valley.values())


def test_stations_that_hardly_overlap_are_not_weighed() -> None:
    with pytest.raises(TooFewInCommonError) as refused:
        blended([Weighed(station(), 50), Weighed(station(days=300), 50)])
    assert refused.value.days == 300
