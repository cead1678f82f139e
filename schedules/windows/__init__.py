"""From a crop's facts and a garden's climate to windows, each edge with its reasons.

The rules are told in DEVELOPERS.md, "How a date is derived". `growing_year` lays frost dates and normals on
one axis, `spring` and `autumn` find the days on which a planting may begin, `course` what follows from them;
`practice` holds what was fitted to published calendars.
"""

from __future__ import annotations

from collections.abc import Iterator

from crops.facts import CropFacts
from schedules.climate import Climate
from schedules.windows.anchored import anchored, lies_behind
from schedules.windows.autumn import autumn_span
from schedules.windows.course import Course
from schedules.windows.growing_year import GrowingYear
from schedules.windows.growth import starts
from schedules.windows.practice import FITTED, Practice
from schedules.windows.spring import spring_span
from schedules.windows.types import (
    AS_PUBLISHED,
    BOLD,
    CAREFUL,
    MIDDLING,
    Done,
    Edge,
    Nerve,
    Operation,
    Reason,
    Start,
    Turn,
    Window,
)

__all__ = [
    "AS_PUBLISHED",
    "BOLD",
    "CAREFUL",
    "MIDDLING",
    "Done",
    "Edge",
    "Nerve",
    "Operation",
    "Reason",
    "Start",
    "Turn",
    "Window",
    "anchored",
    "course_of",
    "derive",
    "lies_behind",
]


def derive(
    facts: CropFacts,
    climate: Climate,
    *,
    year: int,
    nerve: Nerve,
    cover_c: float = 0.0,
    practice: Practice = FITTED,
) -> tuple[Window, ...]:
    """Every window of a crop in `year`: both turns, each way to start it, all successions.

    A row cover keeps `cover_c` (°C) of frost away from the plants, 0 for none.
    A turn in which the crop cannot be planted has one window without dates, whose reasons say why.
    """
    return tuple(_derive(facts, GrowingYear(climate, year, nerve, practice, cover_c)))


def course_of(
    facts: CropFacts,
    climate: Climate,
    *,
    year: int,
    nerve: Nerve,
    turn: Turn,
    start: Start,
    cover_c: float = 0.0,
) -> Course:
    """One way of growing a crop in one turn, as `derive` reckons it; `anchored` moves its windows."""
    return Course(facts, turn, start, GrowingYear(climate, year, nerve, FITTED, cover_c))


def _derive(facts: CropFacts, year: GrowingYear) -> Iterator[Window]:
    for start in starts(facts):
        yield from Course(facts, Turn.SPRING, start, year).windows(spring_span(facts, start, year))
        yield from Course(facts, Turn.AUTUMN, start, year).windows(autumn_span(facts, start, year))
