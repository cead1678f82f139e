"""A climate from each basis, and what each of them does not know."""

from __future__ import annotations

from datetime import date

import pytest

from schedules.bases import TableDate, from_mean, from_record, from_table, typed_day_number
from schedules.climate import Basis
from schedules.days import DayWeather
from schedules.seasons import Hemisphere, Side
from schedules.windows import MIDDLING, Turn, derive
from tests.schedules.records import catalogue, champion

NORTH, SOUTH = Hemisphere


def test_a_record_knows_every_temperature_and_the_year():
    climate = from_record(champion().days, NORTH)
    assert climate.basis is Basis.RECORD
    assert climate.risk(Side.LAST, -7.8).day(50) < climate.risk(Side.LAST, 0.0).day(50)
    assert (len(climate.air_c), len(climate.soil_c)) == (365, 365)
    assert climate.freeze_free(0.0).reached_in(50) == 140
    assert climate.record.first_day == date(1982, 1, 1)


def test_the_offset_moves_dates_and_normals():
    station, garden = (from_record(champion().days, NORTH, offset_c=offset) for offset in (0.0, -1.5))
    assert garden.risk(Side.LAST, 0.0).day(50) - station.risk(Side.LAST, 0.0).day(50) == 5
    assert garden.air_c[200] == pytest.approx(station.air_c[200] - 0.75)


def test_the_last_fifteen_years_alone_are_counted_for_dates_and_normals():
    every, late = (from_record(champion().days, NORTH, recent_only=recent) for recent in (False, True))
    assert every.risk(Side.LAST, 0.0).used == 37
    assert [year.year for year in late.record.years(0.0)][:1] == [2004]
    assert (late.risk(Side.LAST, 0.0).used, late.risk(Side.FIRST, 0.0).used) == (15, 15)
    assert late.risk(Side.LAST, 0.0).day(50) < every.risk(Side.LAST, 0.0).day(50)
    assert late.air_c != every.air_c


def test_a_record_without_one_whole_season_knows_no_risk():
    days = [DayWeather(date(2020, 6, day), 8.0, 20.0) for day in range(1, 30)]
    climate = from_record(days, NORTH)
    assert climate.risk(Side.LAST, 0.0) is None
    assert climate.air_c is None
    assert climate.soil_c is None


def test_springs_left_out_for_missing_days_are_not_taken_for_springs_without_frost():
    days = [day for day in champion().days if not (day.day.month == 6 and day.day.day <= 12)]
    climate = from_record(days, NORTH)
    assert climate.air_c is not None  # warmth alone would set tomatoes out into frost
    assert climate.risk(Side.LAST, 0.0) is None
    assert climate.risk(Side.FIRST, 0.0).day(50) == 271
    tomato = derive(catalogue()["tomato"], climate, year=2026, nerve=MIDDLING)
    spring = [window for window in tomato if window.turn is Turn.SPRING]
    assert [[reason.code for reason in window.reasons] for window in spring] == [["last-frost-unknown"]]


def test_a_table_knows_only_what_it_lists():
    dates = [TableDate(0.0, Side.LAST, 50, 5, 9), TableDate(0.0, Side.LAST, 10, 5, 26)]
    climate = from_table(dates, NORTH)
    assert climate.basis is Basis.TABLE
    assert climate.risk(Side.LAST, 0.0).day(50) == 129
    assert climate.risk(Side.LAST, -2.2) is None
    assert climate.risk(Side.FIRST, 0.0) is None
    assert climate.freeze_free is None


def test_a_mean_pair_knows_one_temperature():
    climate = from_mean(NORTH, last=(5, 9), first=(9, 28))
    assert climate.basis is Basis.MEAN
    assert (climate.risk(Side.LAST, 0.0).day(50), climate.risk(Side.FIRST, 0.0).day(50)) == (129, 271)
    assert climate.risk(Side.LAST, -2.2) is None
    assert from_mean(NORTH, last=(5, 9)).risk(Side.FIRST, 0.0) is None


@pytest.mark.parametrize(
    ("month", "day", "side", "hemisphere", "number"),
    [
        (5, 9, Side.LAST, NORTH, 129),
        (12, 20, Side.LAST, NORTH, -11),
        (1, 10, Side.FIRST, NORTH, 375),
        (2, 29, Side.LAST, NORTH, 59),
        (10, 3, Side.LAST, SOUTH, 276),
        (1, 5, Side.LAST, SOUTH, 370),
        (4, 20, Side.FIRST, SOUTH, 110),
    ],
)
def test_a_date_without_a_year_finds_its_season(month, day, side, hemisphere, number):
    assert typed_day_number(month, day, side, hemisphere) == number
