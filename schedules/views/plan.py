"""A plot's plan: what grows there, when, and why; choosing, changing and removing."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from crops.models import Crop, Planting
from crops.queries import crops_for, varieties_for
from crops.service import add_planting, remove_planting, restore_planting
from crops.wording.names import crop_label
from plots.access import garden_to_see, may_plan, may_run, plot_to_plan, plot_to_see
from plots.htmx import part_or_page
from plots.models import Plot
from plots.powers import Power
from plots.views.answers import form_page, page_with_form, typed
from schedules.access import planting_to_plan, planting_to_see, removed_to_restore
from schedules.forms.plan import PlantingForm
from schedules.nerve import NERVES
from schedules.queries.shifts import told_before
from schedules.service import (
    GardenDates,
    Offer,
    PlantingDates,
    crops_dates,
    offer,
    plot_season,
    usual_year,
)
from schedules.service.choosing import chances_of, nerve_of
from schedules.service.replant import ended
from schedules.service.shifts import change_planned
from schedules.views.asked import asked_year
from schedules.wording.choosing import cover_text
from schedules.wording.climate import climate_source_text

_KEPT_AS_TYPED = ("successions", "row_length_m", "nerve", "covered", "note")


@require_safe
def plan(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """The season of one plot: strip, coming jobs, and the list of what is planted."""
    garden = garden_to_see(request.user, slug)
    plot = plot_to_see(request.user, garden, pk)
    today = garden.today()
    year = asked_year(request, usual_year(garden, [plot]))
    season = plot_season(plot, year, today)
    context = {
        "garden": garden,
        "plot": plot,
        "year": year,
        "season": season,
        "may_plan": may_plan(request.user, plot),
        "may_run": may_run(request.user, garden, Power.SETTINGS),
        "source": climate_source_text(garden),
    }
    return render(request, "schedules/plan.html", context)


@require_safe
def planting_add(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """The crops to choose from, with their dates here."""
    garden = garden_to_see(request.user, slug)
    plot = plot_to_plan(request.user, garden, pk)
    year = asked_year(request, usual_year(garden, [plot]))
    query = request.GET.get("q", "")
    dates = GardenDates.of(garden)
    nerve = None if dates is None else dates.choice(plot).nerve
    context = {
        "garden": garden,
        "plot": plot,
        "year": year,
        "q": query,
        "crops": crops_dates(garden, dates, year, query, nerve=nerve),
    }
    return part_or_page(request, "schedules/_crops_to_choose.html", "schedules/planting_add.html", context)


@page_with_form
def planting_new(request: HttpRequest, slug: str, pk: int, crop: str) -> HttpResponse:
    """One crop for one plot: which variety, when and how."""
    garden = garden_to_see(request.user, slug)
    plot = plot_to_plan(request.user, garden, pk)
    year = asked_year(request, usual_year(garden, [plot]))
    chosen = get_object_or_404(crops_for(garden), slug=crop)
    offered = _offer(request, plot, chosen, year)
    form = PlantingForm(typed(request), offer=offered, units=garden.units, cover=cover_text(garden))
    if form.is_bound and form.is_valid():
        made = {"plot": plot, "crop": chosen, "year": year, "by": request.user, **form.choices_made()}
        if planting := _kept(form, add_planting, **made):
            undo = reverse("schedules:planting_remove", args=[slug, planting.pk])
            text = _("%(crop)s is in the plan.") % {"crop": offered.name}
            messages.success(request, text, extra_tags=undo)
            return _to_plan(planting)
    return _planting_page(request, form, plot=plot, garden=garden)


@page_with_form
def planting_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Another variety, time, way or number for a planting."""
    planting = planting_to_plan(request.user, slug, pk)
    garden = planting.plot.garden
    offered = _offer(request, planting.plot, planting.crop, planting.year, planting)
    initial = {name: getattr(planting, name) for name in _KEPT_AS_TYPED}
    initial["way"] = f"{planting.turn}-{planting.start}"
    units, cover = garden.units, cover_text(garden)
    form = PlantingForm(typed(request), offer=offered, units=units, cover=cover, initial=initial)
    if form.is_bound and form.is_valid():
        changes = {"planting": planting, "by": request.user, **form.choices_made()}
        if changed := _kept(form, change_planned, **changes):
            messages.success(request, _("%(crop)s is changed.") % {"crop": offered.name})
            return redirect("schedules:planting", slug, changed.pk)
    return _planting_page(request, form, plot=planting.plot, garden=garden, planting=planting)


@require_safe
def planting(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Why the dates of a planting are as they are; htmx opens the same beside the plan."""
    found = planting_to_see(request.user, slug, pk)
    garden = found.plot.garden
    dates = GardenDates.of(garden)
    dated = PlantingDates.undated(found) if dates is None else dates.planting(found)
    context = {
        "garden": garden,
        "plot": found.plot,
        "planting": found,
        "dated": dated,
        "dates": dates,
        "source": climate_source_text(garden),
        "lesson": dates and dates.lesson(found),
        "nerve": dates and nerve_of(dated, dates),
        "chances": dates and chances_of(dated, dates),
        "ended": dates and ended(dated, dates, today=garden.today()),
        "told_before": told_before(found),
        "may_plan": may_plan(request.user, found.plot),
        "may_run": may_run(request.user, garden, Power.SETTINGS),
    }
    return part_or_page(request, "schedules/_planting.html", "schedules/planting.html", context)


@require_POST
def planting_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Takes a planting off the plan; the message on the next page puts it back."""
    planting = planting_to_plan(request.user, slug, pk)
    remove_planting(planting, by=request.user)
    text = _("%(crop)s is off the plan.") % {"crop": crop_label(planting.crop, planting.variety)}
    undo = reverse("schedules:planting_restore", args=[slug, planting.pk])
    messages.success(request, text, extra_tags=undo)
    return _to_plan(planting)


@require_POST
def planting_restore(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Puts a removed planting back."""
    planting = removed_to_restore(request.user, slug, pk)
    restore_planting(planting, by=request.user)
    words = {"crop": crop_label(planting.crop, planting.variety)}
    messages.success(request, _("%(crop)s is back in the plan.") % words)
    return _to_plan(planting)


def _offer(
    request: HttpRequest, plot: Plot, crop: Crop, year: int, planting: Planting | None = None
) -> Offer:
    """What can be planted of a crop, at the nerve and under the cover that were typed, or else kept.

    `?variety=` asks for one variety, empty for none.
    """
    garden, variety = plot.garden, planting.variety if planting else None
    asked = request.GET.get("variety")
    if asked is not None:
        known = varieties_for(garden).filter(crop=crop)
        variety = get_object_or_404(known, pk=asked) if asked.isdecimal() else None
    dates = GardenDates.of(garden)
    if dates is None:
        return offer(crop, variety, year, None)
    nerve, covered = (planting.nerve, planting.covered) if planting else ("", False)
    if request.method == "POST":
        nerve, covered = request.POST.get("nerve", ""), "covered" in request.POST
    chosen = dates.choice(plot, planting=nerve if nerve in NERVES else "").nerve
    cover_c = garden.row_cover_c if covered else 0.0
    return offer(crop, variety, year, dates, nerve=chosen, cover_c=cover_c)


def _kept(form: PlantingForm, write: Any, **values: Any) -> Planting | None:
    """What the write gives, or `None` with its refusal on the form."""
    try:
        planting: Planting = write(**values)
    except ValidationError as refusal:
        form.add_error(None, refusal.messages)
        return None
    return planting


def _planting_page(request: HttpRequest, form: PlantingForm, **context: Any) -> HttpResponse:
    """The form with the choice of a variety above it."""
    known = varieties_for(context["garden"]).filter(crop=form.offer.crop)
    return form_page(
        request, "schedules/planting_form.html", form, offer=form.offer, varieties=known, **context
    )


def _to_plan(planting: Planting) -> HttpResponse:
    plan = reverse("schedules:plan", args=[planting.plot.garden.slug, planting.plot_id])
    return redirect(f"{plan}?year={planting.year}")
