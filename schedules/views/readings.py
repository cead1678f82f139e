"""The garden's own thermometers: typing what they show, and reading a logger's file."""

from __future__ import annotations

from django.contrib import messages
from django.db.models import Max, Min
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from plots.access import garden_to_run, garden_to_see, may_run
from plots.listing import Column, Filter, Listing
from plots.models import Garden
from plots.powers import Power
from plots.quantities import Quantity, Unit, unit_for
from plots.views.answers import form_page, list_page, page_with_form, typed
from plots.wording import unit_text
from schedules.access import reading_to_remove
from schedules.forms.readings import LoggerDaysForm, LoggerForm, ReadingForm
from schedules.models import GardenReading
from schedules.service.readings import (
    import_readings,
    keep_reading,
    remove_logger_days,
    remove_reading,
)
from schedules.wording.readings import READERS, imported_text, reader_text

_SHOWN = 31


@page_with_form
def readings(request: HttpRequest, slug: str) -> HttpResponse:
    """Type what the thermometers show, and see what they showed."""
    garden = garden_to_see(request.user, slug)
    form = ReadingForm(typed(request), garden=garden)
    if form.is_bound and form.is_valid():
        keep_reading(garden=garden, by=request.user, **form.cleaned_data)
        messages.success(request, _("Kept. Thank you for looking."))
        return redirect("schedules:readings", slug)
    rows = garden.readings.select_related("made_by")[:_SHOWN]
    may_settle = may_run(request.user, garden, Power.SETTINGS)
    return form_page(
        request, "schedules/readings.html", form, garden=garden, readings=rows, may_settle=may_settle
    )


@require_POST
def reading_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Takes a reading off the list: one's own, or anybody's for those trusted with settings."""
    remove_reading(reading=reading_to_remove(request.user, slug, pk), by=request.user)
    messages.success(request, _("The reading is off the list."))
    return redirect("schedules:readings", slug)


@require_safe
def readings_all(request: HttpRequest, slug: str) -> HttpResponse:
    """Every reading, to be searched and saved as a file."""
    garden = garden_to_see(request.user, slug)
    rows = garden.readings.select_related("made_by")
    may_settle = may_run(request.user, garden, Power.SETTINGS)
    listing = _every_reading(garden)
    return list_page(
        request, "schedules/readings_all.html", listing, rows, garden=garden, may_settle=may_settle
    )


def _every_reading(garden: Garden) -> Listing[GardenReading]:
    unit = unit_for(Quantity.TEMPERATURE, garden.units)
    values = (("tmin_c", _("Lowest")), ("tmax_c", _("Highest")), ("soil_c", _("Soil")))
    return Listing(
        columns=[
            Column("day", _("Morning of"), lambda row: row.day),
            *(
                Column(key, f"{title}, {unit_text(unit)}", lambda row, key=key: _in(unit, getattr(row, key)))
                for key, title in values
            ),
            Column("by", _("Read by"), reader_text),
        ],
        filters=[
            Filter("by", _("Read by"), READERS, lambda row, word: row.from_logger == (word == "logger"))
        ],
        text=lambda row: f"{row.day} {reader_text(row)}",
    )


def _in(unit: Unit, celsius: float | None) -> float | None:
    return None if celsius is None else round(unit.from_si(celsius), 1)


@page_with_form
def logger_remove(request: HttpRequest, slug: str) -> HttpResponse:
    """Takes the days of a wrong file off the list again."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = LoggerDaysForm(typed(request))
    if form.is_bound and form.is_valid():
        days = remove_logger_days(garden=garden, by=request.user, **form.cleaned_data)
        if days:
            text = ngettext("%(count)s day is off the list.", "%(count)s days are off the list.", days)
            messages.success(request, text % {"count": days})
            return redirect("schedules:readings", slug)
        form.add_error("first", _("No logger told of any of these days."))
    spans = garden.readings.filter(from_logger=True).aggregate(first=Min("day"), last=Max("day"))
    return form_page(request, "schedules/logger_remove.html", form, garden=garden, **spans)


@page_with_form
def readings_import(request: HttpRequest, slug: str) -> HttpResponse:
    """Read a logger's file into days."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = LoggerForm(typed(request), request.FILES or None, garden=garden)
    if form.is_bound and form.is_valid() and form.logger is not None:
        done = import_readings(garden=garden, days=form.logger.days, by=request.user)
        messages.success(request, imported_text(done, form.logger))
        return redirect("schedules:readings", slug)
    return form_page(request, "schedules/readings_import.html", form, garden=garden)
