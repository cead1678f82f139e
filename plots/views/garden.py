"""Making a garden, and its settings and seasons."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.core.exceptions import PermissionDenied, ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _

from plots import access, queries, service
from plots.forms.garden import GardenForm, NewGardenForm, SeasonForm
from plots.models import Garden, Season
from plots.powers import Power
from plots.views.answers import form_page, page_with_form, saved, typed
from plots.views.keeping import kept_or_shown


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
            return redirect("plots:set_up", garden.slug)
    return form_page(request, "plots/garden_new.html", form)


@page_with_form
def garden_settings(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    # A copy, because a form writes even wrong values into its instance, and the page still shows the garden.
    form = GardenForm(typed(request), instance=Garden.objects.get(pk=garden.pk))
    preview = None
    if form.is_bound and form.is_valid():
        told = {"by": request.user, "row": form.save(commit=False), "what": "settings-changed"}
        preview = kept_or_shown(request, garden, partial(service.save_changes, garden=garden, **told))
        if preview is None:
            messages.success(request, _("The settings are kept."))
            return redirect("plots:garden_settings", slug)
    return form_page(request, "plots/garden_settings.html", form, preview=preview, **_shown(request, garden))


def _shown(request: HttpRequest, garden: Garden) -> dict[str, object]:
    return {
        "garden": garden,
        "seasons": garden.seasons.all(),
        "changes": queries.changes_of(garden, garden),
        "may_run": access.may_run(request.user, garden, Power.SETTINGS),
    }


@page_with_form
def season_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    return _season_page(request, garden, queries.season_after(garden))


@page_with_form
def season_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    return _season_page(request, garden, get_object_or_404(garden.seasons, pk=pk))


def _season_page(request: HttpRequest, garden: Garden, season: Season) -> HttpResponse:
    form = SeasonForm(typed(request), instance=season)
    keep = partial(service.keep_season, season=season, by=request.user)
    if form.is_bound and form.is_valid() and saved(form, keep):
        messages.success(request, _("The season is kept."))
        settings = access.may_run(request.user, garden, Power.SETTINGS)
        return redirect("plots:garden_settings" if settings else "plots:turn", garden.slug)
    changes = queries.changes_of(garden, season) if season.pk else []
    return form_page(request, "plots/season_edit.html", form, garden=garden, changes=changes, may_run=True)
