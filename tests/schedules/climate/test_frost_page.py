"""The page of a garden's frost risk, for each basis and each kind of place."""

from __future__ import annotations

from dataclasses import replace

import pytest
import time_machine

from schedules.bases import TableDate
from schedules.models import StationRecord
from schedules.seasons import Side
from schedules.service import import_station, save_frost_table, save_mean_frost
from tests.factories import MembershipFactory
from tests.schedules.climate.conftest import Place
from tests.schedules.records import champion, small_record

HTMX = {"HX-Request": "true"}


def page(place: Place, query: str = "", *, htmx: bool = False) -> str:
    response = place.member.get(place.url() + query, headers=HTMX if htmx else {})
    assert response.status_code == 200
    return response.content.decode()


def test_without_any_dates_the_page_says_what_to_do_next(place):
    assert "no frost dates yet" in page(place)
    assert place.url("source/") not in page(place)
    assert place.url("source/") in place.coordinator.get(place.url()).content.decode()


def test_an_asked_date_in_plain_counts(recorded):
    found = page(recorded, "?date=2026-05-10")
    assert "on or after May 10 came in 18 of 37 years, 49 %." in found
    assert "32 °F or colder".replace(" ", "\xa0", 1) in found
    assert "plain counts of years" in found


def test_another_temperature_and_the_other_side(recorded):
    assert "on or after May 10 came in 5 of 37 years, 14 %." in page(
        recorded, "?date=2026-05-10&celsius=-2.2"
    )
    assert "on or before September 20 came in 9 of 37 years, 24 %." in page(recorded, "?date=2026-09-20")


def test_tables_by_chance_and_every_year(recorded):
    found = page(recorded)
    for part in ("May 26", "May 12", "May 3", "Sep 15", "Sep 25", "Oct 4"):
        assert f'<td class="figures">{part}</td>' in found
    assert '<th scope="row" class="figures">1990</th><td class="figures">May 10</td>' in found
    assert '<td class="figures">missing</td>' in found
    assert "140 days or more in 5 years of 10" in found
    assert "7 days in a row" in found
    assert "Springs left out: 2019. Autumns left out: 1981." in found
    assert "soil at seed depth" in found


def test_what_cannot_be_read_is_not_asked(recorded):
    with time_machine.travel("2026-05-10T18:00:00Z"):
        for query in (
            "?date=2026-02-30",
            "?date=soon",
            "?date=9999-12-31",
            "?date=0001-01-01",
            "?celsius=x",
            "?celsius=-9&date=",
        ):
            assert "on or after May 10 came in 18 of 37 years" in page(recorded, query, htmx=True)


def test_in_winter_the_page_asks_of_itself_about_the_middle_last_freeze(recorded):
    with time_machine.travel("2026-12-24T12:00:00Z"):
        assert "on or after May 9 came in 20 of 37 years, 54 %." in page(recorded)


def test_moving_the_date_answers_the_part_alone(recorded):
    found = page(recorded, "?date=2026-05-10&moved=1", htmx=True)
    assert found.lstrip().startswith('<section id="asked">')
    assert "<html" not in found
    assert 'value="2026-05-10" hx-swap-oob="true"' in found
    assert "date=2026-05-17&amp;celsius=0.0" in found
    assert "hx-swap-oob" not in page(recorded, "?date=2026-05-10", htmx=True)


def test_two_years_of_record_name_no_dates_and_call_nothing_rare(place):
    bring_in(place, range(1990, 1992))
    found = page(place)
    assert "too few whole seasons to name frost dates" in found
    assert "rare" not in found


def test_a_few_years_of_record_say_how_little_they_tell(place):
    bring_in(place, range(1990, 1995))
    assert "The record has only 5 seasons that count" in page(place)


def bring_in(place: Place, years: range) -> None:
    station = replace(champion(), days=tuple(day for day in champion().days if day.day.year in years))
    import_station(garden=place.garden, station=station, name="Champion")


def test_charts_carry_their_words(recorded):
    found = page(recorded, "?date=2026-05-10")
    assert found.count("<svg") == 4  # two charts, narrow and wide
    assert "Years in 100 with a freeze on or after the date" in found


def test_a_table_says_that_it_is_one(place):
    dates = [TableDate(0.0, Side.LAST, percent, 5, day) for percent, day in ((10, 26), (50, 9), (90, 1))]
    save_frost_table(garden=place.garden, dates=dates, counts_passed=False, source="State office, 2020")
    found = page(place, "?date=2026-05-09")
    assert "published table: State office, 2020" in found
    assert "comes in about 50 of 100 years" in found
    assert "Nothing is known about the first freeze of autumn." in found
    assert "years of 10</li>" not in found


def test_a_safe_day_is_not_what_the_page_asks_about_of_itself(place):
    save_mean_frost(garden=place.garden, last=(5, 9), first=(9, 28), spread_days=12.0, source="")
    with time_machine.travel("2026-11-24T18:00:00Z"):
        assert "on or after May 9 comes in about 50 of 100 years" in page(place)


def test_mean_dates_say_that_their_spread_is_assumed(place):
    save_mean_frost(garden=place.garden, last=(5, 9), first=(9, 28), spread_days=12.0, source="")
    found = page(place, "?date=2026-05-09")
    assert "assumed to spread by 12 days" in found
    assert "is assumed, so every other date here is a guide" in found
    assert "28\xa0°F" not in found


def test_a_frost_free_place(place):
    import_station(garden=place.garden, station=small_record(minimum=9.0), name="Mild shore")
    found = page(place, "?date=2026-04-10")
    assert "Freezes are so rare here that no date can be named for them." in found
    assert "came in 0 of 3 years, 0 %" in found
    assert "too rare" in found
    assert "<svg" not in found


def test_a_southern_garden(place):
    place.garden.latitude = -40.4
    place.garden.save()
    save_mean_frost(garden=place.garden, last=(10, 3), first=(4, 20), spread_days=12.0, source="")
    assert "on or after September 20" in page(place, "?date=2026-09-20")
    assert "on or before April 20" in page(place, "?date=2026-04-20")


def test_metric_gardens_read_celsius(recorded):
    recorded.garden.units = "metric"
    recorded.garden.save()
    found = page(recorded)
    assert "−2.2\xa0°C" in found
    assert "28\xa0°F" not in found


@pytest.mark.parametrize("records", [1, 3])
def test_queries(recorded, records, django_assert_num_queries):
    record = StationRecord.objects.get()
    for number in range(records - 1):
        record.pk, record.name = None, f"Another {number}"
        record.save()
    MembershipFactory.create_batch(records, garden=recorded.garden)
    page(recorded)
    with django_assert_num_queries(6):
        page(recorded)
    with django_assert_num_queries(6):
        page(recorded, "?date=2026-05-10", htmx=True)
    with django_assert_num_queries(8):
        recorded.member.get(recorded.url("source/"))
