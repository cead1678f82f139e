"""The list of crops, one crop, and a garden's own crops."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from crops import queries, service
from crops.forms import CropForm
from crops.models import Crop
from crops.views.crop_list import crops_list
from crops.wording.cautions import cautions
from crops.wording.page import SourceList, citations, sections
from plots import access
from plots.models import Garden
from plots.powers import Power
from plots.views.answers import form_page, list_page, typed
from plots.views.keeping import kept_or_shown


@require_safe
def crops(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    every = list(queries.crops_with_varieties(garden))
    may_run = access.may_run(request.user, garden, Power.SETTINGS)
    return list_page(request, "crops/crops.html", crops_list(every), every, garden=garden, may_run=may_run)


@require_safe
def crop(request: HttpRequest, slug: str, crop_slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    crop = get_object_or_404(queries.crops_for(garden), slug=crop_slug)
    readings, limits = queries.germination_of(crop)
    sources, facts = SourceList(), crop.facts()
    cited = citations(queries.fact_sources_of(crop), sources)
    context = {
        "garden": garden,
        "crop": crop,
        "sections": sections(facts, garden.units, cited),
        "readings": readings,
        "readings_from": sorted({sources.number(row.source) for row in readings}),
        "limits": [(row, sources.number(row.source)) for row in limits],
        "sources": list(sources),
        "cautions": cautions(facts),
        "varieties": queries.varieties_for(garden).filter(crop=crop),
        "may_run": access.may_run(request.user, garden, Power.SETTINGS),
    }
    return render(request, "crops/crop.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def crop_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    return _crop_form(request, garden, Crop(garden=garden))


@require_http_methods(["GET", "HEAD", "POST"])
def crop_edit(request: HttpRequest, slug: str, crop_slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    return _crop_form(request, garden, get_object_or_404(garden.own_crops, slug=crop_slug))


@require_POST
def crop_remove(request: HttpRequest, slug: str, crop_slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    crop = get_object_or_404(garden.own_crops, slug=crop_slug)
    try:
        service.remove_crop(crop)
    except service.InUseError as refusal:
        messages.error(request, str(refusal))
        return redirect("crops:crop", garden.slug, crop.slug)
    messages.success(request, _("%(crop)s is removed.") % {"crop": crop})
    return redirect("crops:crops", garden.slug)


def _crop_form(request: HttpRequest, garden: Garden, crop: Crop) -> HttpResponse:
    form = CropForm(typed(request), instance=crop, garden=garden)
    preview = None
    if form.is_bound and form.is_valid():
        row = form.save(commit=False)
        keep = partial(service.save_crop, garden=garden, crop=row, by=request.user)
        if row.pk is None:
            keep()
        else:
            preview = kept_or_shown(request, garden, keep)
        if preview is None:
            messages.success(request, _("%(crop)s is saved.") % {"crop": row})
            return redirect("crops:crop", garden.slug, row.slug)
    return form_page(request, "crops/crop_edit.html", form, garden=garden, crop=crop, preview=preview)
