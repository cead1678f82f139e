"""What a season strip and a frost chart show, in plain values: dates, chances, words already translated."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from schedules.months import month_end, month_start

MOST_MONTHS = 18


@dataclass(frozen=True, slots=True)
class StripMark:
    """One window on the strip; `operation` is the value of `schedules.windows.Operation`."""

    operation: str
    earliest: date
    best: date
    latest: date
    done: bool = False  # and not only planned


@dataclass(frozen=True, slots=True)
class StripRow:
    """One line of the strip: a planting, or a way to start a crop."""

    label: str
    marks: tuple[StripMark, ...]


@dataclass(frozen=True, slots=True)
class FrostPoint:
    """The share (0 to 1) of years with a freeze still to come on `day` (spring) or already come (autumn)."""

    day: date
    chance: float


@dataclass(frozen=True, slots=True)
class FrostMiddle:
    """The day by which half of the years have had their last freeze (`falling`), or their first."""

    day: date
    falling: bool


@dataclass(frozen=True, slots=True)
class SeasonStrip:
    """A ruled strip of whole months, from the month of `first` to that of `last`, both included."""

    rows: tuple[StripRow, ...]
    first: date
    last: date
    frost: tuple[FrostPoint, ...] = ()
    today: date | None = None
    middles: tuple[FrostMiddle, ...] = ()


@dataclass(frozen=True, slots=True)
class FrostCurve:
    """One threshold's risk on one side of the season, and the years behind it.

    `name` is the threshold as the garden reads it ("32 °F"). `points` fall for the last freeze and rise for
    the first. `years` holds each freeze year's own date, moved into the year that the chart is drawn for, and
    `seasons` how many seasons were used, those without a freeze included.
    """

    name: str
    points: tuple[FrostPoint, ...]
    years: tuple[date, ...] = ()
    seasons: int = 0


@dataclass(frozen=True, slots=True)
class FrostChart:
    """The curves of one side of the season; `heading` says what the percents count.

    `marker` is the date the reader asks about, `marker_text` what is written beside it. Curves that rise and
    fall again are told apart at their end: with `named_late` their names stand there.
    """

    heading: str
    curves: tuple[FrostCurve, ...]
    falling: bool
    marker: date | None = None
    marker_text: str = ""
    named_late: bool = False


def strip_span(rows: Iterable[StripRow], year: int) -> tuple[date, date]:
    """Whole months that hold the rows' windows: 12 at least, 18 at most, from the earliest window's month on.

    Without a window they are those of `year`. What lies outside the 18 months is drawn cut off.
    """
    marks = [mark for row in rows for mark in row.marks]
    if not marks:
        return date(year, 1, 1), date(year, 12, 31)
    first = month_start(min(mark.earliest for mark in marks))
    last = max(month_start(first, 11), month_start(max(mark.latest for mark in marks)))
    return first, month_end(min(last, month_start(first, MOST_MONTHS - 1)))


def dot_heights(curve: FrostCurve, *, falling: bool) -> list[FrostPoint]:
    """Where each freeze year's dot stands: its rank i among n at i/(n+1), times the freeze years' share."""
    ordered: Sequence[date] = sorted(curve.years, reverse=falling)
    count = len(ordered)
    share = count / curve.seasons if curve.seasons else 1.0
    return [FrostPoint(day, rank / (count + 1) * share) for rank, day in enumerate(ordered, start=1)]
