"""Choosing with open eyes: what nerve costs, a crop's chance of success, and what still fits."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Any

from django.contrib import messages
from django.forms import Form
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from crops.models import Crop
from crops.queries import crops_for, varieties_for
from crops.wording.names import crop_label
from plots.access import garden_to_see, may_plan, may_run, own_plots, visible_plots
from plots.models import Garden
from plots.powers import Power
from plots.views.answers import form_page, page_with_form, typed
from schedules.forms.choosing import ChanceForm, NerveForm, RoomForm
from schedules.service import GardenDates, usual_year
from schedules.service.choosing import (
    chances_in_plot,
    choose_nerve,
    crops_that_fit,
    nerve_at,
    nerve_of_own,
    seasons_of_chances,
)
from schedules.views.asked import asked_year
from schedules.views.shifts import kept_or_shown
from schedules.wording import choosing as words
from schedules.wording.climate import climate_source_text


@page_with_form
def nerve(request: HttpRequest, slug: str) -> HttpResponse:
    """How much frost risk a member accepts, and what each choice costs and saves in their plots."""
    garden = garden_to_see(request.user, slug)
    membership = garden.memberships.select_related("user", "garden").get(user=request.user)
    dates = GardenDates.of(garden)
    unset = words.as_garden(None if dates is None else dates.choice_of_garden().nerve)
    form = NerveForm(typed(request), unset=unset, initial={"nerve": membership.nerve})
    preview = None
    if form.is_bound and form.is_valid():
        asked = form.cleaned_data["nerve"]
        keep = partial(choose_nerve, membership=membership, nerve=asked, by=request.user)
        preview = kept_or_shown(request, garden, keep)
        if preview is None:
            messages.success(request, _("Kept. Your dates follow it."))
            return redirect("schedules:nerve", slug)
    year = asked_year(request, usual_year(garden, own_plots(request.user, garden)))
    context = {**_shown(request, garden, dates), "year": year, "preview": preview}
    context["plantings"] = [] if dates is None else nerve_of_own(request.user, garden, dates, year)
    return form_page(request, "schedules/nerve.html", form, **context)


@require_safe
def fits(request: HttpRequest, slug: str) -> HttpResponse:
    """The crops that still make a harvest from a day on; htmx asks again for another day."""
    garden = garden_to_see(request.user, slug)
    dates = GardenDates.of(garden)
    form = RoomForm(
        _asked(request, garden.today()),
        garden=garden,
        plots=visible_plots(request.user, garden),
        unset=_("as chosen here"),
    )
    context = {**_shown(request, garden, dates), "form": form}
    if dates is not None and form.is_valid():
        plot = form.cleaned_data["plot"]
        chosen = nerve_at(dates, plot, form.cleaned_data["nerve"])
        room, covered = form.room(), form.cleaned_data["covered"]
        found = crops_that_fit(garden, dates, room, nerve=chosen.nerve, covered=covered)
        context |= {
            "room": room,
            "chosen": chosen,
            "plan_of": plot if plot is not None and may_plan(request.user, plot) else None,
            "now": [one for one in found if not one.fits.best.waits(room.day)],
            "later": [one for one in found if one.fits.best.waits(room.day)],
        }
    return _answered(request, "schedules/_fits.html", "schedules/fits.html", context)


@require_safe
def chance(request: HttpRequest, slug: str, crop: str) -> HttpResponse:
    """How likely a crop is to ripen before a freeze kills it, by the day on which it is begun."""
    garden = garden_to_see(request.user, slug)
    found = get_object_or_404(crops_for(garden), slug=crop)
    dates = GardenDates.of(garden)
    form = ChanceForm(
        _asked(request, garden.today()),
        varieties=varieties_for(garden).filter(crop=found),
        plots=visible_plots(request.user, garden),
    )
    context = {**_shown(request, garden, dates), "form": form, "crop": found, "name": crop_label(found, None)}
    if dates is not None and form.is_valid():
        context |= _chances(found, dates, form)
    return _answered(request, "schedules/_chance.html", "schedules/chance.html", context)


def _chances(crop: Crop, dates: GardenDates, form: Form) -> dict[str, Any]:
    asked = form.cleaned_data
    facts, plot, day = dates.facts_of(crop, asked["variety"]), asked["plot"], asked["day"]
    chosen = nerve_at(dates, plot, "")
    seasons = seasons_of_chances(facts, dates, day, nerve=chosen.nerve, covered=asked["covered"])
    return {
        "name": crop_label(crop, asked["variety"]),
        "day": day,
        "plot": plot,
        "chosen": chosen,
        "planned": [] if plot is None else chances_in_plot(plot, crop, day, dates),
        "seasons": [
            (one, words.chart_of_chances(one.quick, one.slow, one.start, asked["day"])) for one in seasons
        ],
    }


def _asked(request: HttpRequest, today: date) -> QueryDict:
    """What the address asks; of today, where it names no day."""
    asked = request.GET.copy()
    asked.setdefault("day", today.isoformat())
    return asked


def _shown(request: HttpRequest, garden: Garden, dates: GardenDates | None) -> dict[str, Any]:
    return {
        "garden": garden,
        "dates": dates,
        "may_run": may_run(request.user, garden, Power.SETTINGS),
        "source": climate_source_text(garden),
        "cover": words.cover_text(garden),
    }


def _answered(request: HttpRequest, part: str, page: str, context: dict[str, Any]) -> HttpResponse:
    """The page, or its part that htmx asks for; 422 where the question cannot be answered."""
    status = 422 if context["form"].errors else 200
    return render(request, part if request.htmx else page, context, status=status)
