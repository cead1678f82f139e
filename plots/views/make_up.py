"""Make-up jobs: work for whoever missed the workdays, taken when it suits."""

from __future__ import annotations

from functools import partial
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.workdays import MakeUpJobForm
from plots.listing import Column, Filter, Listing
from plots.models import Garden, User, WorkTask
from plots.powers import Power
from plots.views.answers import form_page, list_page, page_with_form, saved, typed
from plots.wording.hours import hours_text, typed_hours

WAITS, FULL, BEGUN = "waits", "full", "begun"


def _is(job: WorkTask, word: str) -> bool:
    if word == BEGUN:
        return bool(job.waiting)
    return (job.free == 0) == (word == FULL)


def _names(people: list[Any]) -> str:
    return ", ".join(str(one.person) for one in people)


JOBS: Listing[WorkTask] = Listing(
    columns=[
        Column("job", gettext_lazy("Make-up job"), lambda job: job.name),
        Column("place", gettext_lazy("Where"), lambda job: job.place),
        Column(
            "hours",
            gettext_lazy("Hours"),
            lambda job: typed_hours(job.minutes),
            order=lambda job: job.minutes,
        ),
        Column("due_on", gettext_lazy("To be done by"), lambda job: job.due_on),
        Column("free", gettext_lazy("People still needed"), lambda job: job.free),
        Column("taken", gettext_lazy("Taken by"), lambda job: _names(job.waiting), on_page=False),
        Column("done", gettext_lazy("Done by"), lambda job: _names(job.done), on_page=False),
        Column("note", gettext_lazy("Note"), lambda job: job.note, on_page=False),
    ],
    filters=[
        Filter(
            "state",
            gettext_lazy("State"),
            [
                (WAITS, gettext_lazy("can be taken")),
                (BEGUN, gettext_lazy("taken, not done yet")),
                (FULL, gettext_lazy("enough people")),
            ],
            _is,
        )
    ],
    text=lambda job: f"{job.name} {job.place} {job.note} {_names(job.waiting)}",
    page_size=50,
)


@require_safe
def make_up_jobs(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    may_run = access.may_run(request.user, garden, Power.WORKDAYS)
    jobs = queries.make_up_jobs(garden)
    return list_page(request, "plots/make_up_jobs.html", JOBS, jobs, garden=garden, may_run=may_run)


@page_with_form
def make_up_job_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    return _form(request, garden, WorkTask(garden=garden))


@page_with_form
def make_up_job_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    return _form(request, garden, _job(garden, pk))


def _form(request: HttpRequest, garden: Garden, job: WorkTask) -> HttpResponse:
    form = MakeUpJobForm(typed(request), instance=job)
    keep = partial(service.keep_make_up_job, job=job, by=request.user)
    if form.is_bound and form.is_valid() and saved(form, keep):
        messages.success(request, _("The make-up job is kept."))
        return redirect("plots:make_up_jobs", garden.slug)
    changes = queries.changes_of(garden, job) if job.pk else []
    context = {"garden": garden, "job": job, "changes": changes, "may_run": True}
    return form_page(request, "plots/make_up_job_edit.html", form, **context)


@require_POST
def make_up_job_close(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Takes it off the list; what was done of it stays."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    job = _job(garden, pk)
    service.close_make_up_job(job=job, by=request.user)
    messages.success(request, _("“%(job)s” is off the list; the hours done stay.") % {"job": job})
    return redirect("plots:make_up_jobs", slug)


@require_POST
def make_up_job_done(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Counts its hours for somebody who took it."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    job = _job(garden, pk)
    asked = request.POST.get("person", "")
    people = User.objects.filter(memberships__garden=garden)
    person = people.filter(pk=int(asked) if asked.isdecimal() else 0).first()
    try:
        if person is None:
            raise ValidationError(_("Say who did the job."))
        service.finish_make_up_job(job=job, person=person, by=request.user)
    except ValidationError as error:
        messages.error(request, error.messages[0])
    else:
        words = {"person": person, "hours": hours_text(job.minutes)}
        messages.success(request, _("%(hours)s are counted for %(person)s.") % words)
    return redirect("plots:make_up_jobs", slug)


def _job(garden: Garden, pk: int) -> WorkTask:
    return get_object_or_404(garden.work_tasks, pk=pk, workday=None, removed_at=None)
