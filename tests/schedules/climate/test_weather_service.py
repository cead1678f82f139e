"""Keeping a garden's weather: once, whole, and seen by the climate at once."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from django.db import IntegrityError, transaction

from plots.models import Garden
from schedules.bases import TableDate
from schedules.climate import Basis
from schedules.days import DayWeather
from schedules.models import DailyWeather, GardenClimate, MeanFrost, StationRecord
from schedules.seasons import Side
from schedules.service import (
    choose_basis,
    chosen_climate,
    garden_climate,
    import_station,
    importing_station,
    remove_record,
    save_frost_table,
    save_mean_frost,
    set_offset,
)
from schedules.stations.summary import from_plain, summary_of
from tests.factories import GardenFactory
from tests.schedules.records import champion
from tests.schedules.stations.station_text import mild_years

pytestmark = pytest.mark.django_db


def small(days=None, **kwargs):
    days = tuple(days or mild_years(1)[:40])
    return replace(champion(), days=days, runs=(), **kwargs)


def kept(record: StationRecord) -> list[DayWeather]:
    return [DayWeather(*row) for row in record.days.values_list("day", "tmin_c", "tmax_c", "precip_mm")]


def test_a_record_is_kept_as_read_and_planned_by():
    garden = GardenFactory()
    result = import_station(garden=garden, station=champion(), name="Champion")
    assert (result.new, result.changed, result.unchanged) == (13514, 0, 0)
    assert (result.record.first_day, result.record.last_day) == (date(1982, 1, 1), date(2018, 12, 31))
    assert from_plain(result.record.findings) == summary_of(champion())
    assert kept(result.record)[:400] == list(champion().days[:400])
    climate = garden_climate(garden)
    assert climate.basis is Basis.RECORD
    assert (climate.risk(Side.LAST, 0.0).day(50), len(climate.soil_c)) == (129, 365)


def test_importing_twice_does_not_double_and_changes_nothing():
    garden = GardenFactory()
    first = import_station(garden=garden, station=small(), name="Own")
    before, climate = chosen_climate(garden), garden_climate(garden)
    again = import_station(garden=garden, station=small(), name="Own")
    assert (again.record, again.new, again.changed, again.unchanged) == (first.record, 0, 0, 40)
    assert (StationRecord.objects.count(), DailyWeather.objects.count()) == (1, 40)
    assert chosen_climate(garden).changed_at == before.changed_at
    assert garden_climate(garden) is climate


def test_an_update_adds_days_and_corrects_values():
    garden = GardenFactory()
    days = mild_years(1)[:40]
    record = import_station(garden=garden, station=small(days[:30]), name="Own").record
    corrected = [replace(days[0], tmin_c=-9.9), *days[1:10], *days[30:]]
    before = garden_climate(garden)
    result = import_station(garden=garden, station=small(corrected), name="Own")
    assert (result.new, result.changed, result.unchanged) == (10, 1, 9)
    assert kept(record) == [corrected[0], *days[1:]]
    assert result.record.last_day == days[-1].day
    assert garden_climate(garden) is not before


def test_a_value_that_a_newer_file_drops_is_dropped_but_a_column_it_never_had_stays():
    garden = GardenFactory()
    days = mild_years(1)[:3]
    record = import_station(garden=garden, station=small(days), name="Own").record
    newer = [replace(day, precip_mm=None) for day in days]
    newer[1] = replace(newer[1], tmin_c=None)
    import_station(garden=garden, station=small(newer), name="Own")
    assert kept(record) == [days[0], replace(days[1], tmin_c=None), days[2]]


def test_a_station_is_known_by_its_number_whatever_it_is_called():
    garden = GardenFactory()
    first = import_station(garden=garden, station=small(station_id="USC1"), name="North field").record
    same = import_station(garden=garden, station=small(station_id="USC1"), name="Other name").record
    other = import_station(garden=garden, station=small(station_id="USC2"), name="North field").record
    plain = import_station(garden=garden, station=small(), name="North field").record
    plain_again = import_station(garden=garden, station=small(), name="North field").record
    assert same == first
    assert plain_again == plain
    assert [first.name, other.name, plain.name] == [
        "North field",
        "North field (USC2)",
        "North field (plain)",
    ]


def test_two_gardens_keep_their_own_record_of_one_station():
    one, two = GardenFactory(), GardenFactory()
    import_station(garden=one, station=small(station_id="USC1"), name="A")
    import_station(garden=two, station=small(station_id="USC1"), name="A")
    assert DailyWeather.objects.count() == 80


def test_progress_is_told_and_stopping_halfway_keeps_nothing(monkeypatch):
    garden = GardenFactory()
    monkeypatch.setattr("schedules.service.weather.DAYS_AT_ONCE", 10)
    steps = importing_station(garden=garden, station=small(), name="Own")
    assert [next(steps), next(steps)] == [date(2001, 1, 10), date(2001, 1, 20)]
    steps.close()
    assert (StationRecord.objects.count(), DailyWeather.objects.count()) == (0, 0)
    assert garden_climate(garden) is None


def test_a_second_record_need_not_be_planned_by():
    garden = GardenFactory()
    first = import_station(garden=garden, station=small(), name="A", plan_by_it=False).record
    second = import_station(garden=garden, station=small(), name="B", plan_by_it=False).record
    assert chosen_climate(garden).record == first  # the only one there was
    assert not remove_record(record=first)
    assert choose_basis(garden=garden, basis="record", record=second)
    assert remove_record(record=first)
    assert StationRecord.objects.get() == second


def test_a_basis_has_to_be_the_gardens_own():
    garden = GardenFactory()
    foreign = import_station(garden=GardenFactory(), station=small(), name="A").record
    for basis, record in (
        ("record", foreign),
        ("record", None),
        ("table", None),
        ("mean", None),
        ("x", None),
    ):
        assert not choose_basis(garden=garden, basis=basis, record=record)
    assert chosen_climate(garden) is None


def test_the_offset_comes_before_everything():
    garden = GardenFactory()
    import_station(garden=garden, station=champion(), name="Champion")
    before = chosen_climate(garden).changed_at
    set_offset(garden=garden, offset_c=-1.5)
    assert garden_climate(garden).risk(Side.LAST, 0.0).day(50) == 134
    assert chosen_climate(garden).changed_at > before


def test_hemisphere_comes_from_the_garden():
    garden = GardenFactory(latitude=-40.5)
    import_station(garden=garden, station=small(), name="Own")
    assert garden_climate(garden).hemisphere == "south"


def test_a_table_replaces_the_one_before_and_is_planned_by():
    garden = GardenFactory()
    rows = [TableDate(0.0, Side.LAST, 50, 5, 9), TableDate(0.0, Side.LAST, 10, 5, 26)]
    save_frost_table(garden=garden, dates=rows, counts_passed=False, source="County office")
    save_frost_table(garden=garden, dates=rows[:1], counts_passed=True, source="")
    climate = garden_climate(garden)
    assert climate.basis is Basis.TABLE
    assert climate.risk(Side.LAST, 0.0).day(50) == 129
    assert garden.frost_table.count() == 1


def test_mean_dates_are_kept_and_planned_by():
    garden = GardenFactory()
    save_mean_frost(garden=garden, last=(5, 9), first=None, spread_days=10.0, source="")
    climate = garden_climate(garden)
    assert climate.basis is Basis.MEAN
    assert climate.risk(Side.LAST, 0.0).spread_days == 10
    assert climate.risk(Side.FIRST, 0.0) is None


def test_nothing_set_is_no_climate():
    assert garden_climate(GardenFactory()) is None


def test_the_database_itself_refuses_what_cannot_be():
    garden = GardenFactory()
    record = import_station(garden=garden, station=small(), name="A").record
    for broken in (
        lambda: DailyWeather.objects.create(record=record, day=date(2001, 1, 1)),
        lambda: StationRecord.objects.filter(pk=record.pk).update(last_day=date(1990, 1, 1)),
        lambda: GardenClimate.objects.filter(garden=garden).update(record=None),
        lambda: GardenClimate.objects.filter(garden=garden).update(offset_c=11),
        lambda: MeanFrost.objects.create(garden=garden, last_month=5),
        lambda: MeanFrost.objects.create(garden=garden, first_month=9, first_day=32),
    ):
        with pytest.raises(IntegrityError), transaction.atomic():
            broken()


@pytest.mark.parametrize("basis", ["record", "table", "mean"])
def test_queries_for_the_climate(basis, django_assert_num_queries):
    garden = GardenFactory()
    import_station(garden=garden, station=small(), name="A")
    save_frost_table(
        garden=garden, dates=[TableDate(0.0, Side.LAST, 50, 5, 9)], counts_passed=False, source=""
    )
    save_mean_frost(garden=garden, last=(5, 9), first=None, spread_days=10.0, source="")
    choose_basis(garden=garden, basis=basis, record=garden.station_records.get())
    for count in (
        (3, 2) if basis == "record" else (2, 2)
    ):  # a record is kept in memory; soil read is asked for
        fresh = Garden.objects.get(pk=garden.pk)
        with django_assert_num_queries(count):
            garden_climate(fresh)
