"""The rows of a planting calendar, and the ways to grow a crop that it is chosen from.

Page, PDF and feed are all made from the same entries, so that a date cannot differ between them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Generic, TypeVar

from schedules.intervals import Treated
from schedules.seasons import Hemisphere
from schedules.windows import Done, Operation, Reason, Start, Turn, Window

CropT = TypeVar("CropT")
_NEXT_YEAR_FROM = 11
BEGINNINGS = (Operation.SOW, Operation.TRANSPLANT)
SHOWN_IN_TABLES = (Operation.START_INDOORS, Operation.SOW, Operation.TRANSPLANT, Operation.HARVEST)
_BEGINNING = {Start.SOW: Operation.SOW, Start.TRANSPLANT: Operation.TRANSPLANT}


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One dated window of one planting; planting and plot by primary key.

    What logs say of it is told by `schedules.windows.Window`.
    """

    planting: int
    plot: int
    plot_label: str
    name: str
    operation: Operation
    succession: int
    successions: int
    earliest: date
    best: date
    latest: date
    reasons: tuple[Reason, ...]
    changed_at: datetime
    done: Done | None = None
    last_picked: Done | None = None
    moved_days: int = 0
    not_before: Treated | None = None  # a harvest that a product's label holds back

    @property
    def done_on(self) -> date | None:
        """The day it was done; `None` where it is to do, or a harvest goes on."""
        return None if self.done is None else self.done.day

    def told_in(self, monday: date) -> Done | None:
        """What a log tells was done of it in the week of `monday`."""
        latest = self.done or self.last_picked
        within = latest is not None and monday <= latest.day < monday + timedelta(days=7)
        return latest if within else None


@dataclass(frozen=True, slots=True)
class Way:
    """One way to grow a crop: its turn, how it is started, and the windows that belong to both."""

    turn: Turn
    start: Start
    windows: tuple[Window, ...]

    @property
    def key(self) -> str:
        """The way in a form or an address, as in "spring-sow"."""
        return f"{self.turn.value}-{self.start.value}"

    @property
    def beginning(self) -> Window | None:
        """The dated window of the first sowing or transplanting."""
        return self._first(_BEGINNING[self.start])

    @property
    def harvest(self) -> Window | None:
        """The dated window of the first harvest."""
        return self._first(Operation.HARVEST)

    @property
    def successions(self) -> int:
        """How many times it can be begun while the season lasts."""
        return max((window.succession for window in self.windows if is_dated(window)), default=1)

    @property
    def refusal(self) -> tuple[Reason, ...]:
        """Why it has no dates here; empty where it has."""
        if self.beginning is not None:
            return ()
        undated = [window for window in self.windows if not is_dated(window)]
        beginnings = [window for window in undated if window.operation is _BEGINNING[self.start]]
        return (beginnings or undated)[0].reasons if undated else ()

    def _first(self, operation: Operation) -> Window | None:
        dated = [window for window in self.windows if window.operation is operation and is_dated(window)]
        return min(dated, key=lambda window: window.succession, default=None)


def is_dated(window: Window) -> bool:
    """Whether the window has its three dates."""
    return None not in (window.earliest, window.best, window.latest)


def ways(windows: Iterable[Window]) -> tuple[Way, ...]:
    """The ways among `windows`: spring before autumn, sown before transplanted."""
    known = tuple(windows)
    return tuple(
        Way(turn, start, own)
        for turn in Turn
        for start in Start
        if (own := tuple(window for window in known if window.turn is turn and window.start is start))
    )


def windows_of_way(
    windows: Iterable[Window], turn: Turn, start: Start, *, successions: int
) -> tuple[Window, ...]:
    """The windows of a planting begun in one way, so many times."""
    return tuple(
        window
        for window in windows
        if window.turn is turn and window.start is start and window.succession <= successions
    )


def entries_of(
    windows: Iterable[Window],
    *,
    planting: int,
    plot: int,
    plot_label: str,
    name: str,
    successions: int,
    changed_at: datetime,
) -> tuple[Entry, ...]:
    """One entry for each dated window of a planting, in the order of their dates."""
    rows = [
        Entry(
            planting=planting,
            plot=plot,
            plot_label=plot_label,
            name=name,
            operation=window.operation,
            succession=window.succession,
            successions=successions,
            earliest=window.earliest,
            best=window.best,
            latest=window.latest,
            reasons=window.reasons,
            changed_at=changed_at,
            done=window.done,
            last_picked=window.last_picked,
            moved_days=window.moved_days,
        )
        for window in windows
        if window.earliest is not None and window.best is not None and window.latest is not None
    ]
    return tuple(sorted(rows, key=by_date))


def held_back(
    entries: Iterable[Entry], treated: Collection[Treated], crops: Mapping[int, int]
) -> list[Entry]:
    """The rows, with what a label forbids beside each harvest that it touches; `crops` by planting."""
    return [
        replace(row, not_before=_holding(row, treated, crops.get(row.planting)))
        if treated and row.operation is Operation.HARVEST and row.done is None
        else row
        for row in entries
    ]


def _holding(row: Entry, treated: Iterable[Treated], crop: int | None) -> Treated | None:
    found = [
        one
        for one in treated
        if one.day <= row.latest
        and one.until > row.earliest
        and one.reaches(plot=row.plot, planting=row.planting, crop=crop)
    ]
    return max(found, key=lambda one: one.until, default=None)


@dataclass(frozen=True, slots=True)
class Span:
    """From the earliest to the latest day of one operation in one turn, sown and transplanted taken together.

    `start` is the one that is first ready.
    """

    operation: Operation
    start: Start
    earliest: date
    latest: date


def spans_of_turn(windows: Iterable[Window], turn: Turn) -> tuple[Span | None, ...]:
    """The first sowing's dates in one turn, one for each of `SHOWN_IN_TABLES`; `None` stands for none."""
    own = [window for window in windows if window.turn is turn and window.succession == 1]
    return tuple(_span(own, operation) for operation in SHOWN_IN_TABLES)


def _span(windows: list[Window], operation: Operation) -> Span | None:
    dates = [
        (window.earliest, window.start, window.latest)
        for window in windows
        if window.operation is operation and window.earliest is not None and window.latest is not None
    ]
    if not dates:
        return None
    earliest, start, _ = min(dates)
    return Span(operation, start, earliest, max(latest for _, _, latest in dates))


@dataclass(frozen=True, slots=True)
class Month(Generic[CropT]):
    """What can be done in a month: for each operation the crops with their windows."""

    first: date
    operations: tuple[tuple[Operation, tuple[tuple[CropT, Window], ...]], ...]


def by_month(crops: Iterable[tuple[CropT, Iterable[Window]]], year: int) -> tuple[Month[CropT], ...]:
    """The twelve months of `year`, each with the first sowings, plantings and harvests that touch it."""
    known = [(crop, window) for crop, windows in crops for window in windows if window.succession == 1]
    return tuple(_month(date(year, month, 1), known) for month in range(1, 13))


def _month(first: date, known: list[tuple[CropT, Window]]) -> Month[CropT]:
    after = (first + timedelta(days=31)).replace(day=1)
    open_then = [
        (crop, window)
        for crop, window in known
        if window.earliest is not None
        and window.latest is not None
        and window.earliest < after
        and window.latest >= first
    ]
    operations = (
        (operation, tuple(row for row in open_then if row[1].operation is operation))
        for operation in SHOWN_IN_TABLES
    )
    return Month(first, tuple(one for one in operations if one[1]))


def planning_year(today: date, hemisphere: Hemisphere, planted: Collection[int] = ()) -> int:
    """The year that a page about planting opens with.

    In the north it is the next one from November on, when little of this year is left to begin; but a plan
    already made is shown before one that is still empty.
    """
    year = today.year + (hemisphere is Hemisphere.NORTH and today.month >= _NEXT_YEAR_FROM)
    return today.year if today.year in planted and year not in planted else year


def by_date(entry: Entry) -> tuple[date, date, int, str, int]:
    """The order of a calendar: by opening, then by closing, then as operations follow each other."""
    return entry.earliest, entry.latest, list(Operation).index(entry.operation), entry.name, entry.succession
