"""Workdays, their tasks and who comes; make-up jobs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Count, Prefetch, Q, QuerySet

from plots.models import Garden, HoursDone, SignUp, User, Workday, WorkTask
from plots.sign_in_sheet import Known


def workdays_of(garden: Garden) -> QuerySet[Workday]:
    """All workdays, each with how many mean to come (`coming`) and how many came (`came`)."""
    return garden.workdays.annotate(
        coming=Count("tasks__sign_ups", distinct=True),
        came=Count("hours_done", filter=Q(hours_done__removed_at=None), distinct=True),
    )


def tasks_of(workday: Workday) -> list[WorkTask]:
    """What there is to do, each with its `sign_ups` and how many more people it needs (`free`)."""
    return _with_people(workday.tasks.all())


def make_up_jobs(garden: Garden) -> list[WorkTask]:
    """The make-up jobs not taken off the list, those due first on top."""
    found = _with_people(garden.work_tasks.filter(workday=None, removed_at=None).select_related("garden"))
    return sorted(found, key=lambda job: (job.due_on is None, job.due_on, job.pk))


def _with_people(tasks: QuerySet[WorkTask]) -> list[WorkTask]:
    people = Prefetch("sign_ups", SignUp.objects.select_related("person"))
    done = Prefetch(
        "hours_done",
        HoursDone.objects.filter(removed_at=None, workday=None).select_related("person"),
        to_attr="done",
    )
    found = list(tasks.prefetch_related(people, done))
    for task in found:
        finished = {row.person_id for row in task.done}
        task.waiting = [one for one in task.sign_ups.all() if one.person_id not in finished]
        taken = len(finished | {one.person_id for one in task.sign_ups.all()})
        task.free = None if task.places is None else max(0, task.places - taken)
    return found


@dataclass(frozen=True)
class SheetRow:
    """A member on the sign-in sheet: what they meant to do, and the minutes typed in so far."""

    person: User
    task: str
    minutes: int | None


def sheet_rows(workday: Workday) -> list[SheetRow]:
    """Everybody who signed up or came, by name."""
    done = {
        row.person_id: row
        for row in workday.hours_done.filter(removed_at=None, person__isnull=False).select_related("person")
    }
    people: dict[int, tuple[User, str]] = {pk: (row.person, "") for pk, row in done.items()}
    for one in SignUp.objects.filter(task__workday=workday).select_related("person", "task"):
        people[one.person_id] = (one.person, one.task.name)
    rows = [
        SheetRow(person, task, done[pk].minutes if pk in done else None)
        for pk, (person, task) in people.items()
    ]
    return sorted(rows, key=lambda row: (row.person.name.casefold(), row.person.pk))


def guests_at(workday: Workday) -> QuerySet[HoursDone]:
    return workday.hours_done.filter(removed_at=None, person=None).order_by("pk")


def known_people(garden: Garden) -> Sequence[Known]:
    """Everybody who may be typed into a sheet by name."""
    people = User.objects.active_in(garden)
    return [Known(*row) for row in people.order_by("name", "pk").values_list("pk", "name", "sign_in_name")]
