"""The four layouts of station files, each turned into readings in °C and mm.

GHCN-Daily is the daily collection of NOAA's National Centers for Environmental Information: temperatures
are tenths of a degree Celsius, precipitation tenths of a millimetre, and any quality flag means that the
value failed a check.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from schedules.stations.findings import Fault, Findings, RefusedFileError, StationFormat
from schedules.stations.values import Element, NotANumberError, calendar_day, number, unit_of

PLAIN_EXAMPLE = """\
date,tmin,tmax,precip
,C,C,mm
2024-05-09,-0.6,14.4,0
2024-05-10,2.2,17.8,3.1
"""
"""What the plain layout looks like, for whoever has to write such a file."""

_DLY_LINE = re.compile(r"[A-Z]{2}[\w.-]{9}\d{6}[A-Z0-9]{4}(?:[ \d-]{5})")
_LONG_LINE = re.compile(r'"?[A-Z]{2}[\w.-]{9}"?,"?\d{8}"?,"?[A-Z0-9]{4}"?,')
_LONG_HEADER = ["id", "date", "element", "data_value"]  # some copies name their columns
_GHCN_ELEMENTS = {"TMIN": Element.TMIN, "TMAX": Element.TMAX, "PRCP": Element.PRECIP}
_WHOLE = re.compile(r"[+-]?\d+")
_DLY_DAY_WIDTH = 8


class Reading(NamedTuple):
    """One value as found: `value` in °C or mm, `None` where missing; `text` as the file writes it."""

    line: int
    day: date
    element: Element
    value: float | None
    text: str


@dataclass(slots=True)
class Place:
    """What a file tells about its station besides the weather."""

    station_id: str = ""
    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    elevation_m: float | None = None
    flags_known: bool = True


Lines = Iterator[str]
Reader = Callable[[Lines, Findings, Place], Iterator[Reading]]


def layout_of(first_line: str, second_line: str) -> tuple[StationFormat, Reader]:
    """Which layout a file has, told by its first two lines; refused when it is none of them."""
    if _DLY_LINE.match(first_line):
        return StationFormat.GHCN_DLY, read_dly
    if _LONG_LINE.match(first_line):
        return StationFormat.GHCN_LONG, read_long
    columns = _columns(first_line)
    if columns[:4] == _LONG_HEADER:
        return StationFormat.GHCN_LONG, read_long
    if "date" not in columns:
        raise RefusedFileError(Fault.UNKNOWN_LAYOUT, 1, text=first_line.strip()[:60])
    if Element.TMIN not in columns:
        raise RefusedFileError(Fault.NO_MINIMUM_COLUMN, 1, columns=", ".join(filter(None, columns)))
    if "station" in columns and not _is_unit_row(columns, second_line, delimiter_of(first_line)):
        return StationFormat.GHCN_CSV, read_ghcn_csv
    return StationFormat.PLAIN, read_plain


def read_plain(lines: Lines, findings: Findings, _place: Place) -> Iterator[Reading]:
    """CSV with a header (date, tmin, tmax, precip in any order) and a unit row under it.

    A file separated by semicolons or tabs may write decimal commas, as spreadsheets in much of Europe do.
    """
    header = next(lines)
    delimiter = delimiter_of(header)
    columns = _columns(header)
    rows = csv.reader(lines, delimiter=delimiter)
    at = {element: columns.index(element) for element in Element if element in columns}
    convert = _conversions(next(rows, []), at, columns.index("date"))
    date_at = columns.index("date")
    for row in rows:
        if not any(cell.strip() for cell in row):
            continue
        line = rows.line_num + 1  # the header was taken before
        day = _day_in(row, date_at, line, findings)
        if day is None:
            continue
        for element, index in at.items():
            if index >= len(row):
                findings.note(Fault.SHORT_LINE, line, columns=len(row), expected=len(columns))
                break
            try:
                found = number(row[index], decimal_comma=delimiter != ",")
            except NotANumberError:
                findings.note(Fault.BAD_NUMBER, line, column=element.value, text=row[index].strip()[:30])
                continue
            yield Reading(line, day, element, None if found is None else convert[element](found), row[index])


def read_ghcn_csv(lines: Lines, findings: Findings, place: Place) -> Iterator[Reading]:
    """GHCN-Daily, one file per station, a line per day: element columns vary and are found by name."""
    rows = csv.reader(lines)
    columns = [cell.strip().upper() for cell in next(rows)]
    at = {element: columns.index(name) for name, element in _GHCN_ELEMENTS.items() if name in columns}
    flags_at = {
        element: columns.index(f"{name}_ATTRIBUTES")
        for name, element in _GHCN_ELEMENTS.items()
        if f"{name}_ATTRIBUTES" in columns
    }
    place.flags_known = set(at) <= set(flags_at)
    station_at, date_at = columns.index("STATION"), columns.index("DATE")
    for row in rows:
        if not any(cell.strip() for cell in row):
            continue
        line = rows.line_num
        if len(row) <= max(station_at, date_at, *at.values()):
            findings.note(Fault.SHORT_LINE, line, columns=len(row), expected=len(columns))
            continue
        if not place.station_id:
            _describe(place, dict(zip(columns, row, strict=False)))
        _same_station(place, row[station_at], line)
        day = _day_in(row, date_at, line, findings)
        if day is None:
            continue
        for element, index in at.items():
            flags = row[flags_at[element]] if element in flags_at and flags_at[element] < len(row) else ""
            quality = flags.split(",")[1] if "," in flags else ""
            yield from _tenths(line, day, element, row[index], quality, findings)


def read_long(lines: Lines, findings: Findings, place: Place) -> Iterator[Reading]:
    """GHCN-Daily, a line per value: station, YYYYMMDD, element, value, three flags; seldom a header."""
    rows = csv.reader(lines)
    for row in rows:
        if not any(cell.strip() for cell in row):
            continue
        line = rows.line_num
        if line == 1 and [cell.strip().casefold() for cell in row[:4]] == _LONG_HEADER:
            continue
        if len(row) < 4:
            findings.note(Fault.SHORT_LINE, line, columns=len(row), expected=8)
            continue
        place.station_id = place.station_id or row[0].strip()
        _same_station(place, row[0], line)
        element = _GHCN_ELEMENTS.get(row[2].strip())
        if element is None:
            continue
        day = _day_in(row, 1, line, findings)
        if day is not None:
            yield from _tenths(line, day, element, row[3], row[5] if len(row) > 5 else "", findings)


def read_dly(lines: Lines, findings: Findings, place: Place) -> Iterator[Reading]:
    """GHCN-Daily .dly: a line per month and element, 31 fields of value (5 wide), M, Q and S flag."""
    for line, text in enumerate(lines, start=1):
        if not text.strip():
            continue
        if not _DLY_LINE.match(text):
            findings.note(Fault.SHORT_LINE, line, columns=len(text.rstrip()), expected=269)
            continue
        place.station_id = place.station_id or text[:11]
        _same_station(place, text[:11], line)
        element = _GHCN_ELEMENTS.get(text[17:21])
        if element is None:
            continue
        for day_of_month in range(1, 32):
            start = 21 + _DLY_DAY_WIDTH * (day_of_month - 1)
            value = text[start : start + 5].strip()
            if value in ("", "-9999"):
                continue
            day = calendar_day(f"{text[11:17]}{day_of_month:02}")
            if day is None:
                findings.note(Fault.BAD_DATE, line, text=f"{text[11:15]}-{text[15:17]}-{day_of_month:02}")
                continue
            yield from _tenths(line, day, element, value, text[start + 6 : start + 7], findings)


def _tenths(
    line: int, day: date, element: Element, text: str, quality: str, findings: Findings
) -> Iterator[Reading]:
    """A GHCN-Daily value: whole tenths, and nothing when a quality check failed."""
    plain = text.strip()
    if quality.strip() and plain:
        findings.flagged += 1
        yield Reading(line, day, element, None, plain)
        return
    try:
        found = number(plain)
    except NotANumberError:
        findings.note(Fault.BAD_NUMBER, line, column=element.value, text=plain[:30])
        return
    if found is not None and not _WHOLE.fullmatch(plain):
        raise RefusedFileError(Fault.NOT_WHOLE_TENTHS, line, column=element.value, text=plain)
    yield Reading(line, day, element, None if found is None else found / 10, plain)


def _describe(place: Place, cells: dict[str, str]) -> None:
    place.station_id = cells["STATION"].strip()
    place.name = cells.get("NAME", cells.get("STATION_NAME", "")).strip()
    for attribute, column in (
        ("latitude", "LATITUDE"),
        ("longitude", "LONGITUDE"),
        ("elevation_m", "ELEVATION"),
    ):
        try:
            setattr(place, attribute, number(cells.get(column, "")))
        except NotANumberError:
            continue


def _same_station(place: Place, station_id: str, line: int) -> None:
    if station_id.strip() != place.station_id:
        raise RefusedFileError(
            Fault.SEVERAL_STATIONS, line, first=place.station_id, second=station_id.strip()
        )


def _day_in(row: Sequence[str], index: int, line: int, findings: Findings) -> date | None:
    text = row[index] if index < len(row) else ""
    day = calendar_day(text)
    if day is None:
        findings.note(Fault.BAD_DATE, line, text=text.strip()[:30])
    return day


def delimiter_of(header: str) -> str:
    """What parts the columns of a line: a comma, a semicolon or a tab."""
    return max(",;\t", key=header.count)


def _columns(header: str) -> list[str]:
    cells = next(csv.reader([header], delimiter=delimiter_of(header)), [])
    return [{"prcp": "precip"}.get(name, name) for name in (cell.strip().casefold() for cell in cells)]


def _is_unit_row(columns: Sequence[str], line: str, delimiter: str) -> bool:
    """A row under the header that is no day and names at least one known unit."""
    cells = next(csv.reader([line], delimiter=delimiter), [])
    if calendar_day(cells[columns.index("date")] if columns.index("date") < len(cells) else ""):
        return False
    named = dict(zip(columns, cells, strict=False))
    return any(unit_of(named.get(element, ""), element) for element in Element)


def _conversions(
    units: Sequence[str], at: dict[Element, int], date_at: int
) -> dict[Element, Callable[[float], float]]:
    """What the unit row says of each column; refused when it is missing or names an unknown unit."""
    date_cell = units[date_at] if date_at < len(units) else ""
    if calendar_day(date_cell) or not any(cell.strip() for cell in units):
        raise RefusedFileError(Fault.NO_UNIT_ROW, 2)
    convert = {}
    for element, index in at.items():
        text = units[index] if index < len(units) else ""
        conversion = unit_of(text, element)
        if conversion is None:
            raise RefusedFileError(Fault.UNKNOWN_UNIT, 2, column=element.value, unit=text.strip()[:30])
        convert[element] = conversion
    return convert
