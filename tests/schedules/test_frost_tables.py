"""Curves from published tables and from a mean date, against the tables themselves."""

from __future__ import annotations

from datetime import date

import pytest

from schedules.frost import THRESHOLDS_C, month_day
from schedules.frost_tables import DEFAULT_SPREAD_DAYS, AssumedCurve, TableCurve, TablePoint, first_disorder
from schedules.seasons import Side, day_number
from tests.schedules.records import champion_record, expected

TABLES = {table["name"]: table for table in expected()["published_tables"]}
GEORGETOWN = [table for name, table in TABLES.items() if name.startswith("Georgetown")]
CUMULATIVE = [table for table in TABLES.values() if "dates_by_probability" in table]


def number(text: str) -> int:
    return day_number(date.fromisoformat(f"2001-{text}"), 2001)


def side_of(table: dict) -> Side:
    return Side.LAST if table["season"] == "spring" else Side.FIRST


@pytest.mark.parametrize("table", GEORGETOWN, ids=lambda table: table["name"])
def test_dates_between_the_typed_ones(table):
    """Georgetown, Delaware (Univ. of Delaware): from the 10, 50 and 90 % dates, those at 33 and 67 %."""
    points = [TablePoint(int(p), number(table["table"][p])) for p in ("10", "50", "90")]
    curve = TableCurve(side_of(table), 0.0, points)
    assert {p: month_day(curve.day(int(p))) for p in ("10", "50", "90")} == {
        p: table["table"][p] for p in ("10", "50", "90")
    }
    assert curve.spread_days == pytest.approx(table["sd_days"], abs=0.01)
    for percent in ("33", "67"):
        assert abs(curve.day(int(percent)) - number(table["table"][percent])) <= table["tolerance_days"]


@pytest.mark.parametrize("table", GEORGETOWN, ids=lambda table: table["name"])
def test_a_normal_curve_reproduces_the_published_dates(table):
    curve = AssumedCurve(side_of(table), 0.0, number(table["table"]["50"]), table["sd_days"])
    assert {p: month_day(curve.day(int(p))) for p in table["normal_dates"]} == table["normal_dates"]


@pytest.mark.parametrize("table", CUMULATIVE, ids=lambda table: table["name"])
def test_one_normal_curve_is_the_whole_weather_service_table(table):
    """NWS Wilmington counts the chance that the event HAS HAPPENED: in spring the opposite of ours."""
    side = side_of(table)
    curve = AssumedCurve(side, 0.0, table["mean_daynum"], table["sd_days"])
    for text, percent in table["probability_by_date"].items():
        chance = 100 * curve.chance(number(text))
        happened = 100 - chance if side is Side.LAST else chance
        assert happened == pytest.approx(percent, abs=1.0)
    for percent, text in table["dates_by_probability"].items():
        ours = 100 - int(percent) if side is Side.LAST else int(percent)
        assert abs(curve.day(ours) - number(text)) <= 1


@pytest.mark.parametrize("table", CUMULATIVE, ids=lambda table: table["name"])
def test_a_typed_weather_service_table_gives_its_own_chances(table):
    side = side_of(table)
    points = [
        TablePoint(100 - int(p) if side is Side.LAST else int(p), number(text))
        for p, text in table["dates_by_probability"].items()
    ]
    curve = TableCurve(side, 0.0, points)
    assert [curve.day(point.percent) for point in points] == [point.day for point in points]
    for text, percent in table["probability_by_date"].items():
        chance = 100 * curve.chance(number(text))
        happened = 100 - chance if side is Side.LAST else chance
        assert happened == pytest.approx(percent, abs=2.5)  # its dates are rounded to whole days


@pytest.mark.parametrize("place", TABLES["North_Carolina_mean_and_sd_spring"]["table"])
def test_published_means_and_spreads(place):
    table = TABLES["North_Carolina_mean_and_sd_spring"]
    mean, spread = table["table"][place]["mean"], table["table"][place]["sd_days"]
    curve = AssumedCurve(Side.LAST, 0.0, number(mean), spread)
    assert {p: month_day(curve.day(int(p))) for p in table["computed"][place]} == table["computed"][place]


def test_the_assumed_spread_lies_among_the_published_ones():
    spreads = [row["sd_days"] for row in TABLES["North_Carolina_mean_and_sd_spring"]["table"].values()]
    assert min(spreads) < DEFAULT_SPREAD_DAYS < max(spreads)


def test_the_record_agrees_with_a_neighbours_published_autumn():
    """North Platte, Nebraska (NWS), lies 110 km from Champion: the same autumn within about ten days."""
    table = TABLES["North_Platte_NE_fall"]["table"]
    for celsius, dates in zip(THRESHOLDS_C, table.values(), strict=False):
        curve = champion_record().curve(Side.FIRST, celsius)
        for percent, text in dates.items():
            assert abs(curve.day(int(percent)) - number(text)) <= 10


def test_the_rare_date_is_late_in_spring_and_early_in_autumn():
    """Univ. of Nebraska's long records print 10 % dates in late June and mid August for Agate."""
    last = AssumedCurve(Side.LAST, 0.0, 150)
    first = AssumedCurve(Side.FIRST, 0.0, 250)
    assert last.day(10) > last.day(50) > last.day(90)
    assert first.day(10) < first.day(50) < first.day(90)
    assert last.chance(150) == first.chance(250) == 0.5


def test_one_typed_date_takes_the_assumed_spread():
    curve = TableCurve(Side.LAST, 0.0, [TablePoint(50, 120)])
    assert curve.spread_days == DEFAULT_SPREAD_DAYS
    assert [curve.day(p) for p in (10, 50, 90)] == [
        AssumedCurve(Side.LAST, 0.0, 120).day(p) for p in (10, 50, 90)
    ]
    assert curve.chance(120) == 0.5


def test_tails_go_on_with_the_spread_of_the_whole_table():
    curve = TableCurve(Side.LAST, 0.0, [TablePoint(90, 100), TablePoint(50, 110), TablePoint(10, 130)])
    assert curve.day(95) < 100
    assert curve.day(1) > 130
    assert 0.95 < curve.chance(85) < 1
    assert 0 < curve.chance(150) < 0.05


def test_a_table_that_counts_the_other_way_gives_itself_away():
    points = [TablePoint(10, 100), TablePoint(50, 110), TablePoint(90, 130)]
    assert first_disorder(Side.FIRST, points) is None
    assert first_disorder(Side.LAST, points) == (points[2], points[1])
    with pytest.raises(ValueError, match="do not run"):
        TableCurve(Side.LAST, 0.0, points)


@pytest.mark.parametrize("spread", [0, -3])
def test_a_spread_must_be_some_days(spread):
    with pytest.raises(ValueError, match="spread"):
        AssumedCurve(Side.LAST, 0.0, 120, spread)


def test_an_empty_table_is_no_table():
    with pytest.raises(ValueError, match="at least one"):
        TableCurve(Side.LAST, 0.0, [])
