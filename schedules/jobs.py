"""A week's jobs, made from the windows of plantings.

A week starts on Monday in every garden, as ISO 8601 counts it: Saturday and Sunday, when most members come,
then belong to one week's list instead of two.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import IntEnum

from plots.spelling import folded, natural_key
from schedules.entries import Entry, by_date
from schedules.windows import Operation

# A planting that was never begun is worth a word in the week after its window; the rest passes in silence.
_BEGINNINGS = frozenset({Operation.START_INDOORS, Operation.SOW, Operation.TRANSPLANT})
_ORDER = {operation: place for place, operation in enumerate(Operation)}


class Moment(IntEnum):
    """How a window stands to one week, most urgent first."""

    ONLY = 0  # opens and closes within the week
    LAST = 1
    BEST = 2
    LATE = 3  # the best day has passed, the window is still open
    OPENS = 4
    EARLY = 5  # open, the best day is still to come
    CLOSED = 6  # closed in the week before


_LAST_CHANCES = frozenset({Moment.ONLY, Moment.LAST})
_NEWS = frozenset({Moment.ONLY, Moment.LAST, Moment.BEST, Moment.OPENS})


@dataclass(frozen=True, slots=True)
class Task:
    """An entry of the calendar as it stands in one week."""

    entry: Entry
    moment: Moment

    @property
    def is_urgent(self) -> bool:
        """Whether it cannot wait for another week."""
        return self.moment in _LAST_CHANCES


@dataclass(frozen=True, slots=True)
class Job:
    """One thing to do in a week at one plot: an operation on one or several plantings, most urgent first."""

    monday: date
    plot: int
    operation: Operation
    tasks: tuple[Task, ...]

    @property
    def moment(self) -> Moment:
        """That of its most urgent task."""
        return self.tasks[0].moment

    @property
    def is_urgent(self) -> bool:
        """Whether something of it cannot wait for another week."""
        return self.tasks[0].is_urgent

    @property
    def plot_label(self) -> str:
        return self.tasks[0].entry.plot_label


def monday_of(day: date) -> date:
    """The Monday on or before `day`.

    >>> monday_of(date(2027, 1, 1))
    datetime.date(2026, 12, 28)
    """
    return day - timedelta(days=day.weekday())


def moment_in_week(entry: Entry, monday: date) -> Moment | None:
    """How the entry stands to the week of `monday`; `None` where the week asks nothing of anybody.

    Nothing is asked any more of what is done, nor twice in a week of what is picked week after week.
    """
    if entry.done is not None or entry.told_in(monday) is not None:
        return None
    sunday = monday + timedelta(days=6)
    if entry.earliest > sunday or entry.latest < monday - timedelta(days=7):
        return None
    if entry.latest < monday:
        return Moment.CLOSED if entry.operation in _BEGINNINGS else None
    opens = entry.earliest >= monday
    closes = entry.latest <= sunday
    if opens and closes:
        return Moment.ONLY
    if closes:
        return Moment.LAST
    if monday <= entry.best <= sunday:
        return Moment.BEST
    if opens:
        return Moment.OPENS
    return Moment.LATE if entry.best < monday else Moment.EARLY


def jobs_in_week(entries: Iterable[Entry], monday: date) -> list[Job]:
    """The jobs of one week, most urgent first, then in the order in which operations follow each other."""
    tasks: dict[tuple[int, Operation], list[Task]] = defaultdict(list)
    for entry in entries:
        moment = moment_in_week(entry, monday)
        if moment is not None:
            tasks[entry.plot, entry.operation].append(Task(entry, moment))
    jobs = [
        Job(monday, plot, operation, tuple(sorted(found, key=_by_urgency)))
        for (plot, operation), found in tasks.items()
    ]
    return sorted(jobs, key=_by_moment)


def coming_jobs(entries: Iterable[Entry], monday: date, weeks: int) -> list[tuple[date, list[Job]]]:
    """The `weeks` weeks after that of `monday`, each with the jobs that open, are best or close in it.

    What is merely still open, or closed the week before, is left to the list of its own week.
    """
    known = list(entries)
    found = []
    for ahead in range(1, weeks + 1):
        week = monday + timedelta(weeks=ahead)
        news = [entry for entry in known if moment_in_week(entry, week) in _NEWS]
        found.append((week, jobs_in_week(news, week)))
    return found


def done_in_week(entries: Iterable[Entry], monday: date) -> list[Entry]:
    """What logs tell was done in one week, in the order of days."""
    told = ((entry.told_in(monday), entry) for entry in entries)
    done = [(one.day, by_date(entry), one.log, entry) for one, entry in told if one is not None]
    return [entry for *_, entry in sorted(done, key=lambda row: row[:3])]


def next_opening(entries: Iterable[Entry], day: date) -> Entry | None:
    """What opens first on or after `day`."""
    to_come = [entry for entry in entries if entry.earliest >= day and entry.done is None]
    return min(to_come, key=by_date, default=None)


@dataclass(frozen=True, slots=True)
class SharedTask:
    """The same task at several plots, crop and dates alike; in the order of the stakes (2 before 10)."""

    task: Task
    entries: tuple[Entry, ...]

    @property
    def is_urgent(self) -> bool:
        """Whether it cannot wait for another week."""
        return self.task.is_urgent


def by_crop(jobs: Iterable[Job]) -> list[tuple[Operation, list[SharedTask]]]:
    """A whole garden's jobs, operation by operation, each crop once with all its plots, most urgent first."""
    groups: dict[Operation, dict[tuple[object, ...], list[Task]]] = {}
    for task in (task for job in jobs for task in job.tasks):
        entry = task.entry
        dates = entry.earliest, entry.best, entry.latest, entry.not_before
        alike = entry.name, entry.succession, entry.successions, *dates
        groups.setdefault(entry.operation, {}).setdefault(alike, []).append(task)
    return [
        (operation, sorted((_shared(tasks) for tasks in groups[operation].values()), key=_by_urgency_of_all))
        for operation in Operation
        if operation in groups
    ]


def _shared(tasks: list[Task]) -> SharedTask:
    entries = sorted((task.entry for task in tasks), key=lambda entry: natural_key(entry.plot_label))
    return SharedTask(tasks[0], tuple(entries))


def _by_urgency_of_all(shared: SharedTask) -> tuple[Moment, date, str, int]:
    return _by_urgency(shared.task)


def matching(jobs: Iterable[Job], query: str) -> list[Job]:
    """The jobs at a plot whose label is `query`, and the tasks of others whose crop's name holds it."""
    wanted = folded(query)
    found = []
    for job in jobs:
        tasks = tuple(task for task in job.tasks if _matches(task.entry, wanted))
        if tasks:
            found.append(replace(job, tasks=tasks))
    return found


def matching_entries(entries: Iterable[Entry], query: str) -> list[Entry]:
    """As `matching`, of entries."""
    wanted = folded(query)
    return [entry for entry in entries if _matches(entry, wanted)]


def _matches(entry: Entry, wanted: str) -> bool:
    return not wanted or folded(entry.plot_label) == wanted or wanted in folded(entry.name)


def by_operation(jobs: Iterable[Job]) -> list[tuple[Operation, list[Job]]]:
    """A whole garden's jobs, operation by operation, each in the order of the plots' stakes (2 before 10)."""
    groups: dict[Operation, list[Job]] = {}
    for job in sorted(jobs, key=lambda job: natural_key(job.plot_label)):
        groups.setdefault(job.operation, []).append(job)
    return sorted(groups.items(), key=lambda group: _ORDER[group[0]])


def _by_urgency(task: Task) -> tuple[Moment, date, str, int]:
    return task.moment, task.entry.latest, task.entry.name, task.entry.succession


def _by_moment(job: Job) -> tuple[Moment, int, date, int]:
    return job.moment, _ORDER[job.operation], job.tasks[0].entry.latest, job.plot
