"""What people do at a plot and write down. Work that the calendar knows too has the operation's own word."""

from __future__ import annotations

from enum import StrEnum

from schedules.windows import Operation


class Work(StrEnum):
    """A piece of work, in the order in which a season meets it."""

    WATER = "water"
    PICK = "harvest"
    START_INDOORS = "start-indoors"
    HARDEN_OFF = "harden-off"
    SOW = "sow"
    CAME_UP = "came-up"  # seen, not done: what follows counts from it
    TRANSPLANT = "transplant"
    THIN = "thin"
    FEED = "feed"
    MULCH = "mulch"
    WEED = "weed"
    SUPPORT = "support"
    SCOUT = "scout"
    TREAT = "treat"  # a product was used, with the interval of its own label
    KILLED = "killed"  # by frost: what stood there is lost
    CLEAR = "clear"
    HOURS = "hours"
    NOTE = "note"


def operation_of(work: str) -> Operation | None:
    """The operation of the calendar that is done by this work.

    >>> operation_of("thin"), operation_of("water")
    (<Operation.THIN: 'thin'>, None)
    """
    return Operation(work) if work in set(Operation) else None


# What tells of a planting: meaningless at a plot where nothing grows.
OF_A_PLANTING = frozenset(
    {
        Work.PICK,
        Work.START_INDOORS,
        Work.HARDEN_OFF,
        Work.SOW,
        Work.CAME_UP,
        Work.TRANSPLANT,
        Work.THIN,
        Work.KILLED,
    }
)
# What tells of nobody at the plot.
NO_VISIT = frozenset({Work.HOURS, Work.NOTE})
