"""Loggers' files: days out of readings, and nothing guessed."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from io import BytesIO
from zoneinfo import ZoneInfo

import pytest

from schedules.days import DayWeather
from schedules.stations import Fault, RefusedFileError
from schedules.stations.loggers import DateOrder, read_logger

ZONE = ZoneInfo("America/Denver")
TODAY = date(2024, 5, 20)


def hourly(form: str, low: float = -1.5, *, days: int = 2, separator: str = ",", start: int = 0) -> list[str]:
    """Lines from midnight of 9 May on: the low at five, eleven degrees more at three in the afternoon."""
    lines = []
    for hour in range(start, 24 * days):
        moment = datetime(2024, 5, 9, tzinfo=ZONE) + timedelta(hours=hour)
        warmth = low + 11 * (1 - abs(moment.hour - 15) / 10) if moment.hour >= 5 else low + 2
        text = f"{warmth:.1f}".replace(".", "," if separator == ";" else ".")
        lines.append(separator.join([f"{hour + 1}", moment.strftime(form), text]))
    return lines


def read(heading: str, lines: list[str], order: DateOrder | None = None):
    text = "\n".join([heading, *lines])
    return read_logger(BytesIO(text.encode()), today=TODAY, zone=ZONE, order=order)


def test_a_day_of_hourly_readings_gives_its_extremes() -> None:
    file = read("#,Date Time,Temp (°C)", hourly("%Y-%m-%d %H:%M:%S"))
    assert file.days == (
        DayWeather(date(2024, 5, 9), -1.5, 9.5, None),
        DayWeather(date(2024, 5, 10), -1.5, 9.5, None),
    )
    assert (file.incomplete, file.findings.unused_count) == (0, 0)


@pytest.mark.parametrize(
    ("heading", "form", "separator", "order"),
    [
        ('Shed by the gate\n\n#,"Date/Time","Temp, °F"', "%m/%d/%Y %I:%M %p", ",", DateOrder.MONTH_FIRST),
        ("no;time;temperature_F", "%d.%m.%y %H:%M", ";", DateOrder.DAY_FIRST),
        ("no\tdate_time\ttemperature [deg F]", "%Y/%m/%d %H:%M", "\t", None),
    ],
    ids=["us", "decimal comma", "year first"],
)
def test_dates_and_units_as_loggers_write_them(
    heading: str, form: str, separator: str, order: DateOrder | None
) -> None:
    file = read(heading, hourly(form, low=28.4, separator=separator), order)
    assert [(one.day.day, one.tmin_c, one.tmax_c) for one in file.days] == [(9, -2.0, 4.11), (10, -2.0, 4.11)]


def test_times_in_utc_come_to_the_clock_of_the_garden() -> None:
    lines = [
        f"{(datetime(2024, 5, 9, 6) + timedelta(hours=hour)):%Y-%m-%dT%H:%M}Z,{3 if hour else -4}"  # noqa: DTZ001
        for hour in range(24)
    ]
    file = read("timestamp,temp C", lines)
    assert [(one.day, one.tmin_c) for one in file.days] == [(date(2024, 5, 9), -4.0)]


def test_a_date_and_a_time_may_stand_in_columns_of_their_own() -> None:
    lines = [line.replace(" ", ",") for line in hourly("%Y-%m-%d %H:%M")]
    assert len(read("no,Date,Time,Temperature (C)", lines).days) == 2


def test_a_day_with_a_gap_has_no_minimum_and_bad_lines_are_named() -> None:
    lines = hourly("%Y-%m-%d %H:%M", start=4)
    lines[5] = "6,2024-05-09 09:00,err"
    lines.append("50,2025-01-01 00:00,4.0")
    file = read("no,Date,Temperature (C)", lines)
    assert ([one.day.day for one in file.days], file.incomplete) == ([10], 1)
    assert [(one.fault, one.line) for one in file.findings.unused] == [
        (Fault.BAD_NUMBER, 7),
        (Fault.FUTURE_DAY, None),
    ]


@pytest.mark.parametrize(
    ("heading", "form", "fault"),
    [
        ("no,Date,Temperature", "%Y-%m-%d %H:%M", Fault.NO_LOGGER_UNIT),
        ("no,Date,Temp (C)", "%m/%d/%Y %H:%M", Fault.DATE_ORDER_OPEN),
        ("no,Date,Temp (C)", "%B %d", Fault.NO_MINIMUMS),
        ("no,day,warmth", "%Y-%m-%d %H:%M", Fault.UNKNOWN_LOGGER),
        ("<html>", "%Y", Fault.WEB_PAGE),
    ],
)
def test_what_cannot_be_told_is_refused(heading: str, form: str, fault: Fault) -> None:
    with pytest.raises(RefusedFileError) as refused:
        read(heading, hourly(form))
    assert refused.value.finding.fault is fault


@pytest.mark.parametrize(("days", "line"), [(3, None), (5, 98)])
def test_dates_written_the_other_way_are_refused(days: int, line: int | None) -> None:
    """9 to 11 May would be read as days of September to November; a thirteenth month gives it away sooner."""
    lines = hourly("%d/%m/%y %H:%M", days=days)
    assert len(read("no,Date,Temp (C)", lines, DateOrder.DAY_FIRST).days) == days
    with pytest.raises(RefusedFileError) as refused:
        read_logger(
            BytesIO("\n".join(["no,Date,Temp (C)", *lines]).encode()),
            today=date(2025, 5, 20),
            zone=ZONE,
            order=DateOrder.MONTH_FIRST,
        )
    found = refused.value.finding
    assert (found.fault, found.line) == (Fault.DATE_ORDER_WRONG, line)


def test_a_degree_sign_near_the_end_of_a_short_file_stays_whole() -> None:
    for rest in ("", "x", "xy", "xyz"):
        with pytest.raises(RefusedFileError) as refused:
            read(f"Date,Temp °{rest}", [])
        assert refused.value.finding.values["column"] == f"Temp °{rest}"
