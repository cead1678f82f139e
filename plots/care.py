"""What is next in the care of plots: when a round is due, and which step a private matter is ripe for.

Nothing here decides about anybody. A step is proposed with its reason; a person takes it, or another one.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from plots.month_days import in_year


def rubric_lines(text: str) -> list[str]:
    """The states of a garden's rubric, the best first; empty lines do not count.

    >>> rubric_lines("well kept\\n\\n weeds ")
    ['well kept', 'weeds']
    """
    return [line.strip() for line in text.splitlines() if line.strip()]


def next_round(last: date | None, *, every_days: int, first: str, until: str, today: date) -> date | None:
    """The day the next care round is due, today or a past day if it is overdue; `None` where none is held.

    `first` and `until` are days of the year (`MM-DD`) between which rounds are held; empty for all year.

    >>> next_round(date(2024, 5, 1), every_days=14, first="05-01", until="10-31", today=date(2024, 5, 2))
    datetime.date(2024, 5, 15)
    >>> next_round(date(2024, 10, 25), every_days=14, first="05-01", until="10-31", today=date(2024, 11, 1))
    datetime.date(2025, 5, 1)
    """
    due = last + timedelta(days=max(1, every_days)) if last else today
    if not first and not until:
        return due
    for year in range(due.year - 1, due.year + 3):
        opens = in_year(first or "01-01", year)
        closes = in_year(until or "12-31", year)
        if opens is None or closes is None:
            return due
        if closes < opens:  # south of the equator a season runs over New Year
            closes = in_year(until or "12-31", year + 1) or closes
        day = max(due, opens)
        if day <= closes and closes >= today:
            return day
    return None


class Kind(StrEnum):
    """A step of a matter; the words are those of the stored steps."""

    CONTACT = "contact"
    NOTICE = "notice"
    DEADLINE = "deadline"
    RECHECK = "recheck"
    DECISION = "decision"
    APPEAL = "appeal"
    OUTCOME = "outcome"


@dataclass(frozen=True, slots=True)
class Step:
    """A step taken. `done`: somebody was reached, or the plot was in order; `due_on`: the time it gives."""

    kind: str
    day: date
    done: bool = False
    due_on: date | None = None


@dataclass(frozen=True, slots=True)
class Rules:
    """What the garden set: tries before a notice, days, and notices before a decision."""

    contact_tries: int
    cure_days: int
    recheck_days: int
    notices_before_decision: int
    appeal_days: int


class Reason(StrEnum):
    """Why a step is proposed, or none; see `plots.wording.care`."""

    CLOSED = "closed"
    PAUSED = "paused"
    TRY = "try"
    TRIED = "tried"
    TIME_RUNS = "time-runs"
    TIME_IS_UP = "time-is-up"
    STILL = "still"
    ENOUGH_NOTICES = "enough-notices"
    IN_ORDER = "in-order"
    MAY_APPEAL = "may-appeal"
    APPEALED = "appealed"
    NO_APPEAL = "no-appeal"


@dataclass(frozen=True, slots=True)
class Proposal:
    """The step that is next and from when; `step` is `None` where there is nothing to do but wait.

    `count` of `of`: tries to reach somebody, or notices given.
    """

    step: Kind | None
    reason: Reason
    from_on: date | None = None
    count: int = 0
    of: int = 0

    def is_ripe(self, today: date) -> bool:
        """Whether it waits for a person today."""
        return self.step is not None and (self.from_on is None or self.from_on <= today)

    @property
    def time_until(self) -> date | None:
        """The last day of what the people of the plot were given time for, before the next step."""
        timed = self.reason in (Reason.TIME_RUNS, Reason.TIME_IS_UP, Reason.MAY_APPEAL)
        return self.from_on - timedelta(days=1) if timed and self.from_on else None


def propose(
    steps: Sequence[Step],
    rules: Rules,
    *,
    today: date,
    paused: bool = False,
    paused_until: date | None = None,
) -> Proposal:
    """What is next in a matter, after the steps that stand (oldest first)."""
    last = _last(steps)
    if last is not None and last.kind == Kind.OUTCOME:
        return Proposal(None, Reason.CLOSED)
    if paused:
        return Proposal(None, Reason.PAUSED, paused_until)
    decided = _decided(steps, today)
    if decided is not None:
        return decided
    given = [step for step in steps if step.kind == Kind.NOTICE]
    seen = _last([step for step in steps if step.kind == Kind.RECHECK])
    if seen is not None and seen is last:
        if seen.done:
            return Proposal(Kind.OUTCOME, Reason.IN_ORDER)
        return _after_a_bad_look(len(given), rules)
    until = _time_given(steps, rules)
    if until is not None:
        reason = Reason.TIME_RUNS if until >= today else Reason.TIME_IS_UP
        return Proposal(Kind.RECHECK, reason, until + timedelta(days=1))
    tries = sum(step.kind == Kind.CONTACT for step in steps)
    if tries >= rules.contact_tries:
        return Proposal(Kind.NOTICE, Reason.TRIED, None, tries, rules.contact_tries)
    return Proposal(Kind.CONTACT, Reason.TRY, None, tries, rules.contact_tries)


def _last(steps: Sequence[Step]) -> Step | None:
    return steps[-1] if steps else None


def _decided(steps: Iterable[Step], today: date) -> Proposal | None:
    """What follows a decision: its appeal, or the end of the time for one; `None` before there is one."""
    tail = list(steps)
    places = [place for place, step in enumerate(tail) if step.kind == Kind.DECISION]
    if not places:
        return None
    decision = tail[places[-1]]
    if any(step.kind == Kind.APPEAL for step in tail[places[-1] :]):
        return Proposal(Kind.OUTCOME, Reason.APPEALED)
    if decision.due_on is not None and decision.due_on >= today:
        return Proposal(Kind.OUTCOME, Reason.MAY_APPEAL, decision.due_on + timedelta(days=1))
    return Proposal(Kind.OUTCOME, Reason.NO_APPEAL)


def _after_a_bad_look(notices: int, rules: Rules) -> Proposal:
    if notices >= rules.notices_before_decision:
        return Proposal(Kind.DECISION, Reason.ENOUGH_NOTICES, None, notices, rules.notices_before_decision)
    return Proposal(Kind.NOTICE, Reason.STILL, None, notices, rules.notices_before_decision)


def _time_given(steps: Sequence[Step], rules: Rules) -> date | None:
    """Until when the holder has time by what was last said: a notice, more time, a word that reached them."""
    for step in reversed(steps):
        if step.kind in (Kind.NOTICE, Kind.DEADLINE):
            return step.due_on or step.day + timedelta(days=rules.cure_days)
        if step.kind == Kind.CONTACT and step.done:
            return step.due_on or step.day + timedelta(days=rules.recheck_days)
        if step.kind == Kind.RECHECK:
            return None
    return None
