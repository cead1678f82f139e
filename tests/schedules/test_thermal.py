"""Degree-days against published examples and sums found elsewhere (tests/reference/thermal_checks.json)."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from schedules.thermal import YearOfWarmth, warmth_of_day, year_of_warmth
from tests.schedules.records import champion, thermal_check


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def warmth_f(low_f: float, high_f: float, base_f: float, upper_f: float = 500.0) -> float:
    """Degree-days of °F, as the checks have them."""
    low, high, base, upper = (celsius(value) for value in (low_f, high_f, base_f, upper_f))
    return 1.8 * warmth_of_day(low, high, base_c=base, ceiling_c=upper)


def test_the_single_sine_gives_what_integration_gives():
    check = thermal_check("gdd_single_sine")
    given_days, expected = check["inputs"]["cases_tmax_tmin_f"], check["expected"]["dd_f"]
    found = [warmth_f(low, high, 50, 86) for high, low in given_days]
    assert found == pytest.approx(expected, abs=check["tolerance"]["abs"])


def test_between_base_and_ceiling_it_is_the_plain_mean():
    simple, differ = thermal_check("gdd_simple_83_61"), thermal_check("gdd_methods_differ")
    assert warmth_f(61, 83, 50) == pytest.approx(simple["expected"]["dd_f"], abs=0.005)
    assert warmth_f(38, 60, 50, 86) == pytest.approx(differ["expected"]["sine"], abs=0.01)
    assert warmth_f(30, 48, 50, 86) == 0.0
    assert warmth_f(90, 105, 50, 86) == pytest.approx(36.0)


@pytest.mark.parametrize("year", ["1993", "2012"])
def test_the_sum_of_a_summer(year):
    check = thermal_check(f"gdd_champion_{year}_may_sep")
    days = [one for one in champion().days if date(int(year), 5, 1) <= one.day <= date(int(year), 9, 30)]
    total = sum(1.8 * warmth_of_day(one.tmin_c, one.tmax_c, base_c=10.0, ceiling_c=30.0) for one in days)
    assert total == pytest.approx(check["expected"]["sine_f"], abs=check["tolerance"]["abs"])


@pytest.mark.parametrize("year", ["1993", "2012"])
def test_the_day_on_which_sweet_corn_has_its_heat_units(year):
    check = thermal_check("gdd_reach_champion")
    need, begun = check["inputs"]["need_f"] / 1.8, date(int(year), 5, 20)
    weather = {one.day: one for one in champion().days}
    first = date(int(year), 1, 1)
    days = [weather[first + timedelta(days=n)] for n in range(365)]
    warmth = year_of_warmth(
        [one.tmin_c for one in days],
        [one.tmax_c for one in days],
        base_c=10.0,
        ceiling_c=30.0,
        most_c=20.0,
    )
    number = (begun - first).days + 1
    full = warmth.ready(number, need) - 1  # the day on which the last of them comes
    assert first + timedelta(days=full - 1) == date.fromisoformat(check["expected"][year])


def test_peas_in_eighty_days_of_fifteen_degrees():
    check = thermal_check("gdd_simple_pea_problem")["inputs"]
    low, high = [celsius(check["tmin_f"])] * 365, [celsius(check["tmax_f"])] * 365
    base = celsius(check["base_f"])
    warmth = year_of_warmth(low, high, base_c=base, ceiling_c=60.0, most_c=60.0)
    assert warmth.ready(121, check["need_f"] / 1.8) == 121 + 80


def test_no_day_counts_for_more_than_the_best():
    hot = year_of_warmth([20.0] * 365, [40.0] * 365, base_c=10.0, ceiling_c=50.0, most_c=12.0)
    assert hot.total == pytest.approx(365 * 12)


def test_warmth_is_counted_into_the_years_after_and_before():
    cold = YearOfWarmth([0.0] * 180 + [1.0] * 5 + [0.0] * 180)
    assert cold.ready(1, 5.0) == 186
    assert cold.ready(184, 5.0) == 365 + 184  # two days of this year's five, three of the next
    assert cold.begun_by(365 + 184, 5.0) == 184
    assert cold.begun_by(100, 5.0) == 181 - 365


def test_a_year_has_365_days_and_some_warmth():
    with pytest.raises(ValueError, match="365"):
        YearOfWarmth([1.0] * 366)
    with pytest.raises(ValueError, match="warmth"):
        YearOfWarmth([0.0] * 365).ready(1, 5.0)


@given(
    st.lists(st.floats(0, 20).map(lambda value: round(value, 1)), min_size=5, max_size=60),
    st.integers(-400, 800),
    st.floats(0.5, 200),
)
@settings(max_examples=100, deadline=None)
def test_back_is_the_way_there_again(values, day, need):
    warmth = YearOfWarmth((values * 80)[:365])
    assume(warmth.total > 0)
    ready = warmth.ready(day, need)
    assert ready > day
    assert ready <= warmth.ready(day + 1, need)
    latest = warmth.begun_by(ready, need)
    assert latest >= day
    assert warmth.ready(latest, need) <= ready
    assert warmth.ready(latest + 1, need) > ready
