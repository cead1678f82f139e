"""What a log about pests and damage tells beside the work itself."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How much of the crop it has."""

    TRACE = "trace"
    SOME = "some"
    MUCH = "much"


@dataclass(frozen=True, slots=True)
class Seen:
    """What was seen, on what, and how much of it; empty where nobody said."""

    thing: str
    on: str = ""
    severity: str = ""


@dataclass(frozen=True, slots=True)
class Advice:
    """What a garden advises about one thing that may be seen, mildest first; empty where nothing is said."""

    thing: str
    signs: str = ""
    tolerate: str = ""
    prevent: str = ""
    by_hand: str = ""
    ask: str = ""


@dataclass(frozen=True, slots=True)
class Used:
    """A product that was used, with the days before picking that its own label states."""

    product: str
    label_days: int
    asked: str = ""
