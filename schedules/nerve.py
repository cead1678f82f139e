"""Nerve: whose choice of it counts for a planting, and what a bolder one costs and saves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from functools import cached_property

from crops.facts import CropFacts
from schedules.chance import Chance, Odds, ending_year
from schedules.climate import Basis, Climate, RiskCurve
from schedules.frost import RecordCurve
from schedules.seasons import Hemisphere, day_number
from schedules.windows import (
    AS_PUBLISHED,
    BOLD,
    CAREFUL,
    MIDDLING,
    Nerve,
    Operation,
    Start,
    Turn,
    Window,
    derive,
)

WEEK = 7
NERVES = {"careful": CAREFUL, "middling": MIDDLING, "bold": BOLD}
_BEGINNINGS = (Operation.SOW, Operation.TRANSPLANT)


class Chooser(StrEnum):
    """Whose choice of nerve a date follows."""

    PLANTING = "planting"
    HOLDER = "holder"
    GARDEN = "garden"
    DATES = "dates"  # nobody chose: what the garden's frost dates suggest


@dataclass(frozen=True, slots=True)
class Choice:
    """The nerve that counts, and whose it is."""

    nerve: Nerve
    chooser: Chooser

    @property
    def name(self) -> str:
        """The nerve by name; empty for the published practice itself."""
        return next((name for name, nerve in NERVES.items() if nerve == self.nerve), "")


def choice(basis: Basis, *, garden: str = "", holder: str = "", planting: str = "") -> Choice:
    """The planting's own nerve, else its holder's, else the garden's; each by name, empty for none chosen.

    Where nobody chose it is middling, or the published practice where one pair of dates is all that is known.

    >>> choice(Basis.RECORD, garden="careful", holder="bold").chooser.value
    'holder'
    """
    for chooser, name in (
        (Chooser.PLANTING, planting),
        (Chooser.HOLDER, holder),
        (Chooser.GARDEN, garden),
    ):
        if name:
            return Choice(NERVES[name], chooser)
    return Choice(AS_PUBLISHED if basis is Basis.MEAN else MIDDLING, Chooser.DATES)


@dataclass(frozen=True, slots=True)
class Risk:
    """How often a killing freeze comes: after a day on which something is begun, or before it is ripe.

    `share` runs from 0 to 1; with a record it is `count` of `used` years.
    """

    day: date
    share: float
    count: int | None = None
    used: int | None = None

    @property
    def percent(self) -> int:
        """The share in whole percent."""
        return round(100 * self.share)


@dataclass(frozen=True, slots=True)
class Cost:
    """What one nerve gives: the first day of spring, or the last of autumn, and the risk that it takes.

    `gained_days` are those that it gives more than careful; the autumn's are later, the spring's earlier.
    """

    nerve: Nerve
    risk: Risk
    gained_days: int


@dataclass(frozen=True, slots=True)
class Move:
    """Beginning some days earlier (below 0) or later than on a day: the risk then and now."""

    days: int
    now: Risk
    then: Risk


@dataclass(frozen=True)
class Costs:
    """A crop begun in one way in one turn of a garden's year, as each nerve would have it."""

    facts: CropFacts
    climate: Climate
    turn: Turn
    start: Start
    cover_c: float = 0.0

    def of_each(self, year: int) -> tuple[Cost, ...]:
        """Careful, middling and bold; empty where one of them has no dates or no risk is known."""
        days = [self._edge(year, nerve) for nerve in NERVES.values()]
        risks = [None if day is None else self.risk(day) for day in days]
        known = [(nerve, risk) for nerve, risk in zip(NERVES.values(), risks, strict=True) if risk]
        if len(known) < len(NERVES):
            return ()
        careful = known[0][1].day
        sign = -1 if self.turn is Turn.SPRING else 1
        return tuple(Cost(nerve, risk, sign * (risk.day - careful).days) for nerve, risk in known)

    def moves(self, day: date) -> tuple[Move, ...]:
        """A week earlier and a week later than `day`; empty where no risk is known."""
        now = self.risk(day)
        return tuple(self._moves(day, now)) if now is not None else ()

    def risk(self, day: date) -> Risk | None:
        """Of a killing freeze after the plant is exposed in spring; in autumn, of one before it is ripe."""
        if self.turn is Turn.AUTUMN:
            return self._before_ripe(day)
        exposed = self._odds.exposed(day)
        curve = self._odds.young_curve
        if curve is None or exposed is None:
            return None
        # A southern January still belongs to the spring of the year before.
        before = self.climate.hemisphere is Hemisphere.SOUTH and exposed.month == 1
        return _risk(curve, day, day_number(exposed, exposed.year - before))

    def _before_ripe(self, day: date) -> Risk | None:
        chance, curve = self._odds.on(day), self._odds.grown_curve
        if curve is None or not isinstance(chance, Chance):
            return None
        return _risk(curve, day, day_number(chance.ripe, ending_year(day, self.climate.hemisphere)))

    def _moves(self, day: date, now: Risk) -> Iterator[Move]:
        for days in (-WEEK, WEEK):
            then = self.risk(day + timedelta(days))
            if then is not None:
                yield Move(days, now, then)

    def _edge(self, year: int, nerve: Nerve) -> date | None:
        windows = derive(self.facts, self.climate, year=year, nerve=nerve, cover_c=self.cover_c)
        own = next((window for window in windows if self._begins(window)), None)
        if own is None:
            return None
        return own.earliest if self.turn is Turn.SPRING else own.latest

    def _begins(self, window: Window) -> bool:
        way = window.turn is self.turn and window.start is self.start
        return way and window.operation in _BEGINNINGS and window.succession == 1

    @cached_property
    def _odds(self) -> Odds:
        return Odds(self.facts, self.climate, self.start, cover_c=self.cover_c)


def _risk(curve: RiskCurve, day: date, number: int) -> Risk:
    if isinstance(curve, RecordCurve):
        return Risk(day, curve.chance(number), curve.count(number), curve.used)
    return Risk(day, curve.chance(number))
