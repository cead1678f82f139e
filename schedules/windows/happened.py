"""What is known to have been done at one sowing of a planting, and in which order it must have been."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from schedules.windows.types import Done, Operation, Start


class Stage(StrEnum):
    """A step in the life of a sowing that logs tell of; operations have their own word."""

    START_INDOORS = Operation.START_INDOORS
    SOW = Operation.SOW
    CAME_UP = "came-up"
    HARDEN_OFF = Operation.HARDEN_OFF
    TRANSPLANT = Operation.TRANSPLANT
    THIN = Operation.THIN
    HARVEST = Operation.HARVEST  # its first picking
    KILLED = "killed"  # lost to frost
    CLEAR = "clear"


STAGES: Mapping[Start, tuple[Stage, ...]] = {
    Start.SOW: (Stage.SOW, Stage.CAME_UP, Stage.THIN, Stage.HARVEST, Stage.KILLED, Stage.CLEAR),
    Start.TRANSPLANT: (
        Stage.START_INDOORS,
        Stage.CAME_UP,
        Stage.HARDEN_OFF,
        Stage.TRANSPLANT,
        Stage.HARVEST,
        Stage.KILLED,
        Stage.CLEAR,
    ),
}
ENDS = frozenset({Stage.KILLED, Stage.CLEAR})
# What is told of a sowing where it grows; seedlings under cover stand elsewhere.
IN_THE_GROUND: Mapping[Start, tuple[Stage, ...]] = {
    Start.SOW: STAGES[Start.SOW][:-2],
    Start.TRANSPLANT: (Stage.TRANSPLANT, Stage.HARVEST),
}


@dataclass(frozen=True, slots=True)
class Happened:
    """The days of one sowing's stages, never out of their order, and the last picking."""

    days: Mapping[Stage, Done] = field(default_factory=dict)
    last_picked: Done | None = None

    def on(self, stage: Stage) -> Done | None:
        """When a stage was reached, if a log tells."""
        return self.days.get(stage)

    @property
    def ended(self) -> Done | None:
        """When nothing was left of it: lost to frost, or cleared."""
        return self.days.get(Stage.KILLED) or self.days.get(Stage.CLEAR)


def is_begun(told: Happened, start: Start) -> bool:
    """Whether anything is told of it where it grows."""
    return any(stage in told.days for stage in IN_THE_GROUND[start])
