"""What the frost page tells, worked out from a climate."""

from __future__ import annotations

from datetime import date

import pytest

from schedules.bases import TableDate, from_mean, from_record, from_table
from schedules.days import DayWeather
from schedules.frost import Outcome
from schedules.risk import ask, asked_in_chart, chance_rows, drawn_curves, known_thresholds, year_rows
from schedules.seasons import Hemisphere, Side
from tests.schedules.records import champion

NORTH, SOUTH = Hemisphere
NAMES = [(0.0, "32 °F"), (-2.2, "28 °F")]


@pytest.fixture(scope="module")
def climate():
    return from_record(champion().days, NORTH)


def test_an_asked_date_is_counted_on_the_side_it_is_nearer_to(climate):
    spring = ask(climate, 0.0, date(2026, 5, 10))
    assert (spring.side, spring.count, spring.used, spring.percent) == (Side.LAST, 18, 37, 49)
    autumn = ask(climate, 0.0, date(2026, 9, 20))
    assert (autumn.side, autumn.count, autumn.used, autumn.percent) == (Side.FIRST, 9, 37, 24)
    winter = ask(climate, 0.0, date(2026, 1, 15))
    assert winter.count == 37


def test_29_february_can_be_asked(climate):
    assert ask(climate, 0.0, date(2028, 2, 29)).count == 37


def test_without_a_record_there_is_a_share_and_no_count():
    asked = ask(from_mean(NORTH, last=(5, 9)), 0.0, date(2026, 10, 1))
    assert (asked.side, asked.count, asked.percent) == (Side.LAST, None, 0)
    assert ask(from_mean(NORTH, last=(5, 9)), -2.2, date(2026, 5, 1)) is None


def test_the_southern_year_is_turned_round():
    asked = ask(from_mean(SOUTH, last=(10, 3), first=(4, 20)), 0.0, date(2026, 9, 30))
    assert (asked.side, asked.percent) == (Side.LAST, 60)
    assert ask(from_mean(SOUTH, last=(10, 3), first=(4, 20)), 0.0, date(2026, 4, 1)).side is Side.FIRST


def test_a_mild_winters_dates_run_over_new_year():
    climate = from_mean(NORTH, last=(1, 5), first=(12, 28))
    asked = ask(climate, 0.0, date(2026, 12, 30))
    assert asked.side is Side.FIRST
    late = ask(climate, 0.0, date(2026, 1, 20))
    assert late.side is Side.LAST
    assert asked_in_chart(late, climate) == date(2001, 1, 20)


def test_only_known_temperatures_are_shown(climate):
    assert known_thresholds(climate) == (0.0, -2.2, -4.4)
    table = from_table([TableDate(-2.2, Side.LAST, 50, 5, 1)], NORTH)
    assert known_thresholds(table) == (-2.2,)


def test_rows_by_chance(climate):
    rows = chance_rows(climate, Side.LAST, (0.0, -2.2, -4.4))
    assert [row.percent for row in rows] == [10, 20, 30, 40, 50, 60, 70, 80, 90]
    assert rows[0].dates == (date(2001, 5, 26), date(2001, 5, 12), date(2001, 5, 3))


def test_a_records_curve_runs_through_its_years(climate):
    first, second = drawn_curves(climate, Side.LAST, NAMES)
    assert (first.name, first.seasons, len(first.years), len(first.points)) == ("32 °F", 37, 37, 37)
    assert [point.day for point in first.points] == sorted(point.day for point in first.points)
    chances = [point.chance for point in first.points]
    assert chances == sorted(chances, reverse=True)
    assert first.points[0].chance == pytest.approx(37 / 38)
    rising = [point.chance for point in drawn_curves(climate, Side.FIRST, NAMES)[0].points]
    assert rising == sorted(rising)
    assert second.points[-1].day < first.points[-1].day


def test_an_assumed_curve_is_drawn_from_end_to_end():
    (curve,) = drawn_curves(from_mean(NORTH, last=(5, 9)), Side.LAST, NAMES)
    assert curve.years == ()
    assert curve.points[0].chance > 0.99
    assert curve.points[-1].chance < 0.01


def test_a_frost_free_place_has_counts_and_no_curve():
    days = [DayWeather(date.fromordinal(n), 12.0, 25.0) for n in range(730_000, 730_000 + 2000)]
    climate = from_record(days, NORTH)
    assert drawn_curves(climate, Side.LAST, NAMES) == ()
    asked = ask(climate, 0.0, date(2026, 4, 10))
    assert (asked.side, asked.count, asked.share) == (Side.LAST, 0, 0.0)
    assert chance_rows(climate, Side.LAST, (0.0,))[0].dates == (None,)


def test_years_come_latest_first(climate):
    rows = year_rows(climate.record, (0.0, -2.2))
    assert (rows[0].year, rows[-1].year, len(rows)) == (2019, 1981, 39)
    assert rows[0].freezes[0] == (Outcome.LEFT_OUT, None)
    assert rows[1].freezes == (
        (date(2018, 4, 27), date(2018, 10, 4)),
        (date(2018, 4, 19), date(2018, 10, 10)),
    )
