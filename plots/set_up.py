"""The steps of setting a new garden up: which there are, and which comes next."""

from __future__ import annotations

from collections.abc import Collection
from enum import StrEnum


class Step(StrEnum):
    """In the order in which they are asked; each may be left out and taken up again."""

    PLACE = "place"
    UNITS = "units"
    FROST = "frost"
    PLOTS = "plots"
    SEASON = "season"
    RULES = "rules"


class State(StrEnum):
    OPEN = "open"
    SKIPPED = "skipped"
    DONE = "done"


def state_of(step: Step, done: Collection[str], skipped: Collection[str]) -> State:
    """Done wins over skipped.

    >>> state_of(Step.PLACE, ["place"], ["place"])
    <State.DONE: 'done'>
    """
    if step in done:
        return State.DONE
    return State.SKIPPED if step in skipped else State.OPEN


def next_step(done: Collection[str], skipped: Collection[str]) -> Step | None:
    """The first step not looked at yet; then the first that was skipped; `None` when all are done.

    >>> next_step(["place"], ["units"]), next_step([step for step in Step if step != "units"], ["units"])
    (<Step.FROST: 'frost'>, <Step.UNITS: 'units'>)
    """
    for wanted in (State.OPEN, State.SKIPPED):
        for step in Step:
            if state_of(step, done, skipped) == wanted:
                return step
    return None


def step_after(step: Step, done: Collection[str], skipped: Collection[str]) -> Step | None:
    """Where to go on from a step: the next one behind it that is still open, else any that is."""
    order = list(Step)
    behind = order[order.index(step) + 1 :]
    openly = [other for other in behind if state_of(other, done, skipped) == State.OPEN]
    return openly[0] if openly else next((o for o in order if state_of(o, done, skipped) == State.OPEN), None)
