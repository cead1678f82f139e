"""Reading station files: every layout, and every trap that such files hold."""

from __future__ import annotations

import gzip
import io
from datetime import date

import pytest

from schedules.days import DayWeather
from schedules.stations import Fault, RefusedFileError, StationFile, StationFormat, read_station, reader
from tests.schedules.records import TODAY, champion, champion_read
from tests.schedules.stations.station_text import (
    STATION,
    ghcn_csv,
    ghcn_dly,
    ghcn_long,
    mild_years,
    plain,
    tenths,
)

DAYS = mild_years()
LAYOUTS = {
    StationFormat.PLAIN: plain,
    StationFormat.GHCN_CSV: ghcn_csv,
    StationFormat.GHCN_LONG: ghcn_long,
    StationFormat.GHCN_DLY: ghcn_dly,
}


def read(text: str | bytes, **kwargs) -> StationFile:
    data = text if isinstance(text, bytes) else text.encode()
    return read_station(io.BytesIO(data), today=TODAY, **kwargs)


def refusal(text: str | bytes, **kwargs):
    with pytest.raises(RefusedFileError) as caught:
        read(text, **kwargs)
    return caught.value.finding


@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_layout_gives_the_same_days(layout):
    found = read(LAYOUTS[layout](DAYS))
    assert found.layout is layout
    assert list(found.days) == DAYS
    assert found.findings.counts == {}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_line_ends_byte_order_mark_and_compression_make_no_difference(layout):
    text = LAYOUTS[layout](DAYS)
    for data in (
        text.replace("\n", "\r\n").encode(),
        b"\xef\xbb\xbf" + text.encode(),
        text.encode("utf-16"),
        gzip.compress(text.encode()),
        text.replace("\n", "\r").encode(),
        text.rstrip("\n").encode(),
    ):
        assert list(read(data).days) == DAYS


def test_a_long_list_may_name_its_columns():
    header = "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n"
    found = read(header + ghcn_long(DAYS))
    assert (found.layout, list(found.days)) == (StationFormat.GHCN_LONG, DAYS)
    assert found.findings.counts == {}


def test_a_ghcn_csv_tells_where_its_station_lies():
    found = read(ghcn_csv(DAYS, latitude=-41.5), latitude=10)
    assert (found.station_id, found.name) == (STATION, "CHAMPION, NE US")
    assert (found.latitude, found.longitude, found.elevation_m) == (-41.5, -101.73, 1072.0)
    assert found.flags_known


def test_a_latitude_given_by_hand_serves_files_without_one():
    assert read(plain(DAYS), latitude=-12.5).latitude == -12.5
    assert read(plain(DAYS)).latitude is None


FLAGGED = {
    StationFormat.GHCN_CSV: {date(2001, 3, 1): ",I,7", date(2001, 3, 2): "L,,7", date(2001, 3, 3): "H"},
    StationFormat.GHCN_LONG: {date(2001, 3, 1): "I"},
    StationFormat.GHCN_DLY: {date(2001, 3, 1): "I"},
}


@pytest.mark.parametrize("layout", FLAGGED)
def test_a_quality_flag_makes_a_value_missing_and_other_flags_do_not(layout):
    found = read(LAYOUTS[layout](DAYS, flags=FLAGGED[layout]))
    day = next(day for day in found.days if day.day == date(2001, 3, 1))
    assert (day.tmin_c, day.tmax_c is None) == (None, False)
    assert found.findings.flagged == 1
    assert sum(day.tmin_c is None for day in found.days) == 1


def test_element_columns_are_found_by_name_and_flags_may_be_absent():
    lines = ["TMIN,DATE,TOBS,STATION,TMAX"]
    lines += [f"{tenths(d.tmin_c)},{d.day},99,{STATION},{tenths(d.tmax_c)}" for d in DAYS]
    found = read("\n".join(lines))
    assert [day.tmin_c for day in found.days] == [day.tmin_c for day in DAYS]
    assert found.days[0].precip_mm is None
    assert not found.flags_known


@pytest.mark.parametrize("missing", ["", " ", "NA", "NaN", "null", "-9999", "-9999.0", "M"])
def test_marks_for_a_missing_value(missing):
    text = plain(DAYS) + f"2003-01-01,{missing},5,0\n"
    found = read(text)
    assert found.days[-1] == DayWeather(date(2003, 1, 1), None, 5.0, 0.0)
    assert found.findings.counts == {}


@pytest.mark.parametrize(
    ("units", "line", "wanted"),
    [
        (",C,C,mm", "-2.2,3.33,12.5", (-2.2, 3.33, 12.5)),
        (",°F,°F,in", "28,38,0.5", (-2.22, 3.33, 12.7)),
        (",K,K,cm", "270.95,276.48,1.25", (-2.2, 3.33, 12.5)),
        (",tenths C,tenths C,tenths mm", "-22,33,125", (-2.2, 3.3, 12.5)),
        ("unit,Celsius,degC,mm", "-2.2,3.33,12.5", (-2.2, 3.33, 12.5)),
        (", 0.1 °C ,tenths of C,0.1 mm", "-22,33,125", (-2.2, 3.3, 12.5)),
    ],
)
def test_units_are_what_the_unit_row_says(units, line, wanted):
    (day,) = read(f"date,tmin,tmax,precip\n{units}\n2001-04-01,{line}\n").days
    assert (day.tmin_c, day.tmax_c, day.precip_mm) == wanted


def test_columns_may_stand_in_any_order_and_spelling():
    text = "Note;TMAX;Date;TMin;PRCP\n;C;;C;mm\nx;10,5;2001-04-01;-1,5;2,25\ny;11;2001/4/2;0;0\n"
    assert read(text).days == (
        DayWeather(date(2001, 4, 1), -1.5, 10.5, 2.25),
        DayWeather(date(2001, 4, 2), 0.0, 11.0, 0.0),
    )


def test_semicolons_and_tabs_may_go_with_decimal_commas():
    for separator in (";", "\t"):
        assert list(read(plain(DAYS, separator=separator, comma=True)).days) == DAYS


def test_a_quoted_decimal_comma_between_commas_is_named_not_guessed():
    found = read(plain(DAYS) + '2003-01-01,"1,5",5,0\n')
    (finding,) = found.findings.unused
    assert (finding.fault, finding.line, finding.values["text"]) == (Fault.BAD_NUMBER, len(DAYS) + 3, "1,5")


def test_bad_lines_are_named_with_their_number():
    good = plain(DAYS[:400]).splitlines()
    good[10] = "2001-02-30,1,5,0"
    good[20] = "05/09/2001,1,5,0"
    good[30] = good[30].replace(",", ",x", 1)
    good[40] = "2001-02-08"
    good[50] = "2087-01-01,1,5,0"
    good[60] = good[61].split(",")[0] + ",1.25,5,0"
    found = read("\n".join(good))
    faults = [(finding.line, finding.fault) for finding in found.findings.unused]
    assert faults == [
        (11, Fault.BAD_DATE),
        (21, Fault.BAD_DATE),
        (31, Fault.BAD_NUMBER),
        (41, Fault.SHORT_LINE),
        (51, Fault.FUTURE_DAY),
        (62, Fault.DUPLICATE_DAY),
    ]
    assert len(found.days) == 400 - 5


def test_the_first_bad_lines_are_listed_and_all_are_counted():
    lines = plain(DAYS).splitlines()
    lines[2:202] = ["nonsense,1,2,3"] * 200
    findings = read("\n".join(lines)).findings
    assert (len(findings.unused), findings.unused_count, findings.doubtful_count) == (50, 200, 0)


def test_the_same_day_twice_with_the_same_values_is_harmless():
    text = plain(DAYS) + plain(DAYS[:3]).split("\n", 2)[2]
    found = read(text)
    assert (list(found.days), found.findings.counts) == (DAYS, {})


def test_the_first_of_two_different_values_stands():
    found = read(plain(DAYS) + "2001-01-01,-7.5,1,0\n")
    assert found.days[0] == DAYS[0]
    (finding,) = found.findings.unused
    assert finding.values["first_line"] == 3


def test_a_minimum_above_its_maximum_is_named_and_kept():
    found = read(plain([*DAYS, DayWeather(date(2003, 1, 1), 8.0, 3.0, 0.0)]))
    assert found.days[-1].tmin_c == 8.0
    (finding,) = found.findings.doubtful
    assert (finding.fault, finding.line) == (Fault.MIN_ABOVE_MAX, len(DAYS) + 3)
    assert found.findings.unused_count == 0


def test_one_impossible_value_in_a_thousand_lines_is_named_and_more_refuse_the_file():
    days = mild_years(4)
    text = plain(days)
    one = read(text + "2005-01-01,95,99,0\n")
    assert [(f.fault, f.line) for f in one.findings.unused] == [(Fault.IMPOSSIBLE_VALUE, len(days) + 3)]
    assert one.days[-1].tmin_c is None
    two = refusal(text + "2005-01-01,95,99,0\n2005-01-02,96,99,0\n")
    assert (two.fault, two.line, two.values["count"]) == (Fault.IMPOSSIBLE_VALUES, len(days) + 3, 2)


def fahrenheit(days: list[DayWeather]) -> list[DayWeather]:
    return [
        DayWeather(d.day, float(round(d.tmin_c * 1.8 + 32)), float(round(d.tmax_c * 1.8 + 32)), d.precip_mm)
        for d in days
    ]


def test_whole_fahrenheit_under_ghcn_names_is_refused():
    text = ghcn_csv([DayWeather(d.day, d.tmin_c / 10, d.tmax_c / 10, d.precip_mm) for d in fahrenheit(DAYS)])
    finding = refusal(text)
    assert finding.fault is Fault.NEVER_WARM
    assert (finding.values["maximum"], finding.values["celsius"]) == (True, pytest.approx(8.7, abs=0.3))
    warmest = text.splitlines()[finding.line - 1]
    assert f'"{finding.values["celsius"] * 10:.0f}"' in warmest


@pytest.mark.parametrize("latitude", [None, 40.0, -40.0])
def test_whole_fahrenheit_is_refused_in_either_hemisphere(latitude):
    days = fahrenheit(mild_years(warmest_day=200 if latitude != -40 else 17))
    text = ghcn_long([DayWeather(d.day, d.tmin_c / 10, d.tmax_c / 10, d.precip_mm) for d in days])
    assert refusal(text, latitude=latitude).fault is Fault.NEVER_WARM


def test_whole_fahrenheit_minimums_alone_are_refused_too():
    days = [DayWeather(d.day, d.tmin_c / 10) for d in fahrenheit(DAYS)]
    finding = refusal(ghcn_dly(days))
    assert (finding.fault, finding.values["maximum"]) == (Fault.NEVER_WARM, False)


def test_celsius_with_decimals_under_ghcn_names_is_refused():
    text = ghcn_csv(DAYS).replace(f'"{tenths(DAYS[4].tmin_c)}"', f'"{DAYS[4].tmin_c}"', 1)
    finding = refusal(text)
    assert (finding.fault, finding.line) == (Fault.NOT_WHOLE_TENTHS, 6)


@pytest.mark.parametrize(
    ("units", "days", "fault"),
    [
        (",C,C,mm", fahrenheit(DAYS), Fault.IMPOSSIBLE_VALUES),
        (",F,F,in", DAYS, Fault.NEVER_WARM),
        (",K,K,mm", DAYS, Fault.IMPOSSIBLE_VALUES),
        (",tenths C,tenths C,mm", DAYS, Fault.NEVER_WARM),
    ],
)
def test_values_that_cannot_have_the_declared_unit_refuse_the_file(units, days, fault):
    finding = refusal(plain(days, units))
    assert finding.fault is fault
    assert finding.line > 2


def test_a_short_winter_record_is_not_called_too_cold():
    winter = [day for day in DAYS if day.day.month in (1, 2)]
    assert len(read(ghcn_csv(winter)).days) == len(winter)
    assert len(read(plain(winter)).days) == len(winter)


@pytest.mark.parametrize(
    ("text", "fault", "line"),
    [
        ("", Fault.EMPTY, None),
        ("<!DOCTYPE html><html>", Fault.WEB_PAGE, 1),
        ("PK\x03\x04rest", Fault.NOT_TEXT, None),
        ("\x00\x01\x02\x03", Fault.NOT_TEXT, None),
        ("Dear garden,\nhere are the dates", Fault.UNKNOWN_LAYOUT, 1),
        ("date,tmax\n,C\n2001-01-01,5\n", Fault.NO_MINIMUM_COLUMN, 1),
        ("date,tmin,tmax,precip\n2001-01-01,1,2,0\n", Fault.NO_UNIT_ROW, 2),
        ("date,tmin,tmax,precip\n", Fault.NO_UNIT_ROW, 2),
        ("date,tmin\n,Rankine\n2001-01-01,1\n", Fault.UNKNOWN_UNIT, 2),
        ("date,tmin,precip\n,C\n2001-01-01,1,0\n", Fault.UNKNOWN_UNIT, 2),
        ("date,tmin\n,C\n", Fault.NO_MINIMUMS, None),
        ("date,tmin\n,C\n2001-01-01,\n", Fault.NO_MINIMUMS, None),
        ("date,tmin\n,C\n01/02/2001,3\n", Fault.NO_MINIMUMS, 3),
        ("date,tmin\n,C\n2001-01-01,3\nx,3\ny,3\n", Fault.MOSTLY_UNREADABLE, 4),
        ("date,tmin,tmax\n,C,C\n2001-01-01,9,3\n2001-01-02,8,1\n", Fault.COLUMNS_SWAPPED, 3),
        ('date,tmin\n,C\n2001-01-01,3\n"' + "x" * 140_000, Fault.BROKEN_LINE, None),
    ],
)
def test_files_that_are_refused(text, fault, line):
    finding = refusal(text)
    assert (finding.fault, finding.line) == (fault, line)


@pytest.mark.parametrize("layout", [StationFormat.GHCN_CSV, StationFormat.GHCN_LONG, StationFormat.GHCN_DLY])
def test_a_file_of_several_stations_is_refused(layout):
    text = LAYOUTS[layout](DAYS)
    head, rest = text[: len(text) // 2], text[len(text) // 2 :]
    finding = refusal(head + rest.replace(STATION, "USC00256970"))
    assert (finding.fault, finding.values["second"]) == (Fault.SEVERAL_STATIONS, "USC00256970")


def test_damaged_and_endless_archives(monkeypatch):
    data = gzip.compress(plain(DAYS).encode())
    assert refusal(data[: len(data) // 2]).fault is Fault.BROKEN_ARCHIVE
    assert refusal(data[:100] + b"junk" + data[104:]).fault is Fault.BROKEN_ARCHIVE
    monkeypatch.setattr(reader, "MOST_BYTES", 10_000)
    assert refusal(data).fault is Fault.TOO_LARGE


def test_days_outside_the_calendar_in_a_dly_file():
    text = ghcn_dly(DAYS).splitlines()
    february = next(i for i, line in enumerate(text) if line[15:21] == "02TMIN")
    at = 21 + 8 * 29
    text[february] = text[february][:at] + "   50  7" + text[february][at + 8 :]
    found = read("\n".join(text))
    (finding,) = found.findings.unused
    assert (finding.fault, finding.line) == (Fault.BAD_DATE, february + 1)


def test_an_old_western_encoding_does_not_stop_the_reading():
    found = read("date,tmin,tmax,precip\n,°C,°C,mm\n2001-01-01,1,5,0\n".encode("cp1252"))
    assert found.days == (DayWeather(date(2001, 1, 1), 1.0, 5.0, 0.0),)


def test_filler_is_reported_and_kept():
    (run,) = champion().runs
    assert (run.first_day, run.last_day, run.tmin_c, run.days) == (
        date(1982, 2, 5),
        date(1982, 2, 11),
        -27.22,
        7,
    )
    assert sum(day.tmin_c == -27.22 for day in champion().days[:60]) >= 7


def test_four_days_alike_in_both_temperatures_are_filler_but_not_across_a_gap():
    same = [DayWeather(date(2003, 1, n), -5.0, 1.0, 0.0) for n in range(1, 5)]
    assert [run.days for run in read(plain([*DAYS, *same])).runs] == [4]
    gap = [same[0], same[1], same[3], DayWeather(date(2003, 1, 5), -5.0, 1.0, 0.0)]
    assert read(plain([*DAYS, *gap])).runs == ()


def test_progress_is_told():
    _read, seen = champion_read()
    assert seen == [2000, 4000, 6000, 8000, 10000, 12000]
