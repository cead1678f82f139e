"""Make-up jobs: work for whoever missed the workdays, taken when it suits."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from plots import access, queries, service
from plots.forms.workdays import MakeUpJobForm
from plots.models import Garden, User, WorkTask
from plots.powers import Power
from plots.views.answers import form_page, saved, typed
from plots.wording.hours import hours_text

page_with_form = require_http_methods(["GET", "HEAD", "POST"])


@require_safe
def make_up_jobs(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    context = {
        "garden": garden,
        "jobs": queries.make_up_jobs(garden),
        "may_run": access.may_run(request.user, garden, Power.WORKDAYS),
    }
    return render(request, "plots/make_up_jobs.html", context)


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
