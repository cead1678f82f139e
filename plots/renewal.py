"""Renewals: what to propose for each plot that is held when the season turns, and for each that comes free.

Proposals only. A person looks at them and presses the button; neither silence nor missing hours take a plot.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

Value = str | int | date | Decimal


class Wish(StrEnum):
    """What a household answered."""

    KEEP = "keep"
    MOVE = "move"  # keeps the plot until another is found
    LEAVE = "leave"


class Advice(StrEnum):
    """What is proposed."""

    RENEW = "renew"
    FREE = "free"
    TALK = "talk"  # something stands against renewing; a person decides
    REMIND = "remind"  # past the deadline, within the days of grace
    WAIT = "wait"  # there is still time to answer


class Why(StrEnum):
    """The rule behind a proposal."""

    WANTS_TO_KEEP = "wants to keep"
    WANTS_TO_MOVE = "wants to move"
    GIVES_UP = "gives up"
    ANSWERED_LATE = "answered late"
    ANSWERED_TOO_LATE = "answered too late"
    NO_ANSWER_YET = "no answer yet"
    NO_ANSWER_IN_TIME = "no answer in time"
    NO_ANSWER_AT_ALL = "no answer at all"
    HOURS_MISSING = "hours missing"
    DUES_UNPAID = "dues unpaid"
    MOVES_FIRST = "moves first"
    NEXT_IN_LINE = "next in line"
    NOBODY_WAITS = "nobody waits"


@dataclass(frozen=True, slots=True)
class Reason:
    """A rule that spoke, with its values, for `plots.wording.renewal`."""

    why: Why
    values: tuple[Value, ...] = ()


@dataclass(frozen=True, slots=True)
class Terms:
    """The round's dates and what the garden asks of who renews."""

    answer_by: date
    last_call: date
    needs_hours: bool = False
    needs_dues: bool = False


@dataclass(frozen=True, slots=True)
class Standing:
    """What a household answered, and when; what it still owes of the season that ends."""

    wish: Wish | None = None
    answered_on: date | None = None
    hours_left: Decimal = Decimal(0)
    dues_unpaid: bool = False


@dataclass(frozen=True, slots=True)
class Advised:
    """A proposal with the rules that led to it, the decisive one first."""

    advice: Advice
    reasons: tuple[Reason, ...]


def advise(standing: Standing, terms: Terms, *, today: date) -> Advised:
    """What to propose for one held plot on `today`.

    >>> terms = Terms(answer_by=date(2024, 3, 1), last_call=date(2024, 3, 15))
    >>> advise(Standing(), terms, today=date(2024, 3, 15)).advice
    <Advice.REMIND: 'remind'>
    >>> advise(Standing(), terms, today=date(2024, 3, 16)).advice
    <Advice.FREE: 'free'>
    """
    if standing.wish is None or standing.answered_on is None:
        return _silent(terms, today)
    if standing.wish is Wish.LEAVE:
        return Advised(Advice.FREE, (Reason(Why.GIVES_UP, (standing.answered_on,)),))
    wants = Why.WANTS_TO_MOVE if standing.wish is Wish.MOVE else Why.WANTS_TO_KEEP
    reasons = [Reason(wants, (standing.answered_on,))]
    if terms.answer_by < standing.answered_on <= terms.last_call:
        reasons.append(Reason(Why.ANSWERED_LATE, (terms.answer_by,)))
    against = list(_against(standing, terms))
    if against:
        return Advised(Advice.TALK, tuple(against + reasons))
    return Advised(Advice.RENEW, tuple(reasons))


def _silent(terms: Terms, today: date) -> Advised:
    if today <= terms.answer_by:
        return Advised(Advice.WAIT, (Reason(Why.NO_ANSWER_YET, (terms.answer_by,)),))
    if today <= terms.last_call:
        return Advised(Advice.REMIND, (Reason(Why.NO_ANSWER_IN_TIME, (terms.answer_by, terms.last_call)),))
    return Advised(Advice.FREE, (Reason(Why.NO_ANSWER_AT_ALL, (terms.last_call,)),))


def _against(standing: Standing, terms: Terms) -> Iterable[Reason]:
    if standing.answered_on is not None and standing.answered_on > terms.last_call:
        yield Reason(Why.ANSWERED_TOO_LATE, (terms.last_call,))
    if terms.needs_hours and standing.hours_left > 0:
        yield Reason(Why.HOURS_MISSING, (standing.hours_left,))
    if terms.needs_dues and standing.dues_unpaid:
        yield Reason(Why.DUES_UNPAID)


@dataclass(frozen=True, slots=True)
class FreePlot:
    """A plot without a holder in the coming season."""

    pk: int
    label: str
    accessible: bool = False


@dataclass(frozen=True, slots=True)
class Candidate:
    """Somebody who could have a plot: a member who wants to move, or a place on the waiting list."""

    pk: int
    name: str
    since: date


@dataclass(frozen=True, slots=True)
class Proposal:
    """Who could have a free plot: a mover, or a place on the list; neither where nobody waits for it."""

    plot: FreePlot
    reason: Reason
    mover: Candidate | None = None
    place: Candidate | None = None


def propose(
    plots: Sequence[FreePlot],
    *,
    movers: Sequence[Candidate],
    lines: Mapping[int, Sequence[Candidate]],
    movers_first: bool,
) -> list[Proposal]:
    """One candidate for each free plot, nobody twice, nobody skipped.

    `lines` gives for each plot the waiting list in the order that holds for it. Accessible beds are proposed
    before the others, so that who needs one is not proposed another first.
    """
    moving = sorted(movers, key=lambda candidate: (candidate.since, candidate.pk))
    taken: set[tuple[bool, int]] = set()
    proposals: dict[int, Proposal] = {}
    for plot in sorted(plots, key=lambda plot: not plot.accessible):
        queues = [(True, moving), (False, lines.get(plot.pk, ()))]
        proposals[plot.pk] = _first_free(plot, queues if movers_first else queues[::-1], taken)
    return [proposals[plot.pk] for plot in plots]


def _first_free(
    plot: FreePlot, queues: Iterable[tuple[bool, Sequence[Candidate]]], taken: set[tuple[bool, int]]
) -> Proposal:
    for moves, queue in queues:
        for position, candidate in enumerate(queue, start=1):
            if (moves, candidate.pk) in taken:
                continue
            taken.add((moves, candidate.pk))
            if moves:
                return Proposal(plot, Reason(Why.MOVES_FIRST, (candidate.since,)), mover=candidate)
            why = Reason(Why.NEXT_IN_LINE, (position, candidate.since))
            return Proposal(plot, why, place=candidate)
    return Proposal(plot, Reason(Why.NOBODY_WAITS))
