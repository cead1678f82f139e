"""Who does what in running the garden, and where its things are."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.people import DutyForm, WhereaboutForm
from plots.models import Duty, Garden, Whereabout
from plots.powers import Power
from plots.views.answers import form_page, list_page, page_with_form, typed
from plots.views.things_list import duties_list, whereabouts_list

Thing = Duty | Whereabout


@require_safe
def duties(request: HttpRequest, slug: str) -> HttpResponse:
    """Who does what: for every member to read."""
    garden = access.garden_to_see(request.user, slug)
    rows = garden.duties.select_related("holder", "deputy")
    may_run = access.may_run(request.user, garden, Power.PEOPLE)
    context = {"may_run": may_run, "changes": queries.removed_from(garden, "duty-removed") if may_run else []}
    return list_page(request, "plots/duties.html", duties_list(), rows, garden=garden, **context)


@require_safe
def whereabouts(request: HttpRequest, slug: str) -> HttpResponse:
    """Where things are: all of it for coordinators and helpers, for members what is meant for them."""
    garden = access.garden_to_see(request.user, slug)
    rows = garden.whereabouts.all()
    if not access.oversees(request.user, garden):
        rows = rows.filter(for_members=True)
    may_run = access.may_run(request.user, garden, Power.SETTINGS)
    removed = queries.removed_from(garden, "whereabout-removed") if may_run else []
    context = {"may_run": may_run, "changes": removed}
    return list_page(request, "plots/whereabouts.html", whereabouts_list(), rows, garden=garden, **context)


@page_with_form
def duty_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    return _page(request, garden, DutyForm(typed(request), instance=Duty(garden=garden)))


@page_with_form
def duty_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    return _page(request, garden, DutyForm(typed(request), instance=get_object_or_404(garden.duties, pk=pk)))


@require_POST
def duty_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    return _removed(request, garden, get_object_or_404(garden.duties, pk=pk))


@page_with_form
def whereabout_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    return _page(request, garden, WhereaboutForm(typed(request), instance=Whereabout(garden=garden)))


@page_with_form
def whereabout_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    thing = get_object_or_404(garden.whereabouts, pk=pk)
    return _page(request, garden, WhereaboutForm(typed(request), instance=thing))


@require_POST
def whereabout_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    return _removed(request, garden, get_object_or_404(garden.whereabouts, pk=pk))


def _page(request: HttpRequest, garden: Garden, form: DutyForm | WhereaboutForm) -> HttpResponse:
    kind = form.instance._meta.model_name
    if form.is_bound and form.is_valid():
        try:
            service.keep_thing(garden=garden, thing=form.save(commit=False), by=request.user, what=kind)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            return redirect(_list_of(form.instance), garden.slug)
    context = {"garden": garden, "thing": form.instance, "may_run": True}
    context["changes"] = queries.changes_of(garden, form.instance) if form.instance.pk else []
    return form_page(request, f"plots/{kind}_edit.html", form, **context)


def _removed(request: HttpRequest, garden: Garden, thing: Thing) -> HttpResponse:
    where, name = _list_of(thing), str(thing)
    service.remove_thing(garden=garden, thing=thing, by=request.user, what=thing._meta.model_name)
    messages.success(request, _("“%(thing)s” is off the list.") % {"thing": name})
    return redirect(where, garden.slug)


def _list_of(thing: Thing) -> str:
    return "plots:duties" if isinstance(thing, Duty) else "plots:whereabouts"
