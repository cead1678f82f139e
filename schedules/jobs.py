"""A week's jobs, made from the windows of plantings.

A week starts on Monday in every garden, as ISO 8601 counts it: Saturday and Sunday, when most members come, then
belong to one week's list instead of two.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import IntEnum

from schedules.windows import Operation, Window

# A planting that was never begun is worth a word in the week after its window; the rest passes in silence.
_BEGINNINGS = frozenset({Operation.START_INDOORS, Operation.SOW, Operation.TRANSPLANT})
_ORDER = {operation: place for place, operation in enumerate(Operation)}


class Moment(IntEnum):
    """How a window stands to one week, most urgent first."""

    ONLY = 0  # opens and closes within the week
    LAST = 1
    BEST = 2
    OPENS = 3
    OPEN = 4
    CLOSED = 5  # closed in the week before


@dataclass(frozen=True, slots=True)
class Planned:
    """One dated window of one planting at one plot (both by primary key)."""

    planting: int
    plot: int
    operation: Operation
    succession: int
    earliest: date
    best: date
    latest: date


@dataclass(frozen=True, slots=True)
class Task:
    """A planned window as it stands in one week."""

    planned: Planned
    moment: Moment


@dataclass(frozen=True, slots=True)
class Job:
    """One thing to do in one week at one plot: one operation on one or several plantings, most urgent first."""

    monday: date
    plot: int
    operation: Operation
    tasks: tuple[Task, ...]

    @property
    def moment(self) -> Moment:
        """That of its most urgent task."""
        return self.tasks[0].moment


def planned(window: Window, *, planting: int, plot: int) -> Planned | None:
    """The window bound to its planting; `None` where it has no dates."""
    if window.earliest is None or window.best is None or window.latest is None:
        return None
    return Planned(
        planting, plot, window.operation, window.succession, window.earliest, window.best, window.latest
    )


def monday_of(day: date) -> date:
    """The Monday on or before `day`.

    >>> monday_of(date(2027, 1, 1))
    datetime.date(2026, 12, 28)
    """
    return day - timedelta(days=day.weekday())


def moment_in_week(window: Planned, monday: date) -> Moment | None:
    """How the window stands to the week of `monday`; `None` where the week has nothing to say about it."""
    sunday = monday + timedelta(days=6)
    if window.earliest > sunday or window.latest < monday - timedelta(days=7):
        return None
    if window.latest < monday:
        return Moment.CLOSED if window.operation in _BEGINNINGS else None
    opens = window.earliest >= monday
    closes = window.latest <= sunday
    if opens and closes:
        return Moment.ONLY
    if closes:
        return Moment.LAST
    if monday <= window.best <= sunday:
        return Moment.BEST
    return Moment.OPENS if opens else Moment.OPEN


def jobs_in_week(windows: Iterable[Planned], monday: date) -> list[Job]:
    """The jobs of one week, most urgent first, then in the order in which the operations follow each other."""
    tasks: dict[tuple[int, Operation], list[Task]] = defaultdict(list)
    for window in windows:
        moment = moment_in_week(window, monday)
        if moment is not None:
            tasks[window.plot, window.operation].append(Task(window, moment))
    jobs = [
        Job(monday, plot, operation, tuple(sorted(found, key=_by_urgency)))
        for (plot, operation), found in tasks.items()
    ]
    return sorted(jobs, key=lambda job: (job.moment, _ORDER[job.operation], job.tasks[0].planned.latest, job.plot))


def coming_jobs(windows: Iterable[Planned], monday: date, weeks: int) -> list[tuple[date, list[Job]]]:
    """The `weeks` weeks after that of `monday`, each with the jobs that open, are best or close in it.

    What is merely still open, or closed the week before, is left to the list of its own week.
    """
    known = list(windows)
    found = []
    for ahead in range(1, weeks + 1):
        week = monday + timedelta(weeks=ahead)
        news = [window for window in known if _has_news(moment_in_week(window, week))]
        found.append((week, jobs_in_week(news, week)))
    return found


def _has_news(moment: Moment | None) -> bool:
    return moment is not None and moment < Moment.OPEN


def _by_urgency(task: Task) -> tuple[Moment, date, int, int]:
    return task.moment, task.planned.latest, task.planned.planting, task.planned.succession
