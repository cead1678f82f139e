"""What may still be planted again of a crop that was lost or cleared: the ways of its year that are open."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date

from schedules.entries import Way, is_dated
from schedules.windows import Done, Operation, Start, Window, anchored
from schedules.windows.course import Course
from schedules.windows.happened import Happened, Stage

_BEGINNING = {Start.SOW: Stage.SOW, Start.TRANSPLANT: Stage.TRANSPLANT}
_NO_LOG = 0


@dataclass(frozen=True, slots=True)
class Again:
    """A way that is still open, from `earliest` to `latest`; its harvest, if it is begun on the best day.

    With `seedlings_at_hand` it is too late to raise any: they are bought, or stand ready.
    """

    way: Way
    earliest: date
    best: date
    latest: date
    harvest: Window | None
    seedlings_at_hand: bool


def open_ways(ways: Iterable[Way], course: Callable[[Way], Course], *, since: date) -> tuple[Again, ...]:
    """The ways whose time to begin is not over on `since`, the one with the earliest best day first."""
    found = [one for way in ways if (one := _again(way, course, since)) is not None]
    return tuple(sorted(found, key=lambda one: (one.best, one.way.key)))


def _again(way: Way, course: Callable[[Way], Course], since: date) -> Again | None:
    window = way.beginning
    if window is None or window.earliest is None or window.best is None or window.latest is None:
        return None
    if window.latest < since:
        return None
    best = max(window.best, since)
    indoors = [one.latest for one in way.windows if one.operation is Operation.START_INDOORS and one.latest]
    return Again(
        way,
        earliest=max(window.earliest, since),
        best=best,
        latest=window.latest,
        harvest=harvest_begun_on(course(way), best),
        seedlings_at_hand=bool(indoors) and max(indoors) < since,
    )


def harvest_begun_on(course: Course, day: date) -> Window | None:
    """When it is picked if it is sown, or set out, on `day`; `None` where it cannot be said."""
    told = {1: Happened({_BEGINNING[course.start]: Done(day, _NO_LOG)})}
    found = [one for one in anchored((), course, told) if one.operation is Operation.HARVEST]
    return next((one for one in found if is_dated(one)), None)
