"""The words of the derivation: operations, windows and the reasons behind their edges."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum


class Operation(StrEnum):
    """What is done; sets, tubers, crowns and slips are sown too."""

    START_INDOORS = "start-indoors"
    HARDEN_OFF = "harden-off"
    SOW = "sow"
    TRANSPLANT = "transplant"
    THIN = "thin"
    HARVEST = "harvest"


class Turn(StrEnum):
    """The half of the growing year that a planting belongs to."""

    SPRING = "spring"
    AUTUMN = "autumn"


class Start(StrEnum):
    """How a planting begins: sown (or set) where it grows, or raised under cover and transplanted."""

    SOW = "sow"
    TRANSPLANT = "transplant"


class Edge(StrEnum):
    """The part of a window that a reason explains."""

    EARLIEST = "earliest"
    BEST = "best"
    LATEST = "latest"
    NONE = "none"  # why there is no window at all
    DONE = "done"  # what was logged, and what the plan had been


@dataclass(frozen=True, slots=True)
class Reason:
    """Why an edge is where it is: a rule's code and the plain numbers, dates and temperatures (°C) it used.

    The `decisive` reason set the edge; the others were weighed and gave a milder bound.
    """

    code: str
    edge: Edge
    decisive: bool = True
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Done:
    """The day on which something was done, and the log that tells of it, by primary key."""

    day: date
    log: int


@dataclass(frozen=True, slots=True)
class Window:
    """Earliest, best and latest day for one operation; all three `None` when there is no window.

    The first sowing or transplanting of a turn has `succession` 1. With `done` nothing is left to do, and the
    dates are those on which it was done; with `last_picked` a harvest goes on. Logs moved the best day by
    `moved_days`, to a later one above 0.
    """

    crop: str
    operation: Operation
    turn: Turn
    start: Start
    succession: int
    earliest: date | None
    best: date | None
    latest: date | None
    reasons: tuple[Reason, ...]
    done: Done | None = None
    last_picked: Done | None = None
    moved_days: int = 0


@dataclass(frozen=True, slots=True)
class Nerve:
    """The frost risk accepted, as percent of years; `None` follows the published practice itself."""

    percent: float | None


CAREFUL = Nerve(10)
MIDDLING = Nerve(30)
BOLD = Nerve(50)
AS_PUBLISHED = Nerve(None)
