"""Reads what a temperature logger saved: a line for each reading, made into each day's minimum and maximum.

Nothing is guessed. The unit stands in the column's heading or the file is refused; of dates in numbers alone
the order is asked for; a day with a gap longer than three hours has no minimum, for the coldest hour may lie
in it.
"""

from __future__ import annotations

import csv
import gzip
import re
import zlib
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from enum import StrEnum
from itertools import pairwise
from typing import BinaryIO

from schedules.days import DayWeather
from schedules.stations.findings import Fault, Findings, RefusedFileError
from schedules.stations.layouts import delimiter_of
from schedules.stations.reader import text_lines
from schedules.stations.values import Element, NotANumberError, is_possible, number, unit_of

LONGEST_GAP = timedelta(hours=3)
_HEADING_WITHIN = 30  # loggers write some lines about themselves first
_TIME_WORDS = ("time", "date", "timestamp")
_WARMTH_WORDS = ("temp", "temperature", "celsius", "fahrenheit", "°c", "°f")
_UNIT = re.compile(
    r"(?:^|[\s(\[,/_])(°\s*[CFK]|deg\s*[CFK]|celsius|fahrenheit|kelvin|[CFK])(?=$|[\s)\],])", re.IGNORECASE
)
_STAMP = re.compile(
    r"(?P<one>\d{1,4})[-/.](?P<two>\d\d?)[-/.](?P<three>\d{1,4})"
    r"[T, ]+(?P<hour>\d\d?):(?P<minute>\d\d)(?::\d\d(?:[.,]\d+)?)?"
    r"\s*(?P<half>[AaPp]\.?[Mm]\.?)?(?P<zone>Z|[+-]\d\d:?\d\d)?"
)
_DAY_END = timedelta(days=1)
_MONTHS = 12
_SHORTEST_MONTH = timedelta(days=28)


class DateOrder(StrEnum):
    """How dates in numbers alone are written; a year of four digits in front needs no telling."""

    MONTH_FIRST = "month-first"
    DAY_FIRST = "day-first"


@dataclass(frozen=True, slots=True)
class LoggerFile:
    """A logger's days, how many are left out for gaps, and the lines that could not be read.

    `unlikely` days are left out, too: their lowest lies above their highest, or one of them beyond all sense.
    """

    days: tuple[DayWeather, ...]
    incomplete: int
    findings: Findings
    unlikely: int = 0


def read_logger(stream: BinaryIO, *, today: date, zone: tzinfo, order: DateOrder | None = None) -> LoggerFile:
    """Read a logger's CSV, plain or gzipped; temperatures come out in °C, days are those of `zone`.

    Times are taken as the garden's own clock shows them, unless they say how far they are from UTC.

    Raises `RefusedFileError` when there is no column of times or temperatures, when the unit is not named,
    when numbers leave open which is the day and which the month and `order` does not say, or when `order`
    cannot be right.
    """
    findings = Findings()
    readings: dict[date, list[tuple[datetime, float]]] = defaultdict(list)
    try:
        lines = text_lines(stream)
        heading = _heading(lines)
        for moment, celsius in _readings(lines, heading, findings, order, zone):
            if moment.date() > today:
                findings.note(Fault.FUTURE_DAY, None, day=moment.date())
            else:
                readings[moment.date()].append((moment, celsius))
    except csv.Error as error:
        raise RefusedFileError(Fault.BROKEN_LINE) from error
    except (EOFError, gzip.BadGzipFile, zlib.error) as error:
        raise RefusedFileError(Fault.BROKEN_ARCHIVE) from error
    if not readings:
        because = findings.unused[0] if findings.unused else None
        raise RefusedFileError(Fault.NO_MINIMUMS, because.line if because else None, because=because)
    if order is not None and _lie_months_apart(sorted(readings)):
        raise RefusedFileError(Fault.DATE_ORDER_WRONG)
    days = [day for day in sorted(readings) if _is_whole(day, readings[day], zone)]
    return LoggerFile(
        tuple(_extremes(day, readings[day]) for day in days), len(readings) - len(days), findings
    )


@dataclass(frozen=True, slots=True)
class _Heading:
    line: int
    delimiter: str
    date_at: int
    time_at: int | None
    warmth_at: int
    to_celsius: Callable[[float], float]


def _heading(lines: Iterator[str]) -> _Heading:
    """The line that names the columns."""
    first = ""
    for line, text in zip(range(1, _HEADING_WITHIN + 1), lines, strict=False):
        first = first or text.strip()
        if text.lstrip().startswith("<"):
            raise RefusedFileError(Fault.WEB_PAGE, line)
        delimiter = delimiter_of(text)
        cells = [cell.strip() for cell in next(csv.reader([text], delimiter=delimiter), [])]
        times = [at for at, cell in enumerate(cells) if _names(cell, _TIME_WORDS)]
        warmths = [at for at, cell in enumerate(cells) if at not in times and _names(cell, _WARMTH_WORDS)]
        if times and warmths:
            return _Heading(
                line,
                delimiter,
                times[0],
                times[1] if len(times) > 1 else None,
                warmths[0],
                _unit(cells[warmths[0]], line),
            )
    if not first:
        raise RefusedFileError(Fault.EMPTY)
    raise RefusedFileError(Fault.UNKNOWN_LOGGER, 1, text=first[:60])


def _names(cell: str, words: tuple[str, ...]) -> bool:
    plain = cell.casefold()
    return any(word in plain for word in words)


def _unit(cell: str, line: int) -> Callable[[float], float]:
    match = _UNIT.search(cell)
    conversion = unit_of(match[1], Element.TMIN) if match else None
    if conversion is None:
        raise RefusedFileError(Fault.NO_LOGGER_UNIT, line, column=cell[:40])
    return conversion


def _readings(
    lines: Iterator[str], heading: _Heading, findings: Findings, order: DateOrder | None, zone: tzinfo
) -> Iterator[tuple[datetime, float]]:
    rows = csv.reader(lines, delimiter=heading.delimiter)
    needed = max(heading.date_at, heading.time_at or 0, heading.warmth_at)
    for row in rows:
        line = heading.line + rows.line_num
        if not any(cell.strip() for cell in row):
            continue
        if len(row) <= needed:
            findings.note(Fault.SHORT_LINE, line, columns=len(row), expected=needed + 1)
            continue
        written = row[heading.date_at].strip()
        if heading.time_at is not None:
            written = f"{written} {row[heading.time_at].strip()}"
        moment = _moment(written, order, zone, line)
        if moment is None:
            findings.note(Fault.BAD_DATE, line, text=written[:30])
            continue
        text = row[heading.warmth_at]
        try:
            found = number(text, decimal_comma=heading.delimiter != ",")
        except NotANumberError:
            findings.note(Fault.BAD_NUMBER, line, column="temperature", text=text.strip()[:30])
            continue
        if found is None:
            continue
        celsius = heading.to_celsius(found)
        if is_possible(Element.TMIN, celsius):
            yield moment, celsius
        else:
            findings.note(Fault.IMPOSSIBLE_VALUE, line, column="temperature", text=text.strip())


def _moment(text: str, order: DateOrder | None, zone: tzinfo, line: int) -> datetime | None:
    """The time a cell writes, by the clock of the garden; `None` where it cannot be read."""
    match = _STAMP.fullmatch(text)
    if match is None:
        return None
    one, two, three = (int(match[name]) for name in ("one", "two", "three"))
    if len(match["one"]) == 4:
        year, month, day = one, two, three
    elif order is None:
        raise RefusedFileError(Fault.DATE_ORDER_OPEN, line, text=text[:30])
    else:
        month, day = (one, two) if order is DateOrder.MONTH_FIRST else (two, one)
        if month > _MONTHS >= day:
            raise RefusedFileError(Fault.DATE_ORDER_WRONG, line, text=text[:30])
        year = three if len(match["three"]) == 4 else 2000 + three
    hour = int(match["hour"])
    if match["half"]:
        hour = hour % 12 + (12 if match["half"][0] in "Pp" else 0)
    try:
        moment = datetime(year, month, day, hour, int(match["minute"]), tzinfo=zone)
        if match["zone"]:
            moment = datetime.fromisoformat(f"{moment:%Y-%m-%dT%H:%M}{match['zone']}").astimezone(zone)
    except ValueError:
        return None
    return moment


def _lie_months_apart(days: Sequence[date]) -> bool:
    """Whether days follow each other as the first twelve of a month do when they are read as its months."""
    return len(days) > 1 and all(later - earlier >= _SHORTEST_MONTH for earlier, later in pairwise(days))


def _is_whole(day: date, readings: Sequence[tuple[datetime, float]], zone: tzinfo) -> bool:
    """Whether no stretch of the day longer than `LONGEST_GAP` went without a reading."""
    midnight = datetime.combine(day, time.min, zone)
    moments = sorted([midnight, *(moment for moment, _celsius in readings), midnight + _DAY_END])
    return all(later - earlier <= LONGEST_GAP for earlier, later in pairwise(moments))


def _extremes(day: date, readings: list[tuple[datetime, float]]) -> DayWeather:
    values = [celsius for _moment, celsius in readings]
    return DayWeather(day, min(values), max(values), None)
