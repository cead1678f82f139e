"""Water of plots and the rain gauge, as members see and fill them."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client

from plots.models import Change
from schedules.models import DailyWeather, RainReading, StationRecord, WorkLog
from tests.conftest import Cast
from tests.factories import AssignmentFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

TODAY = date(2026, 7, 8)


@pytest.fixture
def garden(cast: Cast, time_machine) -> Cast:
    """A Wednesday in July 2026; plot A1, 3 by 6 metres, grows tomatoes since 25 May."""
    time_machine.move_to("2026-07-08T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    cast.garden.units = "metric"
    cast.garden.save()
    return cast


def logged(cast: Cast, work: str, day: date, **told: object) -> WorkLog:
    told = {"plot": cast.plot, "person": cast.holder, "made_by": cast.holder, **told}
    return WorkLog.objects.create(garden=cast.garden, work=work, day=day, **told)


def warm_days(cast: Cast, *, until: date) -> None:
    """Sixty days alike: 12 to 28 °C, no rain."""
    first = until - timedelta(days=59)
    record = StationRecord.objects.create(
        garden=cast.garden, name="Shed", file_format="plain", first_day=first, last_day=until
    )
    DailyWeather.objects.bulk_create(
        DailyWeather(record=record, day=first + timedelta(days=step), tmin_c=12, tmax_c=28, precip_mm=0)
        for step in range(60)
    )


def page(client: Client, address: str) -> str:
    """What the page itself says, without its frame."""
    response = client.get(address)
    assert response.status_code == 200
    main = response.content.decode().partition("<main")[2].partition("</main>")[0]
    return " ".join(main.replace("\xa0", " ").split())


def test_by_the_weather_a_watering_counts_and_taken_back_counts_no_more(garden: Cast, as_user) -> None:
    holder, address = as_user(garden.holder), f"/g/linden-row/plots/{garden.plot.pk}/water/"
    assert "Nothing stands in this ground now" in page(holder, address)
    planting = planted(garden.plot, tomato())
    logged(garden, "transplant", date(2026, 5, 25), planting=planting)
    warm_days(garden, until=TODAY - timedelta(days=1))
    before = page(holder, address)
    assert "Owed this week:" in before
    assert "By the weather:" in before
    assert "by Wednesday, July 8" in before
    assert "Tomato" in before
    assert "cans of 10 L" in before
    assert "(the garden has not said what its can holds)" in before
    assert "something here has found too little water all week" in before
    garden.garden.hose_flows.create(name="Tap by the gate", litres=10, seconds=30, measured_on=TODAY)
    assert "minutes at “Tap by the gate”" in page(holder, address)
    poured = logged(garden, "water", TODAY, amount=1800, unit="L", litres=1800)
    logged(garden, "water", TODAY)
    after = page(holder, address)
    assert "No water is owed this week." in after
    assert "enough until about" in after
    assert "100 mm from the tap" in after
    assert "1 watering is not counted" in after
    assert "something here has found too little water all week" not in after
    garden.garden.logs.filter(work="water").update(removed_at=poured.made_at)
    garden.garden.hose_flows.all().delete()
    assert page(holder, address) == before
    logged(garden, "clear", TODAY, planting=planting)
    assert "Nothing stands in this ground now" in page(holder, address)


def test_without_recent_weather_it_is_the_weekly_inch_less_the_rain(garden: Cast, as_user) -> None:
    holder, gauge = as_user(garden.holder), "/g/linden-row/rain/"
    warm_days(garden, until=date(2026, 6, 20))
    logged(garden, "transplant", date(2026, 5, 25), planting=planted(garden.plot, tomato()))
    address = f"/g/linden-row/plots/{garden.plot.pk}/water/"
    assert "Owed this week: 25 mm, 450 L." in page(holder, address)
    assert "common practice: 25 mm a week" in page(holder, address)

    for wrong, said in [
        ({"mm": "much", "day": "2026-07-08"}, "“much” cannot be read."),
        ({"mm": "3", "day": "2026-07-09"}, "That day is still to come."),
        (
            {"mm": "3", "day": "2026-07-08", "since": "2026-07-08"},
            "The gauge was emptied before it was read.",
        ),
        (
            {"mm": "3", "day": "2026-07-08", "since": "2026-05-01"},
            "A month of rain does not stand in a gauge",
        ),
    ]:
        response = holder.post(gauge, wrong)
        assert response.status_code == 422
        assert said in response.content.decode()
        assert f'value="{wrong["mm"]}"' in response.content.decode()
    assert holder.post(gauge, {"mm": "1/2 in", "day": "2026-07-06"}).status_code == 302
    reading = RainReading.objects.get()
    assert (reading.since, reading.mm, reading.made_by) == (date(2026, 7, 5), 12.7, garden.holder)
    assert "Owed this week: 12 mm, 221 L." in page(holder, address)

    assert holder.post(gauge, {"mm": "20", "day": "2026-07-06", "since": "2026-07-04"}).status_code == 302
    assert RainReading.objects.get().mm == 20
    assert Change.objects.get(what="rain-changed").before == {"mm": 12.7, "since": "2026-07-05"}
    double = holder.post(gauge, {"mm": "3", "day": "2026-07-08", "since": "2026-07-05"})
    assert "It was read on July 6, 2026 too; that rain would count twice." in double.content.decode()
    assert "The reading of July 6, 2026 already counts this day." in (
        holder.post(gauge, {"mm": "3", "day": "2026-07-05"}).content.decode()
    )
    assert holder.post(gauge, {"mm": "2", "day": "2026-07-08"}).status_code == 302
    assert RainReading.objects.first().since == date(2026, 7, 6)

    remove = f"{gauge}{reading.pk}/remove/"
    assert as_user(garden.member).post(remove).status_code == 403
    assert holder.post(remove).status_code == 302
    assert RainReading.objects.get().mm == 2


def test_frost_puts_an_end_to_the_weekly_inch(garden: Cast, as_user, time_machine) -> None:
    planted(garden.plot, carrot(harvest_days_high=200))
    holder, address = as_user(garden.holder), f"/g/linden-row/plots/{garden.plot.pk}/water/"
    assert "Owed this week" in page(holder, address)
    time_machine.move_to("2026-11-04T18:00Z", tick=False)
    assert "Owed this week" not in page(holder, address)


@pytest.mark.parametrize("count", [1, 3])
def test_the_list_takes_the_same_queries_for_one_plot_and_for_three(
    garden: Cast, as_user, count: int, django_assert_num_queries
) -> None:
    plots = [garden.plot]
    for number in range(1, count):
        held = AssignmentFactory(
            plot__garden=garden.garden, plot__label=f"B{number}", season=garden.assignment.season
        )
        plots.append(held.plot)
    crop = tomato()
    for plot in plots:
        logged(garden, "transplant", date(2026, 5, 25), plot=plot, planting=planted(plot, crop))
        logged(garden, "water", TODAY, plot=plot, litres=5, amount=5, unit="L")
    warm_days(garden, until=TODAY - timedelta(days=1))
    client = as_user(garden.coordinator)
    with django_assert_num_queries(20):
        shown = page(client, "/g/linden-row/water/")
    assert shown.count('/water/">') >= count
    table = client.get("/g/linden-row/water/?as=csv&state=owed").content.decode()
    assert table.count("weather") == count


def test_nothing_is_asked_for_while_the_garden_has_no_water(garden: Cast, as_user) -> None:
    holder, address = as_user(garden.holder), f"/g/linden-row/plots/{garden.plot.pk}/water/"
    planting = planted(garden.plot, tomato())
    logged(garden, "transplant", date(2026, 5, 25), planting=planting)
    assert "Owed this week" in page(holder, address)
    rules, week = garden.garden.rules, "/g/linden-row/week/"
    # Off in the south's winter, off with no day to come back, on again, and off by a date of this year alone.
    for off, on, is_off in (
        ("05-15", "09-15", True), ("07-08", "", True), ("07-09", "", False),
        ("05-15", "07-08", False), ("01-02", "", False),
    ):  # fmt: skip
        rules.water_off, rules.water_on = off, on
        rules.save()
        assert ("so nothing is asked for" in page(holder, address)) is is_off, off
        assert (f"plots/{garden.plot.pk}/water/" in page(holder, week)) is not is_off, off
    garden.garden.dates.create(kind="water_off", day=TODAY - timedelta(days=1))
    for text in (page(holder, address), page(holder, "/g/linden-row/water/")):
        assert "water has been off since July 7, 2026" in text
        assert "Owed this week" not in text
