"""What a change does to a garden's dates: the rows of its calendar before and after, beside each other."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import sha256

from plots.spelling import natural_key
from schedules.entries import Entry
from schedules.windows import Operation

Dates = tuple[date, date, date]
"""Earliest, best and latest day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """One row of the calendar that a change moves; `None` where it has no dates before or after."""

    planting: int
    plot: int
    plot_label: str
    name: str
    operation: Operation
    succession: int
    before: Dates | None
    after: Dates | None

    @property
    def year(self) -> int:
        """The year that its best day falls, or fell, in."""
        dates = self.after or self.before
        return 0 if dates is None else dates[1].year

    @property
    def days(self) -> int:
        """By how many days the edge moves that moves farthest, above 0 to a later day; 0 where none can."""
        return max(self._moves, key=abs)

    @property
    def is_of_best(self) -> bool:
        """Whether the best day alone moves so far, which lists of first and last days do not show."""
        return self.days not in (self._moves[0], self._moves[2])

    @property
    def _moves(self) -> tuple[int, int, int]:
        if self.before is None or self.after is None:
            return 0, 0, 0
        first, best, last = ((new - old).days for old, new in zip(self.before, self.after, strict=True))
        return first, best, last


@dataclass(frozen=True, slots=True)
class Summary:
    """How many rows move and by how much at most, in days; how many lose their dates, how many get some."""

    moved: int
    largest: int
    lost: int
    gained: int
    plantings: int

    @property
    def count(self) -> int:
        """All rows that are otherwise than before."""
        return self.moved + self.lost + self.gained


def shifts(before: Iterable[Entry], after: Iterable[Entry], *, today: date) -> tuple[Shift, ...]:
    """The rows that differ, by plot, planting and date; not those that are over or done on `today`."""
    old, new = _by_key(before), _by_key(after)
    found = []
    for key in {**old, **new}:
        row = new.get(key) or old[key]
        was, becomes = _dates(old.get(key)), _dates(new.get(key))
        last = max(dates[2] for dates in (was, becomes) if dates is not None)
        if was != becomes and row.done is None and last >= today:
            found.append(_shift(row, was, becomes))
    return tuple(sorted(found, key=_order))


def summed(moved: Iterable[Shift]) -> Summary:
    """What the rows come to together."""
    rows = list(moved)
    both = [row for row in rows if row.before is not None and row.after is not None]
    return Summary(
        moved=len(both),
        largest=max((abs(row.days) for row in both), default=0),
        lost=sum(row.after is None for row in rows),
        gained=sum(row.before is None for row in rows),
        plantings=len({row.planting for row in rows}),
    )


def fingerprint(moved: Sequence[Shift]) -> str:
    """A short text that is the same for the same shifts alone: what somebody accepts is what they saw."""
    told = [(row.planting, row.operation.value, row.succession, row.before, row.after) for row in moved]
    return sha256(repr(told).encode()).hexdigest()[:16]


_Key = tuple[int, Operation, int]


def _by_key(entries: Iterable[Entry]) -> dict[_Key, Entry]:
    return {(row.planting, row.operation, row.succession): row for row in entries}


def _dates(row: Entry | None) -> Dates | None:
    return None if row is None else (row.earliest, row.best, row.latest)


def _shift(row: Entry, before: Dates | None, after: Dates | None) -> Shift:
    return Shift(
        planting=row.planting,
        plot=row.plot,
        plot_label=row.plot_label,
        name=row.name,
        operation=row.operation,
        succession=row.succession,
        before=before,
        after=after,
    )


def _order(row: Shift) -> tuple[object, ...]:
    first = (row.before or row.after or (date.max,))[0]
    operation = list(Operation).index(row.operation)
    return natural_key(row.plot_label), row.plot, row.name, row.planting, first, operation
