"""A garden's varieties."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from crops import queries, service
from crops.forms import VarietyForm
from crops.models import Crop, Variety
from crops.wording.names import crop_label
from crops.wording.page import Cited, SourceList, citations, own_sections
from plots import access
from plots.models import Garden
from plots.powers import Power
from plots.views.answers import form_page, typed
from plots.views.keeping import kept_or_shown


@require_safe
def variety(request: HttpRequest, slug: str, crop_slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    variety = _variety(garden, crop_slug, pk)
    sources, own = SourceList(), Cited(_("this variety’s own"))
    cited = citations(queries.fact_sources_of(variety.crop), sources)
    context = {
        "garden": garden,
        "crop": variety.crop,
        "variety": variety,
        "sections": own_sections(variety.facts(), variety.crop.facts(), garden.units, own, cited),
        "sources": list(sources),
        "may_run": access.may_run(request.user, garden, Power.SETTINGS),
    }
    return render(request, "crops/variety.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def variety_new(request: HttpRequest, slug: str, crop_slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    crop = get_object_or_404(queries.crops_for(garden), slug=crop_slug)
    return _variety_form(request, garden, crop, Variety(garden=garden, crop=crop))


@require_http_methods(["GET", "HEAD", "POST"])
def variety_edit(request: HttpRequest, slug: str, crop_slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    variety = _variety(garden, crop_slug, pk)
    return _variety_form(request, garden, variety.crop, variety)


@require_POST
def variety_remove(request: HttpRequest, slug: str, crop_slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    variety = _variety(garden, crop_slug, pk)
    try:
        service.remove_variety(variety)
    except service.InUseError as refusal:
        messages.error(request, str(refusal))
        return redirect("crops:variety", garden.slug, crop_slug, pk)
    messages.success(request, _("%(variety)s is removed.") % {"variety": crop_label(variety.crop, variety)})
    return redirect("crops:crop", garden.slug, crop_slug)


def _variety(garden: Garden, crop_slug: str, pk: int) -> Variety:
    return get_object_or_404(queries.varieties_for(garden), crop__slug=crop_slug, pk=pk)


def _variety_form(request: HttpRequest, garden: Garden, crop: Crop, variety: Variety) -> HttpResponse:
    form = VarietyForm(typed(request), instance=variety, garden=garden, crop=crop)
    preview = None
    if form.is_bound and form.is_valid():
        row = form.save(commit=False)
        keep = partial(service.save_variety, garden=garden, crop=crop, variety=row, by=request.user)
        if row.pk is None:
            keep()
        else:
            preview = kept_or_shown(request, garden, keep)
        if preview is None:
            messages.success(request, _("%(variety)s is saved.") % {"variety": crop_label(crop, row)})
            return redirect("crops:variety", garden.slug, crop.slug, row.pk)
    told = {"crop": crop, "variety": variety, "preview": preview}
    return form_page(request, "crops/variety_edit.html", form, garden=garden, **told)
