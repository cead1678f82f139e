"""Saying where the frost dates come from: import, typed tables, mean dates, the garden's difference."""

from __future__ import annotations

import gzip

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import DatabaseError

from schedules.models import DailyWeather, GardenClimate, StationRecord
from schedules.seasons import Side
from schedules.service import garden_climate, import_station
from tests.schedules.climate.conftest import Place
from tests.schedules.records import CHAMPION, small_record
from tests.schedules.stations.station_text import ghcn_csv, mild_years, plain

DAYS = mild_years(1)


def send(place: Place, content: str | bytes, file_name: str = "north-field.csv", **fields: str):
    data = content.encode() if isinstance(content, str) else content
    upload = SimpleUploadedFile(file_name, data)
    return place.coordinator.post(place.url("source/record/"), {"file": upload, "plan_by_it": "on", **fields})


def text(response) -> str:
    return b"".join(response).decode()


def test_an_import_tells_its_progress_and_ends_with_the_next_step(place):
    with CHAMPION.open("rb") as file:
        response = place.coordinator.post(
            place.url("source/record/"), {"file": file, "name": " Champion,  Nebraska ", "plan_by_it": "on"}
        )
    assert (response.status_code, response.streaming) == (200, True)
    pieces = [piece.decode() for piece in response]
    assert "13,514 days are read and checked" in pieces[0]
    assert [piece.strip() for piece in pieces[1:-2]] == [
        "<li>kept up to Jan. 8, 1992</li>",
        "<li>kept up to Jan. 15, 2002</li>",
        "<li>kept up to Jan. 23, 2012</li>",
        "<li>kept up to Dec. 31, 2018</li>",
    ]
    assert "Done: 13,514 new days, 0 corrected, 0 there already." in pieces[-2]
    assert f'href="{place.url()}"' in pieces[-2]
    assert pieces[-1].rstrip().endswith("</html>")
    assert garden_climate(place.garden).risk(Side.LAST, 0.0).used == 37
    assert StationRecord.objects.get().name == "Champion, Nebraska"


def test_the_same_file_again_changes_nothing(place):
    text(send(place, plain(DAYS)))
    assert "every day was there already" in text(send(place, plain(DAYS)))
    assert (StationRecord.objects.count(), DailyWeather.objects.count()) == (1, 365)


def test_a_compressed_file_and_the_stations_own_name(place):
    text(send(place, gzip.compress(ghcn_csv(DAYS).encode()), "USC00251415.csv.gz"))
    assert StationRecord.objects.get().name == "CHAMPION, NE US"
    text(send(place, plain(DAYS)))
    assert StationRecord.objects.filter(name="north-field").exists()


def test_bad_lines_are_named_after_the_import(place):
    found = text(send(place, plain(DAYS) + "2002-13-01,1,5,0\n2002-01-02,9,3,0\n"))
    assert "1 line could not be used" in found
    assert "Line 368: “2002-13-01” is not a date with the year first" in found
    assert "Line 369: on Jan. 2, 2002 the minimum, 9 °C (48 °F), is above the maximum" in found
    assert "Line 368:" in place.coordinator.get(place.url("source/")).content.decode()


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        ("date,tmin\n2001-01-01,5\n", "Line 2: the units are not stated"),
        (plain(DAYS, ",F,F,in"), "the warmest day on record would be"),
        (ghcn_csv(DAYS, latitude=-33.9), "on the other side of the equator"),
        ("", "This file is empty."),
    ],
)
def test_a_refused_file_says_why_and_leaves_nothing(place, content, reason):
    response = send(place, content, name="Hill station")
    assert response.status_code == 422
    found = response.content.decode()
    assert reason in found
    assert 'value="Hill station"' in found
    assert StationRecord.objects.count() == GardenClimate.objects.count() == 0


def test_an_import_that_fails_halfway_keeps_nothing_and_says_so(place, monkeypatch, caplog):
    def fail(*_args, **_kwargs):
        raise DatabaseError("disk full")

    monkeypatch.setattr("schedules.service.weather._choose", fail)
    found = text(send(place, plain(DAYS)))
    assert "nothing of it is" in found
    assert found.rstrip().endswith("</html>")
    assert "Importing a station" in caplog.text
    assert StationRecord.objects.count() == DailyWeather.objects.count() == 0


def test_the_import_page_shows_a_file_that_can_be_imported(place):
    found = place.coordinator.get(place.url("source/record/")).content.decode()
    example = found.split("<pre>")[1].split("</pre>")[0]
    assert "Done: 2 new days" in text(send(place, example))


TABLE = {
    "counts": "after",
    "source": "County office",
    "t0_0_percent": "10",
    "t0_0_last": "May 26",
    "t0_0_first": "15 September",
    "t0_1_percent": "50",
    "t0_1_last": "9 may",
    "t0_1_first": "Sept 28",
    "t1_0_percent": "50",
    "t1_0_last": "4/27",
}


def type_table(place: Place, **changes: str):
    return place.coordinator.post(place.url("source/table/"), TABLE | changes)


def test_a_typed_table_is_planned_by(place):
    assert type_table(place).url == place.url()
    climate = garden_climate(place.garden)
    assert [climate.risk(Side.LAST, 0.0).day(percent) for percent in (10, 50)] == [146, 129]
    assert [climate.risk(Side.FIRST, 0.0).day(percent) for percent in (10, 50)] == [258, 271]
    assert climate.risk(Side.LAST, -2.2).day(50) == 117


def test_a_table_of_the_chance_that_it_is_over_counts_the_other_way_in_spring_only(place):
    type_table(place, counts="passed", t0_0_percent="90", t0_0_first="")
    climate = garden_climate(place.garden)
    assert climate.risk(Side.LAST, 0.0).day(10) == 146
    assert climate.risk(Side.FIRST, 0.0).day(50) == 271
    page = place.coordinator.get(place.url("source/table/")).content.decode()
    assert 'value="passed"' in page.split("checked")[0].rsplit("<input", 1)[1]
    rows = [
        page.split(f'name="t0_{row}_{part}"')[1].split(">")[0] for row, part in ((1, "percent"), (1, "last"))
    ]
    assert 'value="90"' in rows[0]
    assert 'value="May 26"' in rows[1]


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"counts": ""}, "Please choose one."),
        ({"counts": "passed"}, "Does the table count the other way round?"),
        ({"t0_0_last": "5/10"}, "may be two days of the year"),
        ({"t0_0_last": "Brumaire 3"}, "is not a day of the year. Write it like May 10."),
        ({"t0_0_percent": ""}, "Which chance does this date have?"),
        ({"t0_0_percent": "100"}, "at most 99"),
        ({"t0_2_percent": "50", "t0_2_last": "May 9"}, "This chance and date stand twice."),
    ],
)
def test_a_table_with_a_mistake_is_kept_on_the_page(place, changes, reason):
    response = type_table(place, **changes)
    found = response.content.decode()
    assert response.status_code == 422
    assert reason in found
    assert 'value="15 September"' in found
    assert place.garden.frost_table.count() == 0


def test_an_empty_table_asks_for_a_date(place):
    response = place.coordinator.post(place.url("source/table/"), {"counts": "after"})
    assert "at least one date" in response.content.decode()


def test_mean_dates_are_planned_by_and_can_be_changed(place):
    typed = {"last": "9. May", "first": "", "spread_days": "10", "source": "Neighbours"}
    assert place.coordinator.post(place.url("source/mean/"), typed).url == place.url()
    assert garden_climate(place.garden).risk(Side.LAST, 0.0).day(10) == 142
    page = place.coordinator.get(place.url("source/mean/")).content.decode()
    assert 'value="May 9"' in page
    assert 'value="10"' in page


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"last": ""}, "one of the two dates"),
        ({"spread_days": "0"}, "at least 1"),
        ({"last": "31 June"}, "is not a day of the year"),
    ],
)
def test_mean_dates_with_a_mistake(place, changes, reason):
    typed = {"last": "9 May", "first": "", "spread_days": "12", "source": "Neighbours"} | changes
    response = place.coordinator.post(place.url("source/mean/"), typed)
    assert response.status_code == 422
    assert reason in response.content.decode()
    assert 'value="Neighbours"' in response.content.decode()


@pytest.mark.parametrize(
    ("direction", "amount", "offset"), [("colder", "2.7", -1.5), ("warmer", "0.9", 0.5), ("same", "9", 0.0)]
)
def test_the_gardens_difference_in_its_own_degrees(place, direction, amount, offset):
    import_station(garden=place.garden, station=small_record(minimum=1.0), name="A")
    place.coordinator.post(place.url("source/offset/"), {"direction": direction, "amount": amount})
    assert GardenClimate.objects.get().offset_c == offset
    page = place.coordinator.get(place.url("source/")).content.decode()
    assert ("colder" in page.split("added to")[0]) == (direction == "colder")


def test_a_difference_needs_its_amount(place):
    import_station(garden=place.garden, station=small_record(minimum=1.0), name="A")
    response = place.coordinator.post(place.url("source/offset/"), {"direction": "colder", "amount": ""})
    assert response.status_code == 422
    assert "By how much?" in response.content.decode()


def test_another_basis_can_be_chosen_and_a_record_removed(place):
    first = import_station(garden=place.garden, station=small_record(minimum=1.0), name="A").record
    type_table(place)
    page = place.coordinator.get(place.url("source/")).content.decode()
    assert "Plan by this record" in page
    place.coordinator.post(place.url("source/use/"), {"basis": "record", "record": first.pk})
    assert GardenClimate.objects.get().basis == "record"
    kept = place.coordinator.post(place.url(f"source/record/{first.pk}/remove/"), follow=True)
    assert "Choose another basis first" in kept.content.decode()
    place.coordinator.post(place.url("source/use/"), {"basis": "table"})
    gone = place.coordinator.post(place.url(f"source/record/{first.pk}/remove/"), follow=True)
    assert "is removed" in gone.content.decode()
    assert StationRecord.objects.count() == 0


def test_a_foreign_record_is_not_found(place, as_user):
    for basis in ({"basis": "record", "record": "999"}, {"basis": "record", "record": "x"}):
        assert place.coordinator.post(place.url("source/use/"), basis).status_code == 404


def test_members_read_and_do_not_change(place):
    type_table(place)
    page = place.member.get(place.url("source/")).content.decode()
    assert "A coordinator of the garden changes it." in page
    assert "<button" not in page.split("<main")[1].split("</main>")[0]
    assert place.member.get(place.url("source/record/")).status_code == 403
