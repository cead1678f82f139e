"""The garden's own climate: readings, the learned difference, stations, years, and what sowings taught."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from io import BytesIO
from random import Random
from uuid import uuid4

import pytest
from django.test import Client

from plots.models import Change
from schedules.days import DayWeather
from schedules.models import DatesMoved, GardenClimate, GardenReading, Ripening, StationRecord
from schedules.seasons import Side
from schedules.service import (
    GardenDates,
    choose_basis,
    chosen_climate,
    climate,
    garden_climate,
    save_mean_frost,
)
from schedules.service.logs import keep_logs, remove_log
from schedules.windows import MIDDLING, Operation, derive
from schedules.wording.reasons import reason_sentence
from schedules.work import Work
from tests.conftest import Cast
from tests.factories import CropFactory
from tests.schedules.records import catalogue
from tests.schedules.samples import carrot, keep_days, planted, set_mean_frost

TODAY = date(2026, 6, 20)
URL = "/g/linden-row/"


@pytest.fixture
def garden(cast: Cast, time_machine) -> Cast:
    time_machine.move_to("2026-06-20T18:00Z", tick=False)
    for kept in (climate.record_days, climate._record_climate):
        kept.cache_clear()  # a rolled back record's key comes again, and here at the same moment
    return cast


def winters(first_year: int, years: int, *, colder: float = 0.0, recent_later: int = 0) -> list[DayWeather]:
    """Years that freeze until some day of May and from some day of October on; half the nights are clear."""
    random = Random(first_year)  # noqa: S311
    days = []
    for year in range(first_year, first_year + years):
        shift = recent_later if year >= first_year + years - 15 else 0
        last = date(year, 5, 5) + timedelta(days=random.randrange(-9, 10) + shift)
        first = date(year, 10, 5) + timedelta(days=random.randrange(-9, 10))
        day = date(year, 1, 1)
        while day.year == year and day <= TODAY:
            low = (-4.0 if day <= last or day >= first else 7.0) - colder
            days.append(DayWeather(day, low, low + (18 if day.toordinal() % 2 else 6), None))
            day += timedelta(days=1)
    return days


def station(cast: Cast, name: str, days: list[DayWeather], **place: float) -> StationRecord:
    ends = {"first_day": days[0].day, "last_day": days[-1].day}
    record = StationRecord.objects.create(garden=cast.garden, name=name, file_format="plain", **ends, **place)
    keep_days(record, days)
    return record


def page(client: Client, address: str, status: int = 200) -> str:
    response = client.get(URL + address)
    assert response.status_code == status
    return shown(response)


def shown(response) -> str:
    main = response.content.decode().partition("<main")[2].partition("</main>")[0]
    return " ".join(main.replace("\xa0", " ").replace("&#x27;", "'").split())


def test_members_type_what_thermometers_show_and_take_it_back(garden: Cast, as_user) -> None:
    member, other = as_user(garden.member), as_user(garden.holder)
    assert "Nobody has read them yet." in page(member, "readings/")
    typed = {"tmin_c": "28", "tmax_c": "", "soil_c": "", "day": "2026-06-20"}
    member.post(URL + "readings/", typed)
    other.post(URL + "readings/", typed | {"tmin_c": "", "soil_c": "12 °C"})
    reading = GardenReading.objects.get()
    assert (round(reading.tmin_c, 2), reading.tmax_c, reading.soil_c) == (-2.22, None, 12.0)
    assert "lowest 28 °F soil 53.6 °F" in page(member, "readings/")
    assert Change.objects.filter(what="thermometer-changed").count() == 1
    wrong = member.post(URL + "readings/", typed | {"tmax_c": "20", "day": "2026-06-21"})
    assert wrong.status_code == 422
    assert "This day is still to come." in shown(wrong)
    assert "The highest of this day lies below its lowest." in shown(wrong)
    assert 'value="20"' in shown(wrong)
    nothing = member.post(URL + "readings/", {"day": "2026-06-19"})
    assert "Type what at least one thermometer showed." in shown(nothing)
    assert other.post(URL + f"readings/{reading.pk}/remove/").status_code == 403
    member.post(URL + f"readings/{reading.pk}/remove/")
    assert not GardenReading.objects.exists()


def logger_file(low: float, *, days: int = 3) -> BytesIO:
    lines = ["no,Date Time,Temperature (°C)"]
    for hour in range(24 * days):
        moment = datetime(2026, 6, 1) + timedelta(hours=hour)  # noqa: DTZ001
        lines.append(f"{hour},{moment:%m/%d/%Y %H:%M},{low if moment.hour == 5 else low + 9}")
    file = BytesIO("\n".join(lines).encode())
    file.name = "logger.csv"
    return file


def test_a_loggers_file_becomes_days_and_typed_ones_stay(garden: Cast, as_user) -> None:
    client = as_user(garden.coordinator)
    GardenReading.objects.create(garden=garden.garden, day=date(2026, 6, 2), tmin_c=4.0)
    refused = client.post(URL + "readings/logger/", {"file": logger_file(1.5)})
    assert refused.status_code == 422
    assert "may begin with the month or with the day" in shown(refused)
    done = client.post(
        URL + "readings/logger/", {"file": logger_file(1.5), "order": "month-first"}, follow=True
    )
    assert "2 days are new or changed. 1 typed by hand stays as it was." in done.content.decode()
    kept = dict(GardenReading.objects.values_list("day", "tmin_c"))
    assert kept == {date(2026, 6, 1): 1.5, date(2026, 6, 2): 4.0, date(2026, 6, 3): 1.5}
    again = client.post(
        URL + "readings/logger/", {"file": logger_file(1.5), "order": "month-first"}, follow=True
    )
    assert "0 days are new or changed. 2 were there already." in again.content.decode()
    daily = BytesIO(b"date,tmin,tmax\n,F,F\n2026-06-03,41,66.2\n2026-06-04,,70\n")
    daily.name = "daily.csv"
    client.post(URL + "readings/logger/", {"file": daily})
    assert GardenReading.objects.order_by("day").values_list("tmin_c", "tmax_c").last() == (5.0, 19.0)
    garden.garden.readings.create(day=date(2026, 6, 4), tmax_c=21.0)
    odd = BytesIO(
        b"date,tmin,tmax\n,C,C\n2026-06-03,5,19\n2026-06-04,2,20\n2026-06-05,9,4\n2026-06-06,-70,4\n2026-06-07,x,4\n"
    )
    odd.name = "daily.csv"
    done = client.post(URL + "readings/logger/", {"file": odd}, follow=True).content.decode()
    assert "0 days are new or changed. 1 was there already. 1 typed by hand stays as it was." in done
    assert "2 cannot be right and are left out" in done
    assert "1 line could not be used. Line 7: “x” under tmin is not a number" in done
    assert garden.garden.readings.get(day=date(2026, 6, 4)).tmin_c is None
    client.post(URL + "readings/", {"soil_c": "50", "day": "2026-06-03"})
    assert garden.garden.readings.get(day=date(2026, 6, 3)).from_logger
    everything = page(client, "readings/all/")
    assert "4 in all" in everything
    assert page(client, "readings/all/?by=logger").count("a logger</td>") == 2
    asked = client.get(URL + "readings/all/?as=csv").content.decode().splitlines()
    assert asked[1:3] == ["2026-06-04,,69.8,,", "2026-06-03,41.0,66.2,50.0,a logger"]
    span = {"first": "2026-06-03", "last": "2026-06-01"}
    refused = client.post(URL + "readings/logger/remove/", span)
    assert (refused.status_code, "comes before the first one" in shown(refused)) == (422, True)
    client.post(URL + "readings/logger/remove/", span | {"first": "2026-06-02", "last": "2026-06-03"})
    assert garden.garden.readings.get(day=date(2026, 6, 3)).tmin_c is None  # its soil stays
    assert garden.garden.readings.get(day=date(2026, 6, 2)).tmin_c == 4.0
    assert Change.objects.get(what="logger-removed").after["days"] == 1
    client.post(URL + "readings/logger/remove/", span | {"first": "2026-06-01"})
    assert not garden.garden.readings.filter(day=date(2026, 6, 1)).exists()
    refused = client.post(URL + "readings/logger/remove/", span | {"first": "2026-05-01"})
    assert "No logger told of any day." in shown(refused)
    no_units = BytesIO(b"date,tmin,tmax\n2026-06-03,41,66.2\n")
    no_units.name = "daily.csv"
    refused = shown(client.post(URL + "readings/logger/", {"file": no_units}))
    assert "Line 2: the units are not stated" in refused


def test_a_learned_difference_moves_dates_once_a_coordinator_accepts_it(garden: Cast, as_user) -> None:
    client = as_user(garden.coordinator)
    days = winters(2000, 27)
    choose_basis(garden=garden.garden, basis="record", record=station(garden, "Mill", days))
    assert "No night was read in the garden" in page(client, "frost/source/offset/")
    readings = [
        GardenReading(garden=garden.garden, day=day.day, tmin_c=day.tmin_c - 1.2 + (step % 4) / 10)
        for step, day in enumerate(days[-80:])
    ]
    readings[10].tmin_c = 22.6  # °F where °C are kept
    GardenReading.objects.bulk_create(readings)
    found = page(client, "frost/source/offset/")
    assert "colder, ± 0.1 °F, from" in found
    assert "clear nights" in found
    assert "°F and °C may be mixed up" in found
    assert "In every date since" not in found
    offered = found.partition('name="offset_c" value="')[2].partition('"')[0]
    far = [GardenReading(garden=garden.garden, day=one.day, tmin_c=one.tmin_c - 12) for one in days[-160:-80]]
    GardenReading.objects.filter(pk__in=[one.pk for one in readings]).delete()
    GardenReading.objects.bulk_create(far)
    page_of_far = page(client, "frost/source/offset/")
    sent = {"offset_c": page_of_far.partition('name="offset_c" value="')[2].partition('"')[0]}
    refused = client.post(URL + "frost/source/offset/accept/", sent, follow=True)
    assert "No garden differs that much" in refused.content.decode()
    GardenReading.objects.all().delete()
    GardenReading.objects.bulk_create(readings)
    stale = client.post(URL + "frost/source/offset/accept/", {"offset_c": "-9.0"}, follow=True)
    assert "The readings have changed meanwhile." in stale.content.decode()
    planted(garden.plot, carrot())
    looked = client.post(URL + "frost/source/offset/accept/", {"offset_c": offered})
    assert "The garden's difference: 1.8 °F colder, ± 0.1 °F, from" in shown(looked)
    garden.plot.plantings.all().delete()
    before = garden_climate(garden.garden).record.curve(Side.LAST, -4.4).frozen
    client.post(URL + "frost/source/offset/accept/", {"offset_c": offered})
    chosen = chosen_climate(garden.garden)
    assert (str(chosen.offset_c), chosen.offset_by, chosen.offset_on) == (offered, garden.coordinator, TODAY)
    assert chosen.offset_nights > 30
    assert before == 0
    assert garden_climate(garden.garden).record.curve(Side.LAST, -4.4).frozen > 20
    assert "In every date since June 20, 2026." in page(client, "frost/source/offset/")
    assert Change.objects.get(what="offset-accepted").after["offset_nights"] == chosen.offset_nights
    amount = page(client, "frost/source/offset/").partition('name="amount" value="')[2].partition('"')[0]
    client.post(URL + "frost/source/offset/", {"direction": "colder", "amount": amount})
    assert chosen_climate(garden.garden).offset_nights == chosen.offset_nights  # still a learned one
    torn = client.post(URL + "frost/source/offset/", {"direction": "same", "amount": "3"})
    assert "Colder or warmer? A difference is typed below." in shown(torn)
    client.post(URL + "frost/source/offset/", {"direction": "same", "amount": amount})
    assert chosen_climate(garden.garden).offset_nights is None


def test_stations_are_compared_weighed_and_their_late_years_chosen(garden: Cast, as_user) -> None:
    garden.garden.longitude = -104.0
    garden.garden.save()
    client, member = as_user(garden.coordinator), as_user(garden.member)
    assert "no station's record yet" in page(member, "frost/source/stations/")
    mill = station(
        garden, "Mill", winters(1990, 37, recent_later=-12), latitude=40.5, longitude=-104.1, elevation_m=1500
    )
    hill = station(garden, "Hill", winters(2010, 16, colder=2.0), latitude=40.6, longitude=-104.2)
    choose_basis(garden=garden.garden, basis="record", record=mill)
    found = page(member, "frost/source/stations/")
    assert "°F colder" in found
    assert "In the last 15 years the middle last freeze came on April" in found
    assert "earlier than over all 36" in found
    assert "Chance alone brings differences like that." in found  # autumns did not change
    assert "Chance alone would bring such a difference in about 1 of 100 records." in found
    assert "share in percent" not in found
    shares = {f"share_{mill.pk}": "70", f"share_{hill.pk}": "20"}
    wrong = client.post(URL + "frost/source/stations/", shares)
    assert (wrong.status_code, "have to make 100 together" in shown(wrong)) == (422, True)
    GardenClimate.objects.update(offset_c=-1.5, offset_half_c=0.3, offset_nights=40)
    kept = client.post(URL + "frost/source/stations/", shares | {f"share_{hill.pk}": "30"}, follow=True)
    assert "The difference learned beside the former station counts no more." in kept.content.decode()
    assert chosen_climate(garden.garden).offset_c == 0
    GardenClimate.objects.update(offset_c=-0.2, offset_half_c=0.1, offset_nights=20)
    client.post(URL + "frost/source/stations/", shares | {f"share_{hill.pk}": "30"})
    assert chosen_climate(garden.garden).offset_nights == 20  # beside the same stations
    GardenClimate.objects.update(offset_c=0.0, offset_half_c=None, offset_nights=None)
    weighed = garden_climate(garden.garden)
    assert weighed.record.curve(Side.LAST, -4.4).frozen == 36  # -4.0 at the mill, but 0.6 colder together
    assert "Hill</h3>" in page(member, "frost/source/")
    assert "it counts 30 %" in page(member, "frost/source/")
    client.post(URL + "frost/source/years/", {"years": "recent"})
    assert garden_climate(garden.garden).record.curve(Side.LAST, 0.0).used == 15
    assert "The garden plans by the last fifteen years alone." in page(member, "frost/source/stations/")
    client.post(URL + "frost/source/use/", {"basis": "record", "record": mill.pk})
    assert not GardenClimate.objects.get().weighted
    GardenClimate.objects.update(offset_c=-1.5, offset_half_c=0.3, offset_nights=40)
    choose_basis(garden=garden.garden, basis="record", record=mill)
    assert chosen_climate(garden.garden).offset_c == -1.5
    other = client.post(URL + "frost/source/use/", {"basis": "record", "record": hill.pk}, follow=True)
    assert "counts no more" in other.content.decode()
    assert (chosen_climate(garden.garden).offset_c, chosen_climate(garden.garden).offset_on) == (0, None)
    GardenClimate.objects.update(offset_c=-1.5)  # somebody said so
    client.post(URL + "frost/source/use/", {"basis": "record", "record": mill.pk})
    assert chosen_climate(garden.garden).offset_c == -1.5
    assert member.post(URL + "frost/source/stations/", shares).status_code == 403


def test_a_years_freezes_are_placed_on_the_curve(garden: Cast, as_user) -> None:
    member = as_user(garden.member)
    assert "frost dates" in page(member, "frost/year/")
    days = winters(2000, 26)
    choose_basis(garden=garden.garden, basis="record", record=station(garden, "Mill", days))
    GardenReading.objects.create(garden=garden.garden, day=date(2025, 5, 29), tmin_c=-0.5)
    found = page(member, "frost/year/?year=2025")
    assert "Your last freeze, May 29, was later than in 25 of 25 years." in found
    assert "read on the garden's own thermometer" in found
    assert "Your first freeze, " in found
    assert "No freeze of that spring is known." in found  # at 24 °F
    assert page(member, "frost/year/?year=9999") == page(member, "frost/year/")
    save_mean_frost(garden=garden.garden, last=(5, 10), first=(10, 1), spread_days=12, source="")
    garden.garden.readings.create(day=date(2026, 5, 25), tmin_c=-1.0)
    few = page(member, "frost/year/?year=2026")
    assert "The last freeze read was on May 25, but 12 nights after it were not read." in few
    assert "later than in" not in few
    after = [date(2026, 5, 26) + timedelta(days=step) for step in range(12)]
    GardenReading.objects.bulk_create(
        GardenReading(garden=garden.garden, day=day, tmin_c=6.0) for day in after
    )
    assert "later than in" in page(member, "frost/year/?year=2026")


def test_a_slip_of_the_pen_is_no_freeze_and_soil_alone_no_night(garden: Cast, as_user) -> None:
    member = as_user(garden.member)
    days = winters(2000, 26)
    choose_basis(garden=garden.garden, basis="record", record=station(garden, "Mill", days))
    before = page(member, "frost/year/")
    assert "The freezes of 2025" in before
    garden.garden.readings.create(day=date(2026, 6, 1), soil_c=12.0)
    assert page(member, "frost/year/") == before
    for step in range(12):
        garden.garden.readings.create(day=date(2025, 7, 1) + timedelta(days=step), tmin_c=6.5)
    garden.garden.readings.filter(day=date(2025, 7, 9)).update(tmin_c=-6.5)
    assert page(member, "frost/year/") == before


def told(cast: Cast, planting, work: str, day: date, **more: object):
    people = {"person": cast.holder, "by": cast.holder}
    told = {"planting": planting, "work": work, "day": day, **people, **more}
    return keep_logs(garden=cast.garden, plots=[planting.plot], key=uuid4(), **told).rows[0]


def harvest(cast: Cast, planting) -> date:
    found = GardenDates.of(cast.garden).planting(planting)
    return next(w.best for w in found.windows if w.operation is Operation.HARVEST)


def looked_and_accepted(client: Client, address: str, told: dict[str, object]) -> None:
    """Sends a button's form, and once more with what its page shows to have been seen."""
    shown = client.post(URL + address, told).content.decode()
    assert "what sowings here taught: Carrot" in shown
    seen = shown.partition('name="seen" value="')[2].partition('"')[0]
    assert seen
    client.post(URL + address, {**told, "seen": seen})


def test_first_pickings_teach_days_to_maturity_until_set_aside(garden: Cast, as_user) -> None:
    client, member = as_user(garden.coordinator), as_user(garden.member)
    assert "Nothing yet." in page(member, "taught/")
    set_mean_frost(garden.garden)
    crop = carrot()
    old, new = planted(garden.plot, crop, year=2025), planted(garden.plot, crop, year=2026)
    before = harvest(garden, new)
    told(garden, old, Work.SOW, date(2025, 4, 20))
    expected = harvest(garden, old) - date(2025, 4, 20)
    picked = told(garden, old, Work.PICK, date(2025, 4, 20) + expected + timedelta(days=16))
    told(garden, old, Work.PICK, date(2025, 9, 20))
    row = Ripening.objects.get()
    assert (row.expected_days, row.took_days) == (expected.days, expected.days + 16)
    assert harvest(garden, new) - before == timedelta(days=4)
    found = page(member, "taught/")
    assert "4 days later" in found
    assert "Set it aside" not in found
    assert "from 1 sowing." in as_user(garden.holder).get(
        URL + f"plantings/{new.pk}/"
    ).content.decode().replace("\xa0", " ")
    looked_and_accepted(client, f"taught/{crop.pk}/", {"variety": "", "counts": "no"})
    assert harvest(garden, new) == before
    assert "1 sowing, set aside" in page(client, "taught/")
    looked_and_accepted(client, f"taught/{crop.pk}/", {"variety": "", "counts": "yes"})
    assert harvest(garden, new) - before == timedelta(days=4)
    remove_log(log=picked, by=garden.holder)
    assert Ripening.objects.get().picked_on == date(2025, 9, 20)
    codes = list(DatesMoved.objects.values_list("change__what", flat=True))
    assert codes == ["lesson-learned", "lesson-taken-up", "lesson-set-aside", "lesson-learned"]
    assert "First pickings taught how long it takes here" in page(as_user(garden.holder), "frost/before/")
    first = DatesMoved.objects.last()
    assert "· the garden’s logs" in page(as_user(garden.holder), f"frost/before/{first.pk}/")
    assert {row.new_best - row.old_best for row in first.rows.all()} == {timedelta(days=4)}


def test_soil_read_cold_holds_sowing_back(garden: Cast, as_user, time_machine) -> None:
    time_machine.move_to("2026-04-20T18:00Z", tick=False)
    days = winters(2000, 26)
    choose_basis(garden=garden.garden, basis="record", record=station(garden, "Mill", days))
    before = garden_climate(garden.garden)
    planting, holder = planted(garden.plot, carrot()), as_user(garden.holder)
    holder.post(URL + "readings/", {"soil_c": "1 °C", "day": "2026-04-17"})
    found = garden_climate(garden.garden)
    assert replace(found, soil_read=()) == before
    radish = catalogue()["radish"]
    windows = [
        next(w for w in derive(radish, one, year=2026, nerve=MIDDLING) if w.operation is Operation.SOW)
        for one in (before, found)
    ]
    assert windows[0].earliest == date(2026, 4, 17)
    assert windows[1].earliest == date(2026, 4, 24)
    assert any(
        reason_sentence(reason, "us").endswith("The soil thermometer, read on April 17, tells.")
        for reason in windows[1].reasons
    )
    holder.post(URL + "readings/", {"tmin_c": "1 °C", "day": "2026-04-18"})  # moves nothing
    kept = DatesMoved.objects.get()
    rows = {row.operation: row for row in kept.rows.filter(succession=1)}
    assert (rows["sow"].old_earliest, rows["sow"].new_earliest) == (date(2026, 4, 14), date(2026, 4, 23))
    assert "The soil’s temperature was read" in page(holder, f"frost/before/{kept.pk}/")
    assert "soil now 33.8 °F" in page(holder, f"frost/before/{kept.pk}/")
    holder.post(URL + f"readings/{garden.garden.readings.get(day='2026-04-17').pk}/remove/")
    back = DatesMoved.objects.first()
    assert (back.change.what, back.rows.count()) == ("thermometer-removed", kept.rows.count())
    assert "What was told before" in holder.get(URL + f"plantings/{planting.pk}/").content.decode()


@pytest.mark.parametrize("rows", [1, 3])
def test_queries(garden: Cast, as_user, rows: int, django_assert_num_queries) -> None:
    set_mean_frost(garden.garden)
    for number in range(rows):
        reading = {"day": TODAY - timedelta(days=number), "tmin_c": 1.0, "made_by": garden.member}
        garden.garden.readings.create(**reading)
        begun = {"begun_on": date(2025, 5, 1), "picked_on": date(2025, 7, 1), "expected_days": 60}
        planting = planted(garden.plot, CropFactory(maturity_days_low=50, maturity_days_high=60), year=2025)
        Ripening.objects.create(planting=planting, succession=1, **begun)
    member = as_user(garden.member)
    for address, count in (("readings/", 5), ("taught/", 7)):
        with django_assert_num_queries(count):
            member.get(URL + address)
