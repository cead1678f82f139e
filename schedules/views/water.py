"""Water: what each plot is owed, why, and the rain gauge."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots.access import garden_to_see, may_run, plot_to_see, visible_plots
from plots.listing import Column, Filter, Listing
from plots.models import Garden
from plots.powers import Power
from plots.views.answers import form_page, list_page, page_with_form, typed
from schedules.access import rain_to_remove
from schedules.forms.water import RainForm
from schedules.service import GardenDates
from schedules.service.measures import area_of, can_litres
from schedules.service.rain import keep_rain, remove_rain
from schedules.service.water import PlotWater, plot_water, plots_water
from schedules.water import Basis
from schedules.wording.water import carried_text, owed_text

_READINGS = 60


@require_safe
def water(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """What one plot is owed this week: in depth, volume, cans and minutes, and why."""
    garden = garden_to_see(request.user, slug)
    plot = plot_to_see(request.user, garden, pk)
    plot.garden = garden
    context = {
        "garden": garden,
        "plot": plot,
        "water": plot_water(plot, today=garden.today()),
        "hoses": garden.hose_flows.standing(),
        "can_litres": can_litres(garden),
        "can_measured": hasattr(garden, "watering_can"),
    }
    return render(request, "schedules/water.html", context)


def _listing(garden: Garden) -> Listing[PlotWater]:
    states = [("owed", _("owed water")), ("enough", _("has enough")), ("bare", _("nothing grows"))]
    return Listing(
        columns=[
            Column("plot", _("Plot"), lambda one: one.plot.label),
            Column("owed", _("Owed"), lambda one: _owed(one, garden), order=lambda one: one.owed_mm),
            Column("mm", _("Owed, mm"), lambda one: round(one.owed_mm, 1), on_page=False),
            Column("litres", _("Owed, litres"), _litres, on_page=False),
            Column("by", _("By"), lambda one: one.by, on_page=False),
            Column("poured", _("Poured in seven days"), lambda one: _poured(one, garden)),
            Column("basis", _("Reckoned by"), _basis, on_page=False),
        ],
        filters=[Filter("state", _("State"), states, lambda one, word: _state(one) == word)],
        text=lambda one: one.plot.label,
    )


def _owed(one: PlotWater, garden: Garden) -> str:
    return owed_text(one.owed_mm, one.litres, one.by, garden.units) if one.owed_mm else ""


def _poured(one: PlotWater, garden: Garden) -> str:
    area = area_of(one.plot)
    return carried_text(one.poured_mm * area, garden.units) if one.poured_mm and area else ""


def _litres(one: PlotWater) -> float | None:
    return None if one.litres is None else round(one.litres, 1)


def _basis(one: PlotWater) -> str:
    return _("weather") if one.basis is Basis.WEATHER else _("common practice")


def _state(one: PlotWater) -> str:
    return "owed" if one.owed_mm else "enough" if one.growing else "bare"


@require_safe
def waters(request: HttpRequest, slug: str) -> HttpResponse:
    """What each plot that the person sees is owed."""
    garden = garden_to_see(request.user, slug)
    plots = list(visible_plots(request.user, garden).filter(retired_on__isnull=True))
    rows = plots_water(garden, plots, dates=GardenDates.of(garden), today=garden.today())
    litres = sum(one.litres or 0.0 for one in rows)
    basis = rows[0].basis if rows else Basis.PRACTICE
    return list_page(
        request, "schedules/waters.html", _listing(garden), rows,
        garden=garden, litres=litres, basis=basis, off_since=rows[0].off_since if rows else None,
    )  # fmt: skip


@page_with_form
def rain(request: HttpRequest, slug: str) -> HttpResponse:
    """The rain gauge: type what it holds, and see what it held."""
    garden = garden_to_see(request.user, slug)
    form = RainForm(typed(request), garden=garden)
    if form.is_bound and form.is_valid():
        keep_rain(garden=garden, by=request.user, **form.cleaned_data)
        messages.success(request, _("The rain is kept; the plots' water counts it from now on."))
        return redirect("schedules:rain", slug)
    readings = garden.rain_readings.select_related("made_by")[:_READINGS]
    may_settle = may_run(request.user, garden, Power.SETTINGS)
    return form_page(
        request, "schedules/rain.html", form, garden=garden, readings=readings, may_settle=may_settle
    )


@require_POST
def rain_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Takes a reading off the list: one's own, or anybody's for those trusted with settings."""
    remove_rain(reading=rain_to_remove(request.user, slug, pk), by=request.user)
    messages.success(request, _("The reading is off the list."))
    return redirect("schedules:rain", slug)
