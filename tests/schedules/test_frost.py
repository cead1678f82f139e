"""Freeze dates against values that independent code found in the same record, and the traps around them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from fractions import Fraction
from statistics import fmean, median, stdev

import pytest

from schedules.frost import (
    THRESHOLDS_C,
    FreezeFreeLengths,
    FrostRecord,
    FrostYear,
    Outcome,
    RecordCurve,
    adjusted,
    half_up,
    month_day,
    quantile,
    season_bounds,
)
from schedules.frost_tables import AssumedCurve
from schedules.seasons import Hemisphere, Side, day_number
from tests.schedules.records import champion_record, expected, minimums

DAY = timedelta(days=1)
THRESHOLDS = expected()["thresholds"]
BOTH = pytest.mark.parametrize("side", list(Side))
EACH = pytest.mark.parametrize("threshold", THRESHOLDS, ids=lambda threshold: str(threshold["celsius"]))


def as_written(value: object) -> object:
    return value.isoformat() if isinstance(value, date) else value


def left_out(record: FrostRecord, celsius: float) -> list[list[object]]:
    pairs = [(year, side.value) for side in Side for year in record.curve(side, celsius).left_out]
    return [list(pair) for pair in sorted(pairs, key=lambda pair: (pair[0], pair[1] != "last"))]


def assert_quantiles(curve: RecordCurve, wanted: dict[str, dict[str, object]]) -> None:
    for percent, value in wanted.items():
        exact, day = curve.exact_day(int(percent)), curve.day(int(percent))
        assert float(exact) == pytest.approx(value["daynum"], abs=0.01)
        assert month_day(day) == value["date"]


@EACH
def test_each_year_has_its_own_freezes(threshold):
    found = champion_record().years(threshold["celsius"])
    assert [
        {"year": year.year}
        | {side.value: as_written(value) for side in Side if (value := year.of(side)) is not None}
        for year in found
    ] == threshold["years"]
    assert left_out(champion_record(), threshold["celsius"]) == threshold["left_out"]


@EACH
@BOTH
def test_probability_dates(threshold, side):
    curve, wanted = champion_record().curve(side, threshold["celsius"]), threshold[side.value]
    assert (curve.used, curve.frozen) == (wanted["n_used"], wanted["n_freeze"])
    assert_quantiles(curve, wanted["weibull"])


@EACH
@BOTH
def test_the_other_plotting_position_would_give_other_dates(threshold, side):
    curve, other = champion_record().curve(side, threshold["celsius"]), threshold[side.value]["linear"]
    assert [month_day(curve.day(int(percent))) for percent in other] != [v["date"] for v in other.values()]


@EACH
@BOTH
def test_normal_curve_alongside(threshold, side):
    curve, wanted = champion_record().curve(side, threshold["celsius"]), threshold[side.value]
    days = [day_number(day, year) for year, day in curve.dates.items()]
    assert fmean(days) == pytest.approx(wanted["mean_daynum"], abs=0.0001)
    assert stdev(days) == pytest.approx(wanted["sd_daynum_ddof1"], abs=0.0001)
    assert (month_day(min(days)), month_day(max(days))) == (wanted["earliest"], wanted["latest"])
    normal = AssumedCurve(side, threshold["celsius"], fmean(days), stdev(days))
    assert {p: month_day(normal.day(int(p))) for p in wanted["normal"]} == {
        p: value["date"] for p, value in wanted["normal"].items()
    }


@EACH
def test_freeze_free_season_has_its_own_distribution(threshold):
    lengths, wanted = champion_record().freeze_free_days(threshold["celsius"]), threshold["freeze_free_days"]
    days = lengths.days
    assert (len(days), min(days), max(days)) == (wanted["n"], wanted["min"], wanted["max"])
    assert (median(days), fmean(days)) == (wanted["median"], pytest.approx(wanted["mean"], abs=0.0001))
    assert lengths.reached_in(50) == wanted["median"]


@pytest.mark.parametrize("check", expected()["risk_counts"], ids=lambda check: str(check["celsius"]))
def test_plain_counts_about_one_date(check):
    last, first = (champion_record().curve(side, check["celsius"]) for side in (Side.LAST, Side.FIRST))

    def count(curve: RecordCurve, text: str) -> int:
        return curve.count(day_number(date.fromisoformat(f"2001-{text}"), 2001))

    after = check["seasons_with_freeze_on_or_after"]
    before = check["seasons_with_freeze_on_or_before"]
    assert {text: count(last, text) for text in after} == after
    assert {text: count(first, text) for text in before} == before
    assert (last.used, first.used) == (check["of_last"], check["of_first"])


def test_a_date_in_words():
    curve = champion_record().curve(Side.LAST, 0.0)
    day = day_number(date(2001, 5, 10), 2001)
    assert (curve.count(day), curve.used, round(100 * curve.chance(day))) == (18, 37, 49)


def variant_record(variant: dict) -> FrostRecord:
    values = dict(minimums())
    if "remove_from" in variant:
        gone = (date.fromisoformat(variant["remove_from"]), date.fromisoformat(variant["remove_to"]))
        values = {day: value for day, value in values.items() if not gone[0] <= day <= gone[1]}
    if "rounded" in variant["variant"] and "tenths" in variant["variant"]:
        values = {
            day: half_up(abs(value) * 10) / 10 * (1 if value > 0 else -1) for day, value in values.items()
        }
    return FrostRecord(values, Hemisphere.NORTH, offset_c=variant.get("offset_c", 0.0))


@pytest.mark.parametrize("variant", expected()["variants"], ids=lambda variant: variant["variant"][:40])
def test_variants_of_the_record(variant):
    record = variant_record(variant)
    for celsius, wanted in ((variant["celsius"], variant["expected"]), (-2.2, variant.get("at_-2.2"))):
        if wanted is None:
            continue
        assert left_out(record, celsius) == wanted["left_out"]
        for side in Side:
            curve = record.curve(side, celsius)
            assert curve.used == wanted[f"{side.value}_n_used"]
            assert_quantiles(curve, wanted[f"{side.value}_weibull"])


def test_nine_missing_days_are_bridged_and_the_tenth_leaves_the_season_out():
    values = dict(minimums())
    last = champion_record().years(0.0)[9]
    assert last == FrostYear(1990, date(1990, 5, 10), date(1990, 9, 23))
    for missing in range(1, 11):
        del values[date(1990, 5, 10) + missing * DAY]
        year = next(y for y in FrostRecord(values, Hemisphere.NORTH).years(0.0) if y.year == 1990)
        assert year.last == (Outcome.LEFT_OUT if missing == 10 else date(1990, 5, 10))


@pytest.mark.parametrize("celsius", THRESHOLDS_C)
def test_the_south_is_the_mirror_of_the_north(celsius):
    """The same winters below the equator: seasons begin 184 days later, and so does every freeze."""
    half_a_year = timedelta(days=184)
    values = {day + half_a_year: value for day, value in minimums().items()}
    south = FrostRecord(values, Hemisphere.SOUTH)
    for side in Side:
        north_curve, south_curve = champion_record().curve(side, celsius), south.curve(side, celsius)
        assert [day + half_a_year for day in north_curve.dates.values()] == list(south_curve.dates.values())
        assert (south_curve.used, south_curve.frozen) == (37, 37)
        for percent in range(10, 100, 10):  # day numbers skip a leap day at another place
            assert abs((south_curve.day(percent) - north_curve.day(percent)) % 365 - 184) <= 1


def test_a_southern_year_is_labelled_by_its_own_spring_and_autumn():
    values = season(2001, Hemisphere.SOUTH, date(2001, 5, 20), date(2001, 10, 3))
    (year,) = FrostRecord(values, Hemisphere.SOUTH).years(0.0)
    assert year == FrostYear(2001, last=date(2001, 10, 3), first=date(2001, 5, 20))


def test_a_southern_growing_season_runs_over_new_year():
    values = season(2000, Hemisphere.SOUTH, date(2000, 9, 30))
    values |= season(2001, Hemisphere.SOUTH, date(2001, 4, 20))
    values |= season(2002, Hemisphere.SOUTH, date(2002, 4, 10))
    record = FrostRecord(values, Hemisphere.SOUTH)
    between = (date(2001, 4, 20) - date(2000, 9, 30)).days - 1
    next_one = (date(2002, 4, 10) - date(2001, 4, 20)).days - 1
    assert record.freeze_free_days(0.0).days == tuple(sorted((between, next_one)))


def season(start: int, hemisphere: Hemisphere, *freezes: date, mild: float = 5.0) -> dict[date, float]:
    """One whole cold season without a gap, frozen on the given nights."""
    first, last = season_bounds(start, hemisphere)
    days = [first + n * DAY for n in range((last - first).days + 1)]
    return {day: -1.0 if day in freezes else mild for day in days}


def winters(*freezes: date | None, first_winter: int = 2000) -> FrostRecord:
    """Northern winters, each frozen on one night or, with `None`, on none."""
    values: dict[date, float] = {}
    for number, freeze in enumerate(freezes):
        values |= season(first_winter + number, Hemisphere.NORTH, *([freeze] if freeze else []))
    return FrostRecord(values, Hemisphere.NORTH)


def springs(numbers: Iterable[int | None]) -> FrostRecord:
    return winters(*(None if n is None else date(2001 + i, 3, n) for i, n in enumerate(numbers)))


def test_seasons_without_a_freeze_stay_in_the_count():
    curve = springs([10, None, 20, None, 30]).curve(Side.LAST, 0.0)
    assert (curve.used, curve.frozen) == (5, 3)
    assert curve.chance(day_number(date(2001, 3, 1), 2001)) == 0.6
    assert curve.day(60) is None  # just as often as it freezes at all: no date can be named
    assert curve.day(70) is None
    assert curve.day(30) == day_number(date(2001, 3, 20), 2001)  # the middle of the three that froze


def test_fewer_than_three_freezes_give_no_date_at_any_chance():
    curve = springs([10, None, 20, None, None]).curve(Side.LAST, 0.0)
    assert [curve.day(percent) for percent in (1, 10, 50, 90)] == [None] * 4
    assert (curve.count(60), curve.used) == (2, 5)


@pytest.mark.parametrize(
    ("frozen", "seasons", "too_short"),
    [(0, 2, True), (2, 2, True), (2, 3, True), (1, 3, False), (2, 5, False), (0, 3, False), (3, 3, False)],
)
def test_few_seasons_are_told_from_rare_freezes(frozen, seasons, too_short):
    years = [
        FrostYear(2000 + n, date(2000 + n, 4, 10) if n < frozen else Outcome.NONE, None)
        for n in range(seasons)
    ]
    assert RecordCurve(Side.LAST, 0.0, years).too_short is too_short


def test_a_frost_free_place_has_seasons_but_no_dates():
    record = springs([None] * 10)
    for side in Side:
        curve = record.curve(side, 0.0)
        assert (curve.used, curve.frozen, curve.day(10), curve.chance(60)) == (10, 0, None, 0.0)
    assert record.freeze_free_days(0.0).days == (365,) * 9  # the first and last winter each lack a neighbour


def test_nothing_is_known_without_a_season():
    record = FrostRecord({}, Hemisphere.NORTH)
    assert (record.years(0.0), record.first_day, record.last_day) == ((), None, None)
    assert record.freeze_free_days(0.0).reached_in(50) is None
    with pytest.raises(ValueError, match="no season"):
        record.curve(Side.LAST, 0.0).chance(100)


@pytest.mark.parametrize("percent", [0, -1, 101])
def test_a_chance_outside_its_range_is_an_error(percent):
    with pytest.raises(ValueError, match="percent"):
        champion_record().curve(Side.LAST, 0.0).day(percent)


def test_29_february_counts_as_the_28th():
    record = winters(date(2004, 2, 29), first_winter=2003)
    curve = record.curve(Side.LAST, 0.0)
    assert curve.dates == {2004: date(2004, 2, 29)}
    assert (curve.count(59), curve.count(60)) == (1, 0)


def test_a_mild_winters_last_freeze_may_lie_in_the_year_before_and_its_first_in_the_year_after():
    record = winters(date(2000, 12, 20), date(2002, 1, 10))
    assert record.years(0.0) == (
        FrostYear(2000, first=date(2000, 12, 20)),
        FrostYear(2001, last=date(2000, 12, 20), first=date(2002, 1, 10)),
        FrostYear(2002, last=date(2002, 1, 10)),
    )
    assert record.curve(Side.LAST, 0.0).count(-11) == 2  # 20 December of the year before is day -11
    assert record.curve(Side.FIRST, 0.0).count(365) == 1
    assert record.curve(Side.FIRST, 0.0).count(375) == 2  # 10 January of the year after is day 375


def test_a_threshold_is_taken_exactly_as_written():
    values = season(2000, Hemisphere.NORTH) | {date(2001, 3, 1): -2.2, date(2001, 4, 1): -2.19}
    record = FrostRecord(values, Hemisphere.NORTH)
    assert record.curve(Side.LAST, -2.2).dates == {2001: date(2001, 3, 1)}
    assert record.curve(Side.LAST, 0.0).dates == {2001: date(2001, 4, 1)}


def test_the_offset_is_added_and_rounded_before_comparing():
    values = season(2000, Hemisphere.NORTH) | {date(2001, 3, 1): -1.9}
    assert FrostRecord(values, Hemisphere.NORTH, offset_c=-0.3).curve(Side.LAST, -2.2).frozen == 1
    assert FrostRecord(values, Hemisphere.NORTH).curve(Side.LAST, -2.2).frozen == 0
    assert adjusted(-2.204, 0.0) == -2.204


def test_colder_thresholds_are_read_as_well():
    curve = champion_record().curve(Side.FIRST, -9.4)
    assert curve.used == 37
    assert 300 < curve.day(50) < 340


def test_quantiles_are_clamped_and_exact():
    shares = (Fraction(0), Fraction(1), Fraction(1, 2), Fraction(5, 8))
    assert [quantile([1, 2, 4], share) for share in shares] == [1, 4, 2, 3]
    assert quantile([7], Fraction(1, 3)) == 7
    assert half_up(2.5) == 3
    assert half_up(-2.5) == -2


def test_lengths_reached():
    lengths = FreezeFreeLengths((90, 100, 110, 120))
    assert (lengths.count_reaching(100), lengths.count_reaching(121)) == (3, 0)
    assert lengths.reached_in(60) == 100
