"""Reads a station file from first byte to last, in one pass and with little memory."""

from __future__ import annotations

import codecs
import csv
import gzip
import io
import zlib
from collections.abc import Callable, Iterator
from datetime import date
from itertools import chain
from typing import BinaryIO, Protocol

from schedules.days import DayWeather
from schedules.stations.checks import filler_runs, refuse_unless_credible
from schedules.stations.findings import Fault, Findings, RefusedFileError, StationFile
from schedules.stations.layouts import Place, Reading, layout_of
from schedules.stations.values import Element, is_possible

MOST_BYTES = 64 * 1024 * 1024
"""A hundred years with every element are about 15 MB; more than this is not one station's record."""

_LINES_BETWEEN_REPORTS = 2000
_BINARY_STARTS = (b"PK\x03\x04", b"%PDF", b"\xd0\xcf\x11\xe0", b"\x89PNG", b"\xff\xd8\xff", b"SQLite")
_SLOT = {Element.TMIN: 0, Element.TMAX: 1, Element.PRECIP: 2}


class OnProgress(Protocol):
    """Told now and then how many lines have been read."""

    def __call__(self, lines: int) -> None: ...


def read_station(
    stream: BinaryIO, *, today: date, latitude: float | None = None, on_progress: OnProgress | None = None
) -> StationFile:
    """Read a station's daily record in any known layout, plain or gzipped.

    `today` guards against days that have not been; `latitude` in degrees is used where the file has none.
    Raises `RefusedFileError` when the file cannot be read, or when its values cannot be what it declares.
    """
    findings = Findings()
    place = Place(latitude=latitude)
    lines = _counted(text_lines(stream), on_progress)
    try:
        first, second = next(lines, ""), next(lines, "")
        if not first:
            raise RefusedFileError(Fault.EMPTY)
        if first.lstrip().startswith("<"):
            raise RefusedFileError(Fault.WEB_PAGE, 1)
        layout, reader = layout_of(first, second)
        table = _Table(findings, today)
        for reading in reader(chain((first, second), lines), findings, place):
            table.add(reading)
    except csv.Error as error:
        raise RefusedFileError(Fault.BROKEN_LINE) from error
    except (EOFError, gzip.BadGzipFile, zlib.error) as error:
        raise RefusedFileError(Fault.BROKEN_ARCHIVE) from error
    days, numbers = table.days()
    south = None if place.latitude is None else place.latitude < 0
    refuse_unless_credible(days, numbers, findings, south=south)
    return StationFile(
        layout=layout,
        days=days,
        findings=findings,
        runs=filler_runs(days),
        station_id=place.station_id,
        name=place.name,
        latitude=place.latitude,
        longitude=place.longitude,
        elevation_m=place.elevation_m,
        flags_known=place.flags_known,
    )


class _Table:
    """Readings gathered by day; the first reading of a day and element stands."""

    def __init__(self, findings: Findings, today: date) -> None:
        self._findings = findings
        self._today = today
        self._values: dict[date, list[float | None]] = {}
        self._lines: dict[date, list[int]] = {}

    def add(self, reading: Reading) -> None:
        if reading.day > self._today:
            self._findings.note(Fault.FUTURE_DAY, reading.line, day=reading.day)
            return
        value = reading.value
        if value is not None and not is_possible(reading.element, value):
            self._findings.note(
                Fault.IMPOSSIBLE_VALUE, reading.line, column=reading.element.value, text=reading.text.strip()
            )
            value = None
        slot = _SLOT[reading.element]
        values = self._values.setdefault(reading.day, [None, None, None])
        lines = self._lines.setdefault(reading.day, [0, 0, 0])
        if not lines[slot]:
            values[slot], lines[slot] = value, reading.line
        elif values[slot] != value:
            self._findings.note(Fault.DUPLICATE_DAY, reading.line, day=reading.day, first_line=lines[slot])

    def days(self) -> tuple[tuple[DayWeather, ...], list[int]]:
        """The days in order, and the line on which each first stands; doubtful days are noted on the way."""
        days, numbers = [], []
        for day in sorted(self._values):
            tmin, tmax, precip = self._values[day]
            line = next(filter(None, self._lines[day]))
            if tmin is not None and tmax is not None and tmin > tmax:
                self._findings.note(Fault.MIN_ABOVE_MAX, line, day=day, tmin_c=tmin, tmax_c=tmax)
            days.append(DayWeather(day, tmin, tmax, precip))
            numbers.append(line)
        return tuple(days), numbers


def _counted(lines: Iterator[str], on_progress: OnProgress | None) -> Iterator[str]:
    for count, line in enumerate(lines, start=1):
        if on_progress is not None and count % _LINES_BETWEEN_REPORTS == 0:
            on_progress(count)
        yield line


def text_lines(stream: BinaryIO) -> Iterator[str]:
    """The lines of a text file whatever its line ends; a byte order mark is dropped, an archive opened."""
    buffered = io.BufferedReader(_Capped(stream), buffer_size=65536)
    if buffered.peek(2)[:2] == b"\x1f\x8b":
        unpacked = gzip.GzipFile(fileobj=buffered)
        buffered = io.BufferedReader(_Capped(unpacked), buffer_size=65536)
    start = buffered.peek(65536)
    if start.startswith(_BINARY_STARTS) or (b"\x00" in start and start[:2] not in (b"\xff\xfe", b"\xfe\xff")):
        raise RefusedFileError(Fault.NOT_TEXT)
    yield from io.TextIOWrapper(buffered, encoding=_encoding(start), errors="replace")


def _encoding(start: bytes) -> str:
    if start[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return "utf-16"
    try:
        codecs.getincrementaldecoder("utf-8")().decode(start)  # the last character may be cut in two
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8-sig"


class _Capped(io.RawIOBase):
    """A stream that refuses to go on past `MOST_BYTES`, so that no archive can unfold without end."""

    def __init__(self, stream: BinaryIO | gzip.GzipFile) -> None:
        self._read: Callable[[int], bytes] = stream.read
        self._left = MOST_BYTES

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: memoryview) -> int:  # type: ignore[override]
        chunk = self._read(len(buffer))
        self._left -= len(chunk)
        if self._left < 0:
            raise RefusedFileError(Fault.TOO_LARGE, megabytes=MOST_BYTES // 1024 // 1024)
        buffer[: len(chunk)] = chunk
        return len(chunk)
