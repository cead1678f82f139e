"""Where the garden's frost dates come from: seen by every member, changed by coordinators."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from functools import partial

from django.contrib import messages
from django.db import DatabaseError
from django.http import HttpRequest, HttpResponse, StreamingHttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.utils.html import format_html
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots.access import garden_to_run, garden_to_see, may_run
from plots.powers import Power
from plots.service.history import record as keep_change
from plots.views.answers import form_page, page_with_form, typed
from schedules import service
from schedules.forms.climate import FrostTableForm, MeanFrostForm, StationFileForm
from schedules.models import BasisChoice, StationRecord
from schedules.service import GardenDates
from schedules.service.shifts import note_moved
from schedules.service.weather import plans_by
from schedules.stations import PLAIN_EXAMPLE
from schedules.stations.summary import from_plain, summary_of
from schedules.views.shifts import kept_or_shown
from schedules.views.stations import tell_learned_gone
from schedules.wording.climate import offset_text, source_text
from schedules.wording.stations import day_text

logger = logging.getLogger(__name__)
_PROGRESS_MARK = "<!-- progress -->"


@require_safe
def source(request: HttpRequest, slug: str) -> HttpResponse:
    """Which basis is used, and what else there is."""
    garden = garden_to_see(request.user, slug)
    chosen = service.chosen_climate(garden)
    context = {
        "garden": garden,
        "chosen": chosen,
        "source": source_text(garden, chosen),
        "offset": "" if chosen is None else offset_text(garden, chosen.offset_c),
        "records": [(record, from_plain(record.findings)) for record in garden.station_records.all()],
        "has_table": garden.frost_table.exists(),
        "mean": getattr(garden, "mean_frost", None),
        "may_run": may_run(request.user, garden, Power.SETTINGS),
    }
    return render(request, "schedules/frost_source.html", context)


@page_with_form
def record_import(request: HttpRequest, slug: str) -> HttpResponse | StreamingHttpResponse:
    """Choose a station's file; a good one is kept while the page tells how far it has come."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = StationFileForm(typed(request), request.FILES or None, garden=garden)
    if not (form.is_bound and form.is_valid()):
        return form_page(request, "schedules/frost_import.html", form, garden=garden, example=PLAIN_EXAMPLE)
    context = {"garden": garden, "name": form.station_name(), "days": len(form.station.days)}
    page = render_to_string("schedules/frost_importing.html", context, request)
    # A proxy that gathers the answer would hide the progress until the end.
    return StreamingHttpResponse(
        _importing(request, form, page), headers={"X-Accel-Buffering": "no", "Cache-Control": "no-store"}
    )


def _importing(request: HttpRequest, form: StationFileForm, page: str) -> Iterator[str]:
    """The page in pieces: its head, a line for each ten years kept, the result, its foot."""
    head, foot = page.split(_PROGRESS_MARK)
    yield head
    result, moved, garden = None, None, form.garden
    before = GardenDates.of(garden)
    # What moves dates is shown first: a record takes the place of what is planned by once that was seen.
    wanted = form.cleaned_data["plan_by_it"]
    told = {"name": form.station_name(), "plan_by_it": wanted and before is None}
    steps = service.importing_station(garden=garden, station=form.station, **told)
    try:
        while True:
            yield format_html("<li>{}</li>\n", _("kept up to %(day)s") % {"day": day_text(next(steps))})
    except StopIteration as finished:
        result = finished.value
        about = {"about": result.record, "what": "weather-added"}
        keep = partial(keep_change, garden=garden, by=request.user, **about)
        moved = note_moved(garden=garden, before=before, keep=keep)
    except DatabaseError:
        logger.exception("Importing a station's record failed")
    context = {"garden": garden, "result": result, "summary": summary_of(form.station), "moved": moved}
    if result is not None and wanted:
        context["to_choose"] = not plans_by(garden, result.record)
    yield "</ul>" + render_to_string("schedules/_import_result.html", context, request)
    yield foot


@page_with_form
def table(request: HttpRequest, slug: str) -> HttpResponse:
    """Type a published table."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = FrostTableForm(typed(request), garden=garden, chosen=service.chosen_climate(garden))
    preview = None
    if form.is_bound and form.is_valid():
        passed = form.cleaned_data["counts"] == "passed"
        told = {"dates": form.dates, "counts_passed": passed, "source": form.cleaned_data["source"]}
        preview = kept_or_shown(request, garden, partial(service.save_frost_table, garden=garden, **told))
        if preview is None:
            messages.success(request, _("The table is kept, and the garden plans by it."))
            return redirect("schedules:frost", slug)
    return form_page(request, "schedules/frost_table.html", form, garden=garden, preview=preview)


@page_with_form
def mean(request: HttpRequest, slug: str) -> HttpResponse:
    """Type a mean last and first freeze."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = MeanFrostForm(typed(request), mean=getattr(garden, "mean_frost", None))
    preview = None
    if form.is_bound and form.is_valid():
        keep = partial(service.save_mean_frost, garden=garden, **form.cleaned_data)
        preview = kept_or_shown(request, garden, keep)
        if preview is None:
            messages.success(request, _("The dates are kept, and the garden plans by them."))
            return redirect("schedules:frost", slug)
    return form_page(request, "schedules/frost_mean.html", form, garden=garden, preview=preview)


@require_POST
def use(request: HttpRequest, slug: str) -> HttpResponse:
    """Plan by another of the garden's bases."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    basis, pk = request.POST.get("basis", ""), request.POST.get("record", "")
    record = None
    if basis == BasisChoice.RECORD:
        record = get_object_or_404(garden.station_records, pk=pk if pk.isdecimal() else 0)
    chosen: list[bool] = []
    before = service.chosen_climate(garden)
    preview = kept_or_shown(
        request,
        garden,
        lambda: chosen.append(service.choose_basis(garden=garden, basis=basis, record=record)),
    )
    if preview is not None:
        return preview.page(request, garden, _plan_text(basis, record))
    if chosen[-1]:
        messages.success(request, _("The garden plans by it now."))
        tell_learned_gone(request, garden, before)
    return redirect("schedules:frost_source", slug)


def _plan_text(basis: str, record: StationRecord | None) -> str:
    if record is not None:
        return _("Plan by the record of %(station)s") % {"station": record.name}
    return _("Plan by the typed table") if basis == BasisChoice.TABLE else _("Plan by the typed mean dates")


@require_POST
def record_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Forget a record that the garden does not plan by."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    record = get_object_or_404(garden.station_records.select_related("garden"), pk=pk)
    if service.remove_record(record=record):
        messages.success(request, _("The record of %(station)s is removed.") % {"station": record.name})
    else:
        messages.error(request, _("The garden plans by this record. Choose another basis first."))
    return redirect("schedules:frost_source", slug)
