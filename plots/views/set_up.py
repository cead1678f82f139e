"""Setting a new garden up, step by step; each step may be skipped and taken up again.

The step of the frost dates is a page of `schedules`, which keeps them.
"""

from __future__ import annotations

from django.db.models import Model
from django.forms import ModelForm
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.garden import PlaceForm, SeasonForm, UnitsForm
from plots.models import Garden, Season, SetUp
from plots.set_up import State, Step, step_after
from plots.views.answers import form_page, page_with_form, typed
from plots.wording.rules import rules_in_words
from plots.wording.set_up import address_of, steps_in_words

UNDERWAY = "set_up"  # in the session: of which garden, so that other pages lead back


@require_safe
def set_up(request: HttpRequest, slug: str) -> HttpResponse:
    """All steps, and where to go on."""
    garden = access.garden_to_run(request.user, slug)
    kept = SetUp.objects.filter(garden=garden).first() or SetUp(garden=garden)
    request.session[UNDERWAY] = garden.slug
    steps = steps_in_words(kept)
    following = next((step for step in steps if step.step == kept.next_step()), None)
    context = {"garden": garden, "steps": steps, "next": following}
    return render(request, "plots/set_up.html", context)


@require_POST
def set_up_later(request: HttpRequest, slug: str) -> HttpResponse:
    """Leaves the steps: for now, or with `close` for good."""
    garden = access.garden_to_run(request.user, slug)
    request.session.pop(UNDERWAY, None)
    if "close" in request.POST:
        service.close_set_up(garden=garden)
    return redirect("plots:garden", slug)


def step_page(
    request: HttpRequest, garden: Garden, step: Step, room: str = "plots", **context: object
) -> HttpResponse:
    """A step without a form of its own: pressing a button marks it and leads on."""
    if request.method == "POST":
        return mark_and_go_on(request, garden, step)
    request.session[UNDERWAY] = garden.slug
    return render(request, f"{room}/set_up_{step}.html", {"garden": garden, "step": step, **context})


def mark_and_go_on(request: HttpRequest, garden: Garden, step: Step) -> HttpResponse:
    state = State.SKIPPED if "skip" in request.POST else State.DONE
    kept = service.mark_step(garden=garden, step=step, state=state)
    following = step_after(step, kept.done, kept.skipped)
    if following is None:
        return redirect("plots:set_up", garden.slug)
    return redirect(address_of(following), garden.slug)


def _form_step(
    request: HttpRequest, garden: Garden, step: Step, kind: type[ModelForm], row: Model, what: str
) -> HttpResponse:
    """A step with a form: skipping keeps nothing of what was typed."""
    if request.method == "POST" and "skip" in request.POST:
        return mark_and_go_on(request, garden, step)
    form = kind(typed(request), instance=row)
    if form.is_bound and form.is_valid():
        service.save_changes(garden=garden, by=request.user, row=form.save(commit=False), what=what)
        return mark_and_go_on(request, garden, step)
    request.session[UNDERWAY] = garden.slug
    return form_page(request, f"plots/set_up_{step}.html", form, garden=garden, step=step)


@page_with_form
def place(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    row = Garden.objects.get(pk=garden.pk)
    return _form_step(request, garden, Step.PLACE, PlaceForm, row, "settings-changed")


@page_with_form
def units(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    row = Garden.objects.get(pk=garden.pk)
    return _form_step(request, garden, Step.UNITS, UnitsForm, row, "settings-changed")


@page_with_form
def plots(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    count = garden.plots.filter(retired_on__isnull=True).count()
    return step_page(request, garden, Step.PLOTS, plot_count=count)


@page_with_form
def season(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    row = queries.season_now(garden)
    if row is None:
        return step_page(request, garden, Step.SEASON, form=None)
    return _form_step(
        request, garden, Step.SEASON, SeasonForm, Season.objects.get(pk=row.pk), "season-changed"
    )


@page_with_form
def rules(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    return step_page(request, garden, Step.RULES, blocks=rules_in_words(garden.rules))
