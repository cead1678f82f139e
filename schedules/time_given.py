"""Time that people worked for the garden, and what it was for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from plots.spelling import folded
from schedules.figures import Logged
from schedules.work import Work


@dataclass(frozen=True, slots=True)
class TimeGiven:
    """Time that a member, or a guest of this name, worked for the garden.

    At a workday it has the workday's name; `task` is what was done there, or as a make-up job.
    """

    day: date
    minutes: int
    person: int | None = None
    guest: str = ""
    workday: str = ""
    task: str = ""
    plot: int | None = None

    @property
    def who(self) -> int | str:
        """The same for all that one person did; a guest is known by the name alone."""
        return folded(self.guest) if self.person is None else self.person

    @property
    def logged(self) -> Logged:
        return Logged(self.day, Work.HOURS, plot=self.plot, person=self.person, minutes=self.minutes)


@dataclass(frozen=True, slots=True)
class WorkGiven:
    """What was worked at one workday, or as one make-up job: by how many, for how long; no day: any."""

    day: date | None
    workday: str
    task: str
    people: int
    minutes: int


def work_given(hours: Iterable[TimeGiven]) -> list[WorkGiven]:
    """Workdays in the order of their days, then make-up jobs, at the end all that is neither."""
    groups: dict[tuple[date, str, str], list[TimeGiven]] = defaultdict(list)
    for one in hours:
        groups[one.day if one.workday else date.max, one.workday, one.task].append(one)
    keys = sorted(groups, key=lambda key: (key[0], key[1], not key[2], key[2]))
    return [
        WorkGiven(
            day if workday else None,
            workday,
            task,
            len({one.who for one in groups[day, workday, task]}),
            sum(one.minutes for one in groups[day, workday, task]),
        )
        for day, workday, task in keys
    ]
