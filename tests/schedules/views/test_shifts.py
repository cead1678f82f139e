"""What a change moves is shown before it is kept, and what was told before stays readable."""

from __future__ import annotations

import re
from datetime import date
from math import cos

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from plots.models import Garden
from schedules.models import DatesMoved, GardenClimate, MeanFrost
from schedules.service import GardenDates
from schedules.service.shifts import _known, moved_by
from tests.conftest import Cast
from tests.factories import PlotFactory, VarietyFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

MEAN = {"last": "May 20", "first": "October 1", "spread_days": "12", "source": "The almanac"}

SETTINGS = {
    "name": "Linden Row", "time_zone": "America/Denver", "latitude": "40.5", "units": "us", "paper": "letter",
    "nerve": "", "row_cover_c": "2",
}  # fmt: skip


@pytest.fixture
def coordinator(cast: Cast, as_user, time_machine) -> Client:
    """In April 2026, in a garden with mean frost dates and one planting at the cast's plot."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    planted(cast.plot, tomato())
    return as_user(cast.coordinator)


def weather(colder: int = 0) -> SimpleUploadedFile:
    """Twelve years of a plain file, with cold and milder nights in turn."""
    lines = ["date,tmin,tmax,precip", ",C,C,mm"]
    for number in range(date(2013, 1, 1).toordinal(), date(2025, 1, 1).toordinal()):
        day = date.fromordinal(number)
        high = 12 - 17 * cos((day.timetuple().tm_yday - 15) / 58.1) + number % 5
        lines.append(f"{day},{high - 12 - colder:.1f},{high:.1f},")
    return SimpleUploadedFile("field.csv", "\n".join(lines).encode())


def seen_in(page: str) -> str:
    return re.search(r'name="seen" value="([0-9a-f]+)"', page)[1]


def latest_of(garden: Garden) -> list[date]:
    planting = garden.plots.get(plantings__isnull=False).plantings.get()
    return [row.latest for row in GardenDates.of(garden).planting(planting).entries]


def test_typed_dates_are_kept_once_their_shifts_were_seen(cast: Cast, coordinator: Client, as_user) -> None:
    before = latest_of(cast.garden)
    page = coordinator.post("/g/linden-row/frost/source/mean/", MEAN).content.decode()
    assert "dates shift, the largest by 10 days (1 planting)." in page
    assert 'value="The almanac"' in page
    assert 'value="May 20"' in page
    assert MeanFrost.objects.get().last == (5, 10)
    assert not DatesMoved.objects.exists()

    other = {**MEAN, "last": "May 25", "seen": seen_in(page)}
    again = coordinator.post("/g/linden-row/frost/source/mean/", other).content.decode()
    assert "It would move other dates now than those you looked at." in again
    assert MeanFrost.objects.get().last == (5, 10)

    kept = coordinator.post("/g/linden-row/frost/source/mean/", {**other, "seen": seen_in(again)})
    assert (kept.status_code, MeanFrost.objects.get().last) == (302, (5, 25))
    moved = DatesMoved.objects.get()
    assert (moved.change.by, moved.change.what) == (cast.coordinator, "frost-dates-changed")
    assert "The almanac" in moved.change.after["frost_dates"]
    assert {row.old_latest for row in moved.rows.all()} <= set(before)
    assert {row.new_latest for row in moved.rows.all()} <= set(
        latest_of(Garden.objects.get(pk=cast.garden.pk))
    )

    holder = as_user(cast.holder)
    told = holder.get(f"/g/linden-row/frost/before/{moved.pk}/").content.decode()
    assert "15 days later" in told
    planting = cast.plot.plantings.get()
    assert "What was told before" in holder.get(f"/g/linden-row/plantings/{planting.pk}/").content.decode()


def test_a_bolder_nerve_in_the_settings_is_shown_first(cast: Cast, coordinator: Client) -> None:
    fields = {**SETTINGS, "nerve": "careful"}
    page = coordinator.post("/g/linden-row/settings/", fields).content.decode()
    assert Garden.objects.get(pk=cast.garden.pk).nerve == ""
    assert '<option value="careful" selected' in page
    assert coordinator.post("/g/linden-row/settings/", {**fields, "seen": seen_in(page)}).status_code == 302
    assert Garden.objects.get(pk=cast.garden.pk).nerve == "careful"
    assert DatesMoved.objects.get().change.after["nerve"] == "careful"
    # What moves no date is kept at once.
    assert coordinator.post("/g/linden-row/settings/", {**fields, "paper": "a4"}).status_code == 302


def test_a_planting_s_own_nerve_keeps_what_was_told_of_it(cast: Cast, coordinator: Client, as_user) -> None:
    planting, holder = cast.plot.plantings.get(), as_user(cast.holder)
    address = f"/g/linden-row/plantings/{planting.pk}/"
    typed = {"way": "spring-transplant", "successions": "1", "note": "By the fence"}
    assert holder.post(f"{address}edit/", typed).status_code == 302
    assert not DatesMoved.objects.exists()
    holder.post(f"{address}edit/", {**typed, "nerve": "careful"})
    told = DatesMoved.objects.get()
    assert (told.change.what, told.change.by, told.rows.exists()) == ("planting-changed", cast.holder, True)
    assert "What was told before" in holder.get(address).content.decode()


def test_a_variety_s_own_facts_are_kept_once_their_shifts_were_seen(cast: Cast, coordinator: Client) -> None:
    planting = cast.plot.plantings.get()
    planting.variety = VarietyFactory(garden=cast.garden, crop=planting.crop, name="Moskvich")
    planting.save()
    address = f"/g/linden-row/crops/tomato/varieties/{planting.variety.pk}/edit/"
    fields = {"name": "Moskvich", "maturity_days_low": "75", "maturity_days_high": "90"}
    page = coordinator.post(address, fields).content.decode()
    assert "1 date shifts, by 10 days at most (1 planting)." in page
    assert not DatesMoved.objects.exists()
    assert coordinator.post(address, {**fields, "seen": seen_in(page)}).status_code == 302
    told = DatesMoved.objects.get().change
    assert (told.what, told.by, told.after["maturity_days_low"]) == ("variety-changed", cast.coordinator, 75)


def test_taking_back_a_setting_shows_what_moves_as_well(cast: Cast, coordinator: Client) -> None:
    address = "/g/linden-row/settings/"
    seen = seen_in(coordinator.post(address, {**SETTINGS, "nerve": "careful"}).content.decode())
    coordinator.post(address, {**SETTINGS, "nerve": "careful", "seen": seen})
    change = cast.garden.changes.get(what="settings-changed")
    undo = f"/g/linden-row/history/{change.pk}/undo/"
    page = coordinator.post(undo).content.decode()
    assert Garden.objects.get(pk=cast.garden.pk).nerve == "careful"
    coordinator.post(undo, {"seen": seen_in(page)})
    assert Garden.objects.get(pk=cast.garden.pk).nerve == ""
    assert DatesMoved.objects.count() == 2


def test_a_record_read_in_is_planned_by_once_its_shifts_were_seen(
    cast: Cast, coordinator: Client, time_machine
) -> None:
    told = {"file": weather(), "name": "North field", "plan_by_it": "on"}
    page = coordinator.post("/g/linden-row/frost/source/record/", told)
    assert "See what it moves, and plan by it" in b"".join(page).decode()
    assert GardenClimate.objects.get().basis == "mean"
    record = cast.garden.station_records.get()
    use = {"basis": "record", "record": str(record.pk)}
    seen = seen_in(coordinator.post("/g/linden-row/frost/source/use/", use).content.decode())
    coordinator.post("/g/linden-row/frost/source/use/", {**use, "seen": seen})
    assert GardenClimate.objects.get().record == record
    time_machine.move_to("2026-04-22T19:00Z", tick=False)
    # Better readings of a record that is planned by move dates by themselves; what was told stays.
    page = coordinator.post("/g/linden-row/frost/source/record/", {**told, "file": weather(colder=3)})
    assert "New weather moves dates." in b"".join(page).decode()
    assert [moved.change.what for moved in DatesMoved.objects.all()] == [
        "weather-added",
        "frost-dates-changed",
    ]


def test_choosing_another_basis_asks_first_and_says_no_to_what_is_not_there(
    cast: Cast, coordinator: Client
) -> None:
    address = "/g/linden-row/frost/source/use/"
    assert coordinator.post(address, {"basis": "table"}).status_code == 302
    for percent, last in ((10, 24), (50, 12), (90, 1)):
        cast.garden.frost_table.create(celsius=0.0, side="last", percent=percent, month=5, day=last)
    page = coordinator.post(address, {"basis": "table"}).content.decode()
    assert 'name="basis" value="table"' in page
    assert GardenClimate.objects.get().basis == "mean"
    assert coordinator.post(address, {"basis": "table", "seen": seen_in(page)}).status_code == 302
    assert GardenClimate.objects.get().basis == "table"


def test_who_sees_other_plots_reads_of_them_alone(cast: Cast, coordinator: Client, as_user) -> None:
    page = coordinator.post("/g/linden-row/frost/source/mean/", MEAN).content.decode()
    coordinator.post("/g/linden-row/frost/source/mean/", {**MEAN, "seen": seen_in(page)})
    member = as_user(cast.member)
    assert (
        "No change has moved a date of your plots yet."
        in member.get("/g/linden-row/frost/before/").content.decode()
    )
    assert member.get(f"/g/linden-row/frost/before/{DatesMoved.objects.get().pk}/").status_code == 404
    assert (
        "Where the frost dates come from was changed"
        in as_user(cast.holder).get("/g/linden-row/frost/before/").content.decode()
    )


@pytest.mark.parametrize("plantings", [1, 3])
def test_trying_and_reading_back_take_as_many_queries_for_more(
    cast: Cast, coordinator: Client, django_assert_num_queries, plantings: int
) -> None:
    crop = carrot()
    for _ in range(plantings - 1):
        planted(PlotFactory(garden=cast.garden), crop)
    page = coordinator.post("/g/linden-row/frost/source/mean/", MEAN).content.decode()
    coordinator.post("/g/linden-row/frost/source/mean/", {**MEAN, "seen": seen_in(page)})
    moved = DatesMoved.objects.get()
    with django_assert_num_queries(19):
        moved_by(cast.garden, lambda: None)
    known = _known(cast.garden, GardenDates.of(cast.garden))
    with django_assert_num_queries(0):  # so that nobody waits for the reckoning
        assert known.entries()
    with django_assert_num_queries(5):
        coordinator.get(f"/g/linden-row/frost/before/{moved.pk}/")
    with django_assert_num_queries(4):
        coordinator.get("/g/linden-row/frost/before/")
