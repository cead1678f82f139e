"""Frost tonight: the forecast's low, what stands in danger, and the notice that a person sends."""

from __future__ import annotations

from datetime import date

import pytest
from django.test import Client

from plots.models import Audience, Notice
from plots.queries.notices import named_in
from schedules.models import WorkLog
from schedules.service.tonight import Tonight
from schedules.tonight import expected_low
from schedules.wording.tonight import lede_text
from tests.conftest import Cast
from tests.factories import PlotFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

ADDRESS = "/g/linden-row/frost/tonight/"


@pytest.fixture
def coordinator(cast: Cast, as_user, time_machine) -> Client:
    """On May 22, 2026: tomatoes were set out at the holder's plot A1, carrots sown at B7, which is free."""
    time_machine.move_to("2026-05-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    tomatoes = planted(cast.plot, tomato())
    planted(PlotFactory(garden=cast.garden, label="B7"), carrot(kill_c=-6.7))
    log(cast, tomatoes, "transplant", date(2026, 5, 18))
    return as_user(cast.coordinator)


def log(cast: Cast, planting, work: str, day: date) -> WorkLog:
    return WorkLog.objects.create(
        garden=cast.garden, plot=planting.plot, planting=planting, work=work, day=day, person=cast.holder
    )


def test_a_low_names_what_stands_in_danger_and_drafts_the_notice(cast: Cast, coordinator: Client) -> None:
    assert "Type the low that the forecast gives." in coordinator.get(ADDRESS).content.decode()
    page = coordinator.get(ADDRESS, {"low": "31"}).content.decode()
    assert "31\u00a0°F forecast; whether this garden is colder than that is not known." in page
    assert "young, dies at 32\u00a0°F" in page
    assert "A row cover is enough." in page
    assert "Plot B7" not in page
    assert "A row cover keeps off 2\u00a0°F here (the low end for light covers, harvesttotable.com)." in page

    coordinator.post(f"{ADDRESS}notice/", {"low": "31"})
    notice = Notice.objects.get()
    assert (notice.audience, notice.given_at) == (Audience.PICKED, None)
    assert {person.pk for person in notice.picked.all()} == {cast.holder.pk, cast.co_gardener.pk}
    assert "Tomato" in notice.body
    assert named_in(notice) == []


def test_colder_still_takes_what_is_hardy_by_the_plan_alone(cast: Cast, coordinator: Client) -> None:
    page = coordinator.get(ADDRESS, {"low": "-6 °C"}).content.decode()
    assert "Plot B7" in page
    assert "(by the plan; no log tells of it)" in page
    assert "A light row cover is not enough: lay two or a blanket over hoops, or bring pots in." in page


def test_a_member_sees_their_own_plots_and_drafts_nothing(cast: Cast, coordinator: Client, as_user) -> None:
    page = as_user(cast.holder).get(ADDRESS, {"low": "20"}).content.decode()
    assert "Plot A1" in page
    assert "Plot B7" not in page
    assert "Draft a notice" not in page


@pytest.mark.parametrize("low", ["cold", "", "400"])
def test_what_is_no_temperature_is_said_beside_the_field(coordinator: Client, low: str) -> None:
    answer = coordinator.get(ADDRESS, {"low": low})
    assert answer.status_code == 422
    assert f'value="{low}"' in answer.content.decode() or not low
    assert coordinator.post(f"{ADDRESS}notice/", {"low": low}).status_code == 422
    assert not Notice.objects.exists()


def test_where_nobody_gardens_no_notice_is_drafted(cast: Cast, coordinator: Client) -> None:
    cast.plot.plantings.update(removed_at="2026-05-01T00:00Z")
    page = coordinator.post(f"{ADDRESS}notice/", {"low": "10"}, follow=True).content.decode()
    assert "Nobody gardens a plot at which something is in danger." in page
    assert not Notice.objects.exists()


def test_what_a_frost_killed_offers_to_be_planted_again_until_its_log_is_taken_back(
    cast: Cast, coordinator: Client
) -> None:
    planting = cast.plot.plantings.get()
    address = f"/g/linden-row/plantings/{planting.pk}/"
    assert "Plant it again" not in coordinator.get(address).content.decode()
    lost = log(cast, planting, "killed", date(2026, 5, 22))
    page = coordinator.get(address).content.decode()
    assert "Lost to frost on May 22." in page
    assert "Too late to raise seedlings: with some at hand or bought." in page
    assert "It was lost to frost on May 22: nothing more is to be done." in page
    assert f'/plots/{cast.plot.pk}/plan/add/tomato/?year=2026"' in page
    assert "Nothing that stands in the ground" in coordinator.get(ADDRESS, {"low": "28"}).content.decode()

    coordinator.post(f"/g/linden-row/logs/{lost.pk}/remove/")
    assert "Plant it again" not in coordinator.get(address).content.decode()


def test_all_that_one_night_took_is_written_down_at_once(cast: Cast, coordinator: Client, as_user) -> None:
    """Here the carrots of B7 stand by the plan alone; a holder sees and tells of their own plot only."""
    lost = "/g/linden-row/frost/lost/"
    assert "Tomato, plot A1" in as_user(cast.holder).get(lost).content.decode()
    assert "plot B7" not in as_user(cast.holder).get(lost).content.decode()
    page = coordinator.get(lost).content.decode()
    key = page.partition('name="key" value="')[2].partition('"')[0]
    ticked = [str(pk) for pk in cast.garden.plots.values_list("plantings__pk", flat=True) if pk]
    told = {"plantings": ticked, "day": "2026-05-22", "key": key}
    early = coordinator.post(lost, told | {"day": "2026-05-23"})
    assert (early.status_code, "This day is still to come." in early.content.decode()) == (422, True)
    assert early.content.decode().count(" checked") == 2
    assert "Tick what was lost." in coordinator.post(lost, told | {"plantings": []}).content.decode()
    theirs = as_user(cast.holder).post(lost, told)
    assert "does not stand there any more" in theirs.content.decode()
    before = coordinator.post(lost, told | {"day": "2026-05-01"})  # the tomatoes were not out yet
    assert "Tomato, plot A1: by its logs it shows since May 18." in before.content.decode()
    assert not WorkLog.objects.filter(work="killed").exists()
    done = coordinator.post(lost, told, follow=True).content.decode()
    assert "2 plantings are written down as lost to frost." in done
    assert WorkLog.objects.filter(work="killed").count() == 2
    assert "Nothing stands in the ground" in coordinator.get(lost).content.decode()


def test_what_was_cleared_early_offers_it_too_and_late_does_not(cast: Cast, coordinator: Client) -> None:
    planting = cast.plot.plantings.get()
    address = f"/g/linden-row/plantings/{planting.pk}/"
    cleared = log(cast, planting, "clear", date(2026, 5, 20))
    assert "Cleared on May 20, before its time was over." in coordinator.get(address).content.decode()
    WorkLog.objects.filter(pk=cleared.pk).update(day=date(2026, 11, 20))
    assert "before its time was over" not in coordinator.get(address).content.decode()


@pytest.mark.parametrize(
    ("offset_c", "expected"),
    [
        (-2.0, "34 °F forecast, and this garden is 3.6 °F colder: expect 30.4 °F."),
        (1.0, "34 °F forecast, and this garden is 1.8 °F warmer: expect 35.8 °F."),
        (0.0, "34 °F forecast; this garden is taken to be as cold as its station."),
        (None, "34 °F forecast; whether this garden is colder than that is not known."),
    ],
)
def test_the_gardens_own_difference_is_added_and_told(offset_c: float | None, expected: str) -> None:
    forecast_c = 10 / 9
    night = Tonight(
        date(2026, 5, 22), forecast_c, offset_c, expected_low(forecast_c, offset_c or 0), 1.11, ()
    )
    assert lede_text(night, "us").replace("\u00a0", " ") == expected


@pytest.mark.parametrize(
    ("typed", "units", "hinted"), [(28, "metric", True), (-2, "metric", False), (28, "us", False)]
)
def test_a_low_as_warm_as_a_summers_day_may_be_meant_in_fahrenheit(
    typed: float, units: str, hinted: bool
) -> None:
    night = Tonight(date(2026, 5, 22), typed, 0.0, typed, 1.11, ())
    assert ("If the forecast says 28 °F, type 28 °F." in lede_text(night, units)) == hinted


@pytest.mark.parametrize("plots", [1, 3])
def test_more_plots_take_no_more_queries(
    cast: Cast, coordinator: Client, django_assert_num_queries, plots: int
) -> None:
    crop = carrot(slug="carrot-2")
    for _ in range(plots - 1):
        planted(PlotFactory(garden=cast.garden), crop)
    with django_assert_num_queries(14):
        coordinator.get(ADDRESS, {"low": "10"})
