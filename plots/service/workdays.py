"""Workdays: planning and moving them, who signs up, and typing in who came."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.models import Change, Garden, Held, HoursDone, SignUp, User, Workday, WorkTask
from plots.powers import Power
from plots.service.history import record, save_changes
from plots.service.undo import put_back, thing_of, undoable
from plots.sign_in_sheet import Came, plain


@undoable("workday-changed", "workday-moved", power=Power.WORKDAYS)
def _as_before(change: Change, by: User) -> None:
    put_back(change, by)
    _touch(change.about_pk)


def _touch(pk: int) -> None:
    """Calendars on phones take over what is newer than what they have."""
    Workday.objects.filter(pk=pk).update(changed_at=timezone.now())


@transaction.atomic
def keep_workday(
    *, workday: Workday, tasks: Iterable[WorkTask] = (), dropped: Iterable[WorkTask] = (), by: User
) -> Workday:
    """Saves a workday and its tasks; one without any gets a task for everybody who comes."""
    if workday.pk is None:
        workday.save()
        record(garden=workday.garden, by=by, about=workday, what="workday-made", after={"day": workday.day})
    elif save_changes(garden=workday.garden, by=by, row=workday, what="workday-changed"):
        _touch(workday.pk)
    for task in tasks:
        task.garden, task.workday = workday.garden, workday
        task.save()
    for task in dropped:
        task.delete()
    if not workday.tasks.exists():
        WorkTask.objects.create(garden=workday.garden, workday=workday, name=_("whatever is to be done"))
    return workday


@transaction.atomic
def hold_workday(*, workday: Workday, held: Held, by: User, why: str = "") -> None:
    """Moves a workday to its rain date, calls it off, or puts it back on its day."""
    current = Workday.objects.select_for_update().select_related("garden").get(pk=workday.pk)
    if current.held == held:
        return
    if held == Held.RAIN and current.rain_day is None:
        raise ValidationError(_("It has no rain date."))
    before = current.held
    current.held, current.changed_at = held, timezone.now()
    current.save(update_fields=["held", "changed_at"])
    record(
        garden=current.garden, by=by, about=current, what="workday-moved",
        before={"held": before}, after={"held": held.value}, why=why,
    )  # fmt: skip


@transaction.atomic
def sign_up(*, task: WorkTask, person: User, by: User, today: date | None = None) -> SignUp:
    """Puts the person down for the task, and off any other task of that workday; refused when it is full.

    `today` is the garden's own unless it is given.
    """
    # Locking the garden makes two who want the last place wait for each other.
    garden = Garden.objects.select_for_update().get(pk=task.garden_id)
    task = WorkTask.objects.select_related("workday").get(pk=task.pk)
    _keep_open(task, today or garden.today())
    if not garden.memberships.filter(user=person, user__is_active=True).exists():
        raise ValidationError(_("%(person)s is not a member here.") % {"person": person})
    if task.workday_id is not None:
        others = SignUp.objects.filter(task__workday=task.workday_id, person=person)
        others.exclude(task=task).delete()
    elif task.hours_done.filter(person=person, removed_at=None).exists():
        raise ValidationError(_("%(person)s has done this already.") % {"person": person})
    found = task.sign_ups.filter(person=person).first()
    if found is not None:
        return found
    if task.places is not None and task.sign_ups.count() >= task.places:
        raise ValidationError(_("“%(task)s” has all the people it needs.") % {"task": task})
    return SignUp.objects.create(task=task, person=person, made_by=by)


def _keep_open(task: WorkTask, today: date) -> None:
    workday = task.workday
    if task.removed_at is not None or (workday is not None and workday.is_off):
        raise ValidationError(_("“%(task)s” has been called off.") % {"task": task})
    if workday is not None and workday.on < today:
        raise ValidationError(_("This workday is over."))


def withdraw(*, task: WorkTask, person: User) -> None:
    """Takes the person off the task; twice changes nothing."""
    SignUp.objects.filter(task=task, person=person).delete()


@transaction.atomic
def type_sheet(
    *, workday: Workday, minutes: Mapping[int, int | None], others: Iterable[Came] = (), by: User
) -> None:
    """Keeps who came and for how long: `minutes` by person, `None` for who did not; and further lines.

    What was typed before and differs is removed and kept; typed in twice, a sheet counts once.
    """
    workday = Workday.objects.select_for_update(of=("self",)).select_related("garden").get(pk=workday.pk)
    if workday.on > workday.garden.today():
        raise ValidationError(_("This workday is still to come."))
    rows = list(workday.hours_done.select_for_update().filter(removed_at=None))
    former = {row.person_id: row for row in rows if row.person_id is not None}
    guests = {plain(row.guest) for row in rows if row.person_id is None}
    others = list(others)
    wanted = {**minutes, **{one.person: one.minutes for one in others if one.person is not None}}
    tasks = dict(SignUp.objects.filter(task__workday=workday).values_list("person", "task"))
    for person, time in wanted.items():
        row = former.get(person)
        if row is not None and row.minutes != time:
            _remove(row, by)
        if time is not None and (row is None or row.minutes != time):
            _add(workday, by, person_id=person, minutes=time, task_id=tasks.get(person))
    for one in others:
        if one.person is None and plain(one.guest) not in guests:
            _add(workday, by, guest=one.guest, minutes=one.minutes)


def _add(workday: Workday, by: User, **values: object) -> HoursDone:
    return HoursDone.objects.create(
        garden_id=workday.garden_id, workday=workday, day=workday.on, made_by=by, **values
    )


def _remove(row: HoursDone, by: User) -> None:
    row.removed_by, row.removed_at = by, timezone.now()
    row.save(update_fields=["removed_by", "removed_at"])


@transaction.atomic
def keep_make_up_job(*, job: WorkTask, by: User) -> WorkTask:
    """Saves a make-up job."""
    if job.pk is not None:
        save_changes(garden=job.garden, by=by, row=job, what="make-up-job-changed")
        return job
    job.save()
    record(garden=job.garden, by=by, about=job, what="make-up-job-made", after={"due_on": job.due_on})
    return job


undoable("make-up-job-changed", power=Power.WORKDAYS)(put_back)


@transaction.atomic
def close_make_up_job(*, job: WorkTask, by: User) -> None:
    """Takes a make-up job off the list; what was done of it stays."""
    if WorkTask.objects.filter(pk=job.pk, removed_at=None).update(removed_at=timezone.now()):
        record(garden=job.garden, by=by, about=job, what="make-up-job-closed")


@undoable("make-up-job-closed", power=Power.WORKDAYS)
def _open_again(change: Change, by: User) -> None:
    job = thing_of(change)
    job.removed_at = None
    job.save(update_fields=["removed_at"])


def finish_make_up_job(*, job: WorkTask, person: User, by: User) -> HoursDone:
    """Counts the job's hours for somebody who took it and did it."""
    try:
        with transaction.atomic():
            if not job.sign_ups.filter(person=person).exists():
                raise ValidationError(_("%(person)s did not take this job.") % {"person": person})
            return HoursDone.objects.create(
                garden_id=job.garden_id, person=person, task=job, minutes=job.minutes,
                day=job.garden.today(), what=job.name, made_by=by,
            )  # fmt: skip
    except IntegrityError:
        raise ValidationError(_("%(person)s has done this already.") % {"person": person}) from None
