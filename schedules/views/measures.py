"""How this garden measures: what hoses give, what a can holds, what a bunch weighs."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots.access import garden_to_run, garden_to_see, may_run
from plots.models import Garden
from plots.powers import Power
from plots.views.answers import form_page, page_with_form, typed
from schedules.forms.measures import BunchForm, CanForm, HoseForm
from schedules.models import BunchWeight, HoseFlow
from schedules.service.measures import (
    can_litres,
    keep_can,
    measure_bunch,
    measure_hose,
    remove_measure,
    restore_measure,
)

_KINDS = {"hose": HoseFlow, "bunch": BunchWeight}


@require_safe
def measures(request: HttpRequest, slug: str) -> HttpResponse:
    garden = garden_to_see(request.user, slug)
    context = {
        "garden": garden,
        "hoses": HoseFlow.objects.standing().filter(garden=garden).select_related("measured_by"),
        "bunches": BunchWeight.objects.standing().filter(garden=garden).select_related("crop", "measured_by"),
        "can_litres": can_litres(garden),
        "can_known": hasattr(garden, "watering_can"),
        "may_run": may_run(request.user, garden, Power.SETTINGS),
    }
    return render(request, "schedules/measures.html", context)


@page_with_form
def measure_hose_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = HoseForm(typed(request), garden=garden, initial={"name": request.GET.get("name", "")})
    if form.is_bound and form.is_valid():
        measure_hose(garden=garden, by=request.user, **form.cleaned_data)
        return _kept(request, garden)
    return _page(request, form, garden, title=_("Measure a hose"), kind="hose")


@page_with_form
def measure_bunch_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = BunchForm(typed(request), garden=garden, initial={"crop": request.GET.get("crop", "")})
    if form.is_bound and form.is_valid():
        told = {name: form.cleaned_data[name] for name in ("crop", "bunches", "grams", "measured_on")}
        measure_bunch(garden=garden, by=request.user, **told)
        return _kept(request, garden)
    return _page(request, form, garden, title=_("Weigh bunches"), kind="bunch")


@page_with_form
def measure_can(request: HttpRequest, slug: str) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = CanForm(typed(request), garden=garden, initial={"litres": can_litres(garden)})
    if form.is_bound and form.is_valid():
        keep_can(garden=garden, by=request.user, litres=form.cleaned_data["litres"])
        return _kept(request, garden)
    return _page(request, form, garden, title=_("The watering can"), kind="can")


@require_POST
def measure_remove(request: HttpRequest, slug: str, kind: str, pk: int) -> HttpResponse:
    """Takes a measurement off the list; what was logged with it stays as it was worked out."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    row = _measured(garden, kind, pk)
    remove_measure(row=row, by=request.user)
    undo = reverse("schedules:measure_restore", args=[slug, kind, pk])
    messages.success(request, _("%(what)s is off the list.") % {"what": row}, extra_tags=undo)
    return redirect("schedules:measures", slug)


@require_POST
def measure_restore(request: HttpRequest, slug: str, kind: str, pk: int) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    row = _measured(garden, kind, pk)
    try:
        restore_measure(row=row, by=request.user)
    except ValidationError as refusal:
        messages.error(request, refusal.messages[0])
    else:
        messages.success(request, _("%(what)s is back.") % {"what": row})
    return redirect("schedules:measures", slug)


def _measured(garden: Garden, kind: str, pk: int) -> HoseFlow | BunchWeight:
    if kind not in _KINDS:
        raise Http404
    return get_object_or_404(_KINDS[kind], garden=garden, pk=pk)


def _kept(request: HttpRequest, garden: Garden) -> HttpResponse:
    messages.success(request, _("Kept."))
    return redirect("schedules:measures", garden.slug)


def _page(request: HttpRequest, form: Any, garden: Garden, **context: object) -> HttpResponse:
    return form_page(request, "schedules/measure.html", form, garden=garden, **context)
