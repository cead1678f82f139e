"""What logs add up to: water, harvest, gifts, time and days, grouped by whatever is asked.

Nothing is filled in. What was done without saying how much is counted beside the sums (`unmeasured`,
`unweighed`), so that a page can say what its figures leave out. A picking is told in grams or in pieces,
never in both, so the two are never added.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Hashable, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date
from math import fsum
from typing import TypeVar

from plots.spelling import folded
from schedules.months import month_start, month_starts
from schedules.work import NO_VISIT, Work

Key = TypeVar("Key", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Logged:
    """One piece of work. Plots, crops and people are named by any key; an amount not known is `None`."""

    day: date
    work: str
    plot: int | None = None
    crop: int | None = None
    person: int | None = None
    litres: float | None = None
    grams: float | None = None
    pieces: int | None = None
    minutes: int | None = None
    given_away: bool = False
    given_to: str = ""

    @property
    def month(self) -> date:
        """The first day of its month."""
        return month_start(self.day)


@dataclass(frozen=True, slots=True)
class Totals:
    """What some logs add up to.

    `minutes` were spent at the plots, `garden_minutes` are hours for the garden. `days_worked` are days on
    which anybody did anything; a note or hours for the garden alone make no such day.
    """

    logs: int
    waterings: int
    unmeasured: int
    litres: float
    pickings: int
    unweighed: int
    grams: float
    pieces: int
    given_grams: float
    given_pieces: int
    minutes: int
    garden_minutes: int
    days_worked: int
    last_worked: date | None
    first_picked: date | None
    last_picked: date | None


def totals(logs: Iterable[Logged]) -> Totals:
    """The sums of all of the logs.

    >>> sown = Logged(date(2026, 5, 2), "sow", minutes=20)
    >>> found = totals([sown, Logged(date(2026, 7, 9), "harvest", grams=250.0), sown])
    >>> found.grams, found.minutes, found.days_worked, found.first_picked
    (250.0, 40, 2, datetime.date(2026, 7, 9))
    """
    logs = list(logs)
    waterings = [one for one in logs if one.work == Work.WATER]
    pickings = [one for one in logs if one.work == Work.PICK]
    given = [one for one in pickings if one.given_away]
    visits = {one.day for one in logs if one.work not in NO_VISIT}
    picked = [one.day for one in pickings]
    return Totals(
        logs=len(logs),
        waterings=len(waterings),
        unmeasured=sum(one.litres is None for one in waterings),
        litres=fsum(one.litres or 0.0 for one in waterings),
        pickings=len(pickings),
        unweighed=sum(one.grams is None and one.pieces is None for one in pickings),
        grams=_grams(pickings),
        pieces=_pieces(pickings),
        given_grams=_grams(given),
        given_pieces=_pieces(given),
        minutes=sum(one.minutes or 0 for one in logs if one.work != Work.HOURS),
        garden_minutes=sum(one.minutes or 0 for one in logs if one.work == Work.HOURS),
        days_worked=len(visits),
        last_worked=max(visits, default=None),
        first_picked=min(picked, default=None),
        last_picked=max(picked, default=None),
    )


def _grams(pickings: Iterable[Logged]) -> float:
    return fsum(one.grams or 0.0 for one in pickings)


def _pieces(pickings: Iterable[Logged]) -> int:
    return sum(one.pieces or 0 for one in pickings)


def grouped(logs: Iterable[Logged], key: Callable[[Logged], Key]) -> dict[Key, Totals]:
    """The sums for each plot, crop, person or month: whatever `key` says of a log, `None` too."""
    groups: dict[Key, list[Logged]] = {}
    for one in logs:
        groups.setdefault(key(one), []).append(one)
    return {name: totals(group) for name, group in groups.items()}


@dataclass(frozen=True, slots=True)
class Gift:
    """What was given to somebody; to whom is empty where nobody said."""

    whom: str
    times: int
    grams: float
    pieces: int


def gifts(logs: Iterable[Logged]) -> list[Gift]:
    """What was given away, by to whom: the heaviest first, what names nobody last.

    Case, accents and spaces make no other receiver; the name is written as it was first.
    """
    groups: dict[str, list[Logged]] = {}
    for one in logs:
        if one.work == Work.PICK and one.given_away:
            groups.setdefault(folded(one.given_to), []).append(one)
    found = [Gift(group[0].given_to, len(group), _grams(group), _pieces(group)) for group in groups.values()]
    return sorted(found, key=lambda gift: (not gift.whom, -gift.grams, -gift.pieces, gift.whom))


@dataclass(frozen=True, slots=True)
class Share:
    """So many of so many."""

    part: int
    whole: int


def share_that_logged(logs: Iterable[Logged], plots: Collection[int]) -> Share:
    """How many of `plots` have at least one log: how far the sums speak for all of them."""
    return Share(len({one.plot for one in logs} & set(plots)), len(set(plots)))


def days_by_work(logs: Iterable[Logged]) -> dict[str, list[date]]:
    """The days of each kind of work that was done, each day once, in the order of `Work`."""
    logs = list(logs)
    found = {str(work): sorted({one.day for one in logs if one.work == work}) for work in Work}
    return {work: days for work, days in found.items() if days}


@dataclass(frozen=True, slots=True)
class Month:
    """One month: on how many days each work was done, and its sums."""

    first: date
    totals: Totals
    days: dict[str, int] = field(default_factory=dict)


def months(logs: Sequence[Logged], first: date, last: date) -> list[Month]:
    """Every month from that of `first` to that of `last`, those without a log too."""
    groups: dict[date, list[Logged]] = {start: [] for start in month_starts(first, last)}
    for one in logs:
        if first <= one.day <= last:
            groups[one.month].append(one)
    return [
        Month(start, totals(group), {work: len(days) for work, days in days_by_work(group).items()})
        for start, group in groups.items()
    ]
