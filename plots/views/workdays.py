"""Workdays: the list, one of them, its form, signing up, and typing in who came."""

from __future__ import annotations

from datetime import date

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.workdays import PersonForm, SheetForm, TaskForms, WorkdayForm
from plots.listing import Column, Filter, Listing
from plots.models import Garden, Held, SignUp, User, Workday, WorkTask
from plots.powers import Power
from plots.views.answers import form_page, list_page, page_with_form, typed
from plots.wording.hours import hours_text


def _listing(today: date) -> Listing[Workday]:
    when = [("ahead", _("still to come")), ("past", _("past"))]
    return Listing(
        columns=[
            Column("name", gettext_lazy("Workday"), lambda one: one.name),
            Column("day", gettext_lazy("Day"), lambda one: one.on),
            Column("rain", gettext_lazy("Rain date"), lambda one: one.rain_day),
            Column("coming", gettext_lazy("Signed up"), lambda one: one.coming),
            Column("came", gettext_lazy("Came"), lambda one: one.came),
            Column("held", gettext_lazy("Takes place"), lambda one: one.get_held_display()),
        ],
        filters=[
            Filter(
                "when", gettext_lazy("When"), when, lambda one, word: (one.on >= today) == (word == "ahead")
            )
        ],
        text=lambda one: f"{one.name} {one.place} {one.note}",
        page_size=50,
    )


@require_safe
def workdays(request: HttpRequest, slug: str) -> HttpResponse:
    """Those to come, the next one first, then the past ones, the last one first."""
    garden = access.garden_to_see(request.user, slug)
    today = garden.today()
    rows = list(queries.workdays_of(garden))
    ahead = sorted((one for one in rows if one.on >= today), key=lambda one: one.on)
    past = sorted((one for one in rows if one.on < today), key=lambda one: one.on, reverse=True)
    context = {
        "may_run": access.may_run(request.user, garden, Power.WORKDAYS),
        "today": today,
        "own": set(
            SignUp.objects.filter(person=request.user, task__garden=garden).values_list(
                "task__workday", flat=True
            )
        ),
    }
    return list_page(
        request, "plots/workdays.html", _listing(today), [*ahead, *past], garden=garden, **context
    )


@require_safe
def workday(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    workday = get_object_or_404(garden.workdays, pk=pk)
    may_run = access.may_run(request.user, garden, Power.WORKDAYS)
    rows = queries.sheet_rows(workday) if may_run else []
    context = {
        "garden": garden,
        "workday": workday,
        "tasks": queries.tasks_of(workday),
        "may_run": may_run,
        "is_over": workday.on < garden.today(),
        "is_ahead": workday.on > garden.today(),
        "own_task": SignUp.objects.filter(person=request.user, task__workday=workday)
        .values_list("task", flat=True)
        .first(),
        "came": [row for row in rows if row.minutes],
        "guests": list(queries.guests_at(workday)) if may_run else [],
        "put": PersonForm(garden, workday) if may_run else None,
        "changes": queries.changes_of(garden, workday) if may_run else [],
    }
    return render(request, "plots/workday.html", context)


@page_with_form
def workday_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    return _workday_form(request, garden, Workday(garden=garden))


@page_with_form
def workday_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    return _workday_form(request, garden, get_object_or_404(garden.workdays, pk=pk))


def _workday_form(request: HttpRequest, garden: Garden, workday: Workday) -> HttpResponse:
    form = WorkdayForm(typed(request), instance=workday)
    tasks = TaskForms(typed(request), instance=workday, prefix="tasks")
    # Both are asked, so that everything wrong is said at once.
    if form.is_bound and all([form.is_valid(), tasks.is_valid()]):
        kept = tasks.save(commit=False)
        service.keep_workday(
            workday=form.save(commit=False), tasks=kept, dropped=tasks.deleted_objects, by=request.user
        )
        messages.success(request, _("The workday is kept."))
        return redirect("plots:workday", garden.slug, workday.pk)
    is_wrong = form.is_bound
    context = {"garden": garden, "form": form, "tasks": tasks, "workday": workday}
    return render(request, "plots/workday_edit.html", context, status=422 if is_wrong else 200)


@require_POST
def workday_hold(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Moves it to the rain date, calls it off, or puts it back on its day."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    workday = get_object_or_404(garden.workdays, pk=pk)
    asked = request.POST.get("held", "")
    if asked in Held.values:
        try:
            service.hold_workday(workday=workday, held=Held(asked), by=request.user)
        except ValidationError as error:
            messages.error(request, error.messages[0])
        else:
            messages.success(request, _("Calendars that follow the garden's dates will take this over."))
    return redirect("plots:workday", slug, pk)


@require_POST
def task_join(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Signs up for a task or make-up job; who runs workdays may put another member down."""
    garden, task, person = _who_and_what(request, slug, pk)
    try:
        service.sign_up(task=task, person=person, by=request.user)
    except ValidationError as error:
        messages.error(request, error.messages[0])
    else:
        words = {"person": person, "task": task}
        undo = reverse("plots:task_leave", args=[slug, task.pk]) if person == request.user else ""
        messages.success(request, _("%(person)s is down for “%(task)s”.") % words, extra_tags=undo)
    return _back(garden, task)


@require_POST
def task_leave(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden, task, person = _who_and_what(request, slug, pk)
    service.withdraw(task=task, person=person)
    words = {"person": person, "task": task}
    messages.success(request, _("%(person)s is no longer down for “%(task)s”.") % words)
    return _back(garden, task)


def _who_and_what(request: HttpRequest, slug: str, pk: int) -> tuple[Garden, WorkTask, User]:
    garden = access.garden_to_see(request.user, slug)
    asked = request.POST.get("person", "")
    if asked and asked != str(request.user.pk):
        access.garden_to_run(request.user, slug, Power.WORKDAYS)
    # The form of a workday names the task, too: there it is chosen from a list.
    chosen = request.POST.get("task", "")
    task = get_object_or_404(garden.work_tasks, pk=int(chosen) if chosen.isdecimal() else pk)
    people = User.objects.filter(memberships__garden=garden)
    person = get_object_or_404(people, pk=int(asked) if asked.isdecimal() else request.user.pk)
    return garden, task, person


def _back(garden: Garden, task: WorkTask) -> HttpResponse:
    if task.workday_id is None:
        return redirect("plots:make_up_jobs", garden.slug)
    return redirect("plots:workday", garden.slug, task.workday_id)


@page_with_form
def workday_sheet(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Types the sign-in sheet in; wrong lines are named, and nothing is kept until all can be read."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    workday = get_object_or_404(garden.workdays, pk=pk)
    guests = list(queries.guests_at(workday))
    form = SheetForm(
        queries.sheet_rows(workday),
        queries.known_people(garden),
        [row.guest for row in guests],
        workday.minutes,
        *([request.POST] if request.method == "POST" else []),
    )
    if form.is_bound and form.is_valid():
        try:
            service.type_sheet(workday=workday, minutes=form.minutes, others=form.came, by=request.user)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _typed_in(workday))
            return redirect("plots:workday", slug, pk)
    return form_page(request, "plots/workday_sheet.html", form, garden=garden, workday=workday, guests=guests)


def _typed_in(workday: Workday) -> str:
    minutes = list(workday.hours_done.filter(removed_at=None).values_list("minutes", flat=True))
    return ngettext(
        "%(count)d person came, %(hours)s in all.", "%(count)d people came, %(hours)s in all.", len(minutes)
    ) % {"count": len(minutes), "hours": hours_text(sum(minutes))}
