"""What reading a station file found: its days, the lines that could not be used, and why a file is refused.

Findings are data; `schedules.wording.stations` turns them into sentences.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from schedules.days import DayWeather

KEPT_LINES = 50
"""Lines listed one by one; the rest are counted."""


class StationFormat(StrEnum):
    """The layouts that can be read."""

    GHCN_CSV = "ghcn-csv"
    GHCN_LONG = "ghcn-long"
    GHCN_DLY = "ghcn-dly"
    PLAIN = "plain"


class Fault(StrEnum):
    """What is wrong with a line or with a whole file."""

    # a line, or a value in it, that is not used
    BAD_DATE = "bad-date"
    FUTURE_DAY = "future-day"
    BAD_NUMBER = "bad-number"
    IMPOSSIBLE_VALUE = "impossible-value"
    DUPLICATE_DAY = "duplicate-day"
    SHORT_LINE = "short-line"
    # a day that is used as it stands, but looks wrong
    MIN_ABOVE_MAX = "min-above-max"
    # a file that is refused
    NOT_TEXT = "not-text"
    WEB_PAGE = "web-page"
    EMPTY = "empty"
    BROKEN_ARCHIVE = "broken-archive"
    BROKEN_LINE = "broken-line"
    TOO_LARGE = "too-large"
    UNKNOWN_LAYOUT = "unknown-layout"
    NO_UNIT_ROW = "no-unit-row"
    UNKNOWN_UNIT = "unknown-unit"
    NO_MINIMUM_COLUMN = "no-minimum-column"
    SEVERAL_STATIONS = "several-stations"
    NOT_WHOLE_TENTHS = "not-whole-tenths"
    NEVER_WARM = "never-warm"
    IMPOSSIBLE_VALUES = "impossible-values"
    COLUMNS_SWAPPED = "columns-swapped"
    MOSTLY_UNREADABLE = "mostly-unreadable"
    NO_MINIMUMS = "no-minimums"
    # a logger's file that is refused
    UNKNOWN_LOGGER = "unknown-logger"
    NO_LOGGER_UNIT = "no-logger-unit"
    DATE_ORDER_OPEN = "date-order-open"
    DATE_ORDER_WRONG = "date-order-wrong"


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault, the line it stands on (1 is the first of the file) and the values that show it."""

    fault: Fault
    line: int | None = None
    values: Mapping[str, object] = field(default_factory=dict)


class RefusedFileError(Exception):
    """A file that cannot be trusted as it is; nothing of it is used."""

    def __init__(self, fault: Fault, line: int | None = None, **values: object) -> None:
        super().__init__(fault.value)
        self.finding = Finding(fault, line, values)


@dataclass(frozen=True, slots=True)
class Run:
    """Days on end with one and the same minimum: most likely filled in, not measured. Their values are
    kept."""

    first_day: date
    last_day: date
    tmin_c: float
    days: int


@dataclass(slots=True)
class Findings:
    """Collects faults while a file is read: the first ones, and the first of each kind, in full."""

    unused: list[Finding] = field(default_factory=list)
    doubtful: list[Finding] = field(default_factory=list)
    counts: Counter[Fault] = field(default_factory=Counter)
    flagged: int = 0
    _last_line: tuple[Fault, int | None] | None = None

    def note(self, fault: Fault, line: int | None, **values: object) -> None:
        """Record a fault; a second one of its kind on the same line adds nothing."""
        if self._last_line == (fault, line):
            return
        self._last_line = (fault, line)
        kept = self.doubtful if fault is Fault.MIN_ABOVE_MAX else self.unused
        self.counts[fault] += 1
        if len(kept) < KEPT_LINES or self.counts[fault] == 1:
            kept.append(Finding(fault, line, values))

    @property
    def unused_count(self) -> int:
        """How many lines could not be used, wholly or in part."""
        return self.counts.total() - self.doubtful_count

    @property
    def doubtful_count(self) -> int:
        """How many days were used although they look wrong."""
        return self.counts[Fault.MIN_ABOVE_MAX]


@dataclass(frozen=True, slots=True, kw_only=True)
class StationFile:
    """A station's daily record as it was read: days in order, each once.

    Latitude and longitude are in degrees (north and east positive), elevation in metres; `None` where the
    file does not tell. `flags_known` is false when the layout has room for quality flags but the file
    leaves them out.
    """

    layout: StationFormat
    days: tuple[DayWeather, ...]
    findings: Findings
    runs: tuple[Run, ...] = ()
    station_id: str = ""
    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    elevation_m: float | None = None
    flags_known: bool = True
