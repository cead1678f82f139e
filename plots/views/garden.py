"""Making a garden, and its settings and seasons."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import PermissionDenied, ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _

from plots import access, service
from plots.forms.garden import GardenForm, NewGardenForm, SeasonForm
from plots.models import Garden, Season
from plots.views.answers import form_page, page_with_form, saved, typed


@page_with_form
def garden_new(request: HttpRequest) -> HttpResponse:
    if not access.may_make_gardens(request.user):
        raise PermissionDenied(_("Only who keeps this installation makes new gardens."))
    form = NewGardenForm(typed(request))
    if form.is_bound and form.is_valid():
        try:
            garden = service.make_garden(garden=form.save(commit=False), coordinator=request.user)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            return redirect("plots:garden", garden.slug)
    return form_page(request, "plots/garden_new.html", form)


@page_with_form
def garden_settings(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    # A copy, because a form writes even wrong values into its instance, and the page still shows the garden.
    form = GardenForm(typed(request), instance=Garden.objects.get(pk=garden.pk))
    if form.is_bound and form.is_valid():
        form.save()
        messages.success(request, _("The settings are kept."))
        return redirect("plots:garden_settings", slug)
    return form_page(request, "plots/garden_settings.html", form, garden=garden, seasons=garden.seasons.all())


@page_with_form
def season_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    return _season_page(request, garden, Season(garden=garden))


@page_with_form
def season_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    return _season_page(request, garden, get_object_or_404(garden.seasons, pk=pk))


def _season_page(request: HttpRequest, garden: Garden, season: Season) -> HttpResponse:
    form = SeasonForm(typed(request), instance=season)
    if form.is_bound and form.is_valid() and saved(form):
        messages.success(request, _("The season is kept."))
        return redirect("plots:garden_settings", garden.slug)
    return form_page(request, "plots/season_edit.html", form, garden=garden)
