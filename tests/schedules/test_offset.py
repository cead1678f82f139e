"""The garden's offset: planted ones are found again within their stated interval, slips are named."""

from __future__ import annotations

from datetime import date, timedelta
from math import cos, pi
from random import Random

import pytest

from schedules.days import DayWeather
from schedules.misreadings import Flaw
from schedules.offset import FEWEST_NIGHTS, learn_offset, student_t_95

FIRST = date(2024, 3, 1)
SPAN = [12.0] * 365
PLANTED = -1.2


def day_after(step: int) -> date:
    return FIRST + timedelta(days=step)


def station_of(random: Random, days: int) -> dict[date, DayWeather]:
    """Weather that stays alike for some days; half the nights are clear."""
    found, mood = {}, 0.0
    for step in range(-1, days + 1):
        mood = 0.6 * mood + random.gauss(0, 3)
        low = 6 - 8 * cos(2 * pi * (step + 60) / 365) + mood
        day = day_after(step)
        found[day] = DayWeather(day, round(low, 1), round(low + random.gauss(12, 4), 1), None)
    return found


def garden_of(
    random: Random, station: dict[date, DayWeather], days: int, *, alike: float = 0.0, slips: float = 0.0
) -> list[DayWeather]:
    """Minimums of a garden that is `PLANTED` colder on clear nights and a third of that on others."""
    readings, error = [], 0.0
    for step in range(days):
        there = station[day_after(step)]
        clear = there.tmax_c - there.tmin_c >= 12
        error = alike * error + random.gauss(0, (1 - alike**2) ** 0.5)
        low = there.tmin_c + (PLANTED if clear else PLANTED / 3) + error
        if random.random() < slips:
            low = random.choice([-low, low * 1.8 + 32, there.tmax_c + 5, low * 10])
        readings.append(DayWeather(there.day, round(low, 1), None, None))
    return readings


@pytest.mark.parametrize(
    ("days", "told"), [(40, {}), (70, {"slips": 0.06}), (90, {"alike": 0.4})], ids=["few", "slips", "alike"]
)
def test_a_planted_offset_lies_within_its_stated_interval(days: int, told: dict[str, float]) -> None:
    inside = 0
    for seed in range(1000):
        random = Random(seed)  # noqa: S311
        station = station_of(random, days)
        learned = learn_offset(garden_of(random, station, days, **told), station, normal_span_c=SPAN)
        assert learned.estimate is not None
        assert learned.estimate.clear
        inside += abs(learned.estimate.offset_c - PLANTED) <= learned.estimate.half_width_c
    assert 930 <= inside <= 970


def test_readings_that_cannot_be_right_are_named_and_set_aside() -> None:
    station = {
        day_after(step): DayWeather(day_after(step), 3.0 + (step % 3) / 10, 17.0, None) for step in range(30)
    }
    readings = [DayWeather(day, there.tmin_c - 1.0, None, None) for day, there in station.items()]
    wrong = {3: 36.5, 7: -15.9, 11: 16.0, 15: 20.5, 19: 45.0}
    for step, low in wrong.items():
        readings[step] = DayWeather(day_after(step), low, None, None)
    learned = learn_offset(readings, station, normal_span_c=SPAN)
    assert [(one.day, one.flaw) for one in learned.flawed] == [
        (day_after(3), Flaw.UNIT),  # 36.5 °F
        (day_after(7), Flaw.UNIT),  # 3.4 °C typed where °F are
        (day_after(11), Flaw.BY_DAY),
        (day_after(15), Flaw.BY_DAY),
        (day_after(19), Flaw.FAR_OFF),
    ]
    assert (learned.paired, learned.counted) == (30, 25)
    assert (learned.estimate.offset_c, learned.estimate.half_width_c) == (-1.0, 0.0)


def test_readings_dated_a_day_off_are_paired_with_their_own_night() -> None:
    random = Random(5)  # noqa: S311
    station = station_of(random, 60)
    dated_late = [
        DayWeather(one.day + timedelta(days=1), one.tmin_c, None, None)
        for one in garden_of(random, station, 60)
    ]
    learned = learn_offset(dated_late, station, normal_span_c=SPAN)
    assert learned.shift_days == -1
    assert abs(learned.estimate.offset_c - PLANTED) < 0.5


def test_a_thermometer_in_the_sun_is_told_by_its_days_and_used_by_its_nights() -> None:
    random = Random(6)  # noqa: S311
    station = station_of(random, 40)
    readings = [
        DayWeather(one.day, one.tmin_c, station[one.day].tmax_c + 6.0, None)
        for one in garden_of(random, station, 40)
    ]
    learned = learn_offset(readings, station, normal_span_c=SPAN)
    assert 6 < learned.sunny_c < 8
    assert learned.estimate is not None


def test_too_few_clear_nights_give_no_offset_and_a_station_without_maximums_counts_all() -> None:
    cloudy = {day_after(step): DayWeather(day_after(step), 5.0 + step % 4, 9.0, None) for step in range(30)}
    readings = [DayWeather(day, there.tmin_c - 2.0, None, None) for day, there in cloudy.items()]
    learned = learn_offset(readings, cloudy, normal_span_c=SPAN)
    assert (learned.paired, learned.counted, learned.by_clear_nights) == (30, 0, True)
    assert learned.estimate is None
    every = learn_offset(readings, cloudy)
    assert (every.counted, every.estimate.clear, every.estimate.offset_c) == (30, False, -2.0)
    assert every.estimate.is_certain
    assert learn_offset(readings[: FEWEST_NIGHTS - 1], cloudy).estimate is None
    assert learn_offset([], cloudy).paired == 0


@pytest.mark.parametrize(("freedom", "value"), [(5, 2.571), (10, 2.228), (20, 2.086), (60, 2.000)])
def test_student_t_as_printed(freedom: int, value: float) -> None:
    """Any statistics book prints these."""
    assert student_t_95(freedom) == pytest.approx(value, abs=0.005)
