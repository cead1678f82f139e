"""The calendar that a phone reads, parsed back."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from django.test import Client
from icalendar import Calendar

from plots.models import User
from schedules.models import CalendarFeed, GardenClimate
from schedules.service import GardenDates, make_feed, revoke_feed
from tests.conftest import Cast
from tests.factories import AssignmentFactory, PlotFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato


@pytest.fixture
def feed(cast: Cast, time_machine) -> CalendarFeed:
    time_machine.move_to("2026-04-15T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return make_feed(user=cast.holder, garden=cast.garden)


def read(feed: CalendarFeed, **headers: str):
    return Client().get(f"/feed/{feed.token}.ics", headers=headers)


def events(feed: CalendarFeed) -> list:
    response = read(feed)
    assert response.status_code == 200
    return Calendar.from_ical(response.content).walk("VEVENT")


def test_each_window_is_one_all_day_event_on_its_best_day(cast: Cast, feed: CalendarFeed) -> None:
    planting = planted(cast.plot, carrot())
    rows = GardenDates.of(cast.garden).planting(planting).entries
    found = events(feed)
    assert [(event.decoded("dtstart"), event.decoded("dtend")) for event in found] == [
        (row.best, row.best + timedelta(days=1)) for row in rows
    ]
    assert {event["dtstart"].params["VALUE"] for event in found} == {"DATE"}
    assert [str(event["uid"]) for event in found] == [
        f"planting-{planting.pk}-sow-1@127.0.0.1",
        f"planting-{planting.pk}-harvest-1@127.0.0.1",
    ]
    sowing = found[0]
    assert str(sowing["summary"]) == "Sow: Carrot (until May 30)"
    assert str(sowing["location"]) == "Plot A1, Linden Row"
    assert str(sowing["url"]) == f"http://127.0.0.1:8000/g/linden-row/plantings/{planting.pk}/"
    assert str(sowing["transp"]) == "TRANSPARENT"
    assert sowing.decoded("dtstamp") == planting.changed_at.replace(microsecond=0)
    lines = str(sowing["description"]).splitlines()
    assert lines[0] == "Earliest April 19, 2026, best May 3, 2026, latest May 30, 2026."
    assert any("Published calendars" in line for line in lines[1:])


def test_events_are_new_again_when_the_gardens_dates_change(cast: Cast, feed: CalendarFeed) -> None:
    planted(cast.plot, carrot())
    later = datetime(2026, 4, 20, 12, tzinfo=UTC)
    GardenClimate.objects.update(changed_at=later)
    assert [event.decoded("dtstamp") for event in events(feed)] == [later, later]


def test_it_is_a_calendar_with_a_name_and_a_pace(cast: Cast, feed: CalendarFeed) -> None:
    response = read(feed)
    assert response.headers["Content-Type"] == "text/calendar; charset=utf-8"
    assert response.headers["Cache-Control"] == "private, no-cache"
    calendar = Calendar.from_ical(response.content)
    assert str(calendar["x-wr-calname"]) == "Planting at Linden Row"
    assert str(calendar["version"]) == "2.0"
    assert calendar.decoded("refresh-interval") == timedelta(hours=12)
    assert calendar.walk("VEVENT") == []


def test_an_unchanged_calendar_is_not_sent_again(cast: Cast, feed: CalendarFeed) -> None:
    planting = planted(cast.plot, carrot())
    first = read(feed)
    again = read(feed, if_none_match=first.headers["ETag"])
    assert (again.status_code, again.content) == (304, b"")
    planting.successions = 2
    planting.save()
    assert read(feed, if_none_match=first.headers["ETag"]).status_code == 200


def test_it_holds_the_plots_of_its_owner_and_of_nobody_else(cast: Cast, feed: CalendarFeed) -> None:
    planted(cast.plot, carrot())
    planted(PlotFactory(garden=cast.garden), tomato())
    assert {str(event["summary"]).split(" (")[0] for event in events(feed)} == {
        "Sow: Carrot",
        "Harvest: Carrot",
    }
    body = read(feed).content.decode()
    assert "Hollis" not in body
    assert "Corin" not in body


def test_several_plots_stand_in_one_calendar(cast: Cast, feed: CalendarFeed) -> None:
    crop = carrot()
    second = AssignmentFactory(
        plot__garden=cast.garden, plot__label="B2", season=cast.assignment.season, holder=cast.holder
    )
    for plot in (cast.plot, second.plot):
        planted(plot, crop)
    found = events(feed)
    assert sorted(str(event["location"]) for event in found) == [
        *["Plot A1, Linden Row"] * 2,
        *["Plot B2, Linden Row"] * 2,
    ]
    assert len({str(event["uid"]) for event in found}) == 4


def test_a_co_gardener_reads_the_shared_plot(cast: Cast, feed: CalendarFeed) -> None:
    planted(cast.plot, carrot())
    assert len(events(make_feed(user=cast.co_gardener, garden=cast.garden))) == 2


def test_a_plot_given_back_leaves_the_calendar(cast: Cast, feed: CalendarFeed) -> None:
    planted(cast.plot, carrot())
    assert len(events(feed)) == 2
    cast.assignment.ended_on = date(2026, 4, 1)
    cast.assignment.save()
    assert events(feed) == []


def test_a_revoked_address_is_gone_and_a_renewed_one_is_another(cast: Cast, feed: CalendarFeed) -> None:
    renewed = make_feed(user=cast.holder, garden=cast.garden)
    assert renewed.token != feed.token
    assert len(renewed.token) >= 43
    assert read(feed).status_code == 404
    assert read(renewed).status_code == 200
    revoke_feed(user=cast.holder, garden=cast.garden)
    assert read(renewed).status_code == 404


def test_an_address_dies_with_its_owners_account_or_membership(cast: Cast, feed: CalendarFeed) -> None:
    planted(cast.plot, carrot())
    cast.garden.memberships.filter(user=cast.holder).delete()
    assert events(feed) == []
    User.objects.filter(pk=cast.holder.pk).update(is_active=False)
    assert read(feed).status_code == 404


def test_an_unknown_address_and_a_garden_without_frost_dates(cast: Cast, feed: CalendarFeed) -> None:
    assert Client().get("/feed/guess.ics").status_code == 404
    planted(cast.plot, carrot())
    cast.garden.climate.delete()
    assert events(feed) == []


def test_names_in_any_script_come_back_whole(cast: Cast, feed: CalendarFeed) -> None:
    name = "Rau húng quế, «Олена»; cà tím Ελένης và những cái tên rất dài để gấp dòng"
    planted(cast.plot, carrot(name=name))
    assert str(events(feed)[0]["summary"]) == f"Sow: {name} (until May 30)"


@pytest.mark.parametrize("count", [1, 3])
def test_reading_takes_the_same_queries_for_one_planting_and_for_three(
    cast: Cast, feed: CalendarFeed, count: int, django_assert_num_queries
) -> None:
    for number in range(count):
        planted(cast.plot, carrot(slug=f"carrot-{number}"))
    with django_assert_num_queries(11):
        read(feed)
