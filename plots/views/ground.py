"""Plots: one of them, its form, and who holds it; `schedules.views.ground` has the list."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.ground import HolderForm, PlotForm
from plots.models import Garden, Plot
from plots.powers import Power
from plots.views.answers import chosen, form_page, page_with_form, saved, typed


@require_safe
def plot(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    plot = access.plot_to_see(request.user, garden, pk)
    may_run = access.may_run(request.user, garden, Power.PLOTS)
    context = {
        "garden": garden,
        "plot": plot,
        **queries.holders_by_time(plot, today=garden.today()),
        "may_run": may_run,
        "may_log": access.plots_to_log(request.user, garden).filter(pk=pk).exists(),
        "changes": queries.changes_of(garden, plot) if may_run else [],
    }
    return render(request, "plots/plot.html", context)


@page_with_form
def plot_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    return _plot_form(request, garden, Plot(garden=garden))


@page_with_form
def plot_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    return _plot_form(request, garden, access.plot_to_see(request.user, garden, pk))


def _plot_form(request: HttpRequest, garden: Garden, plot: Plot) -> HttpResponse:
    form = PlotForm(typed(request), instance=plot)
    is_new = plot.pk is None
    keep = partial(service.keep_plot, plot=plot, by=request.user)
    if form.is_bound and form.is_valid() and saved(form, keep):
        messages.success(request, _("Plot %(plot)s is kept.") % {"plot": plot})
        if "another" in request.POST:
            return redirect("plots:plot_new", garden.slug)
        return redirect("plots:plot", garden.slug, plot.pk)
    return form_page(request, "plots/plot_edit.html", form, garden=garden, is_new=is_new)


@require_POST
def plot_retire(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Gives a plot up; its history stays."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    plot = access.plot_to_see(request.user, garden, pk)
    try:
        service.retire_plot(plot=plot, by=request.user, why=request.POST.get("why", ""))
    except ValidationError as error:
        messages.error(request, error.messages[0])
    else:
        messages.success(request, _("Plot %(plot)s is given up. Its history stays.") % {"plot": plot})
    return redirect("plots:plot", slug, pk)


@require_POST
def plot_restore(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Takes a plot up again that was given up."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    plot = access.plot_to_see(request.user, garden, pk)
    service.restore_plot(plot=plot, by=request.user, why=request.POST.get("why", ""))
    messages.success(request, _("Plot %(plot)s is gardened again.") % {"plot": plot})
    return redirect("plots:plot", slug, pk)


@require_POST
def stake_renew(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Gives the plot's stake a new code."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    plot = access.plot_to_see(request.user, garden, pk)
    service.renew_stake(plot=plot, by=request.user)
    words = _("The old stake of plot %(plot)s opens nothing any more. Print it a new one.")
    messages.success(request, words % {"plot": plot})
    return redirect("plots:plot", slug, pk)


@page_with_form
def plot_holder(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Gives a plot to a member and their co-gardeners."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    plot = access.plot_to_see(request.user, garden, pk)
    form = HolderForm(garden, typed(request), initial=_when_free(request, garden, plot))
    if form.is_bound and form.is_valid():
        try:
            assignment = service.assign_plot(plot=plot, by=request.user, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            words = {"plot": plot, "person": assignment.holder}
            messages.success(request, _("%(person)s now holds plot %(plot)s.") % words)
            return redirect("plots:plot", slug, pk)
    return form_page(request, "plots/plot_holder.html", form, garden=garden, plot=plot)


def _when_free(request: HttpRequest, garden: Garden, plot: Plot) -> dict[str, object]:
    """The season that was asked for, or the present one, and its first day on which the plot is free."""
    asked = chosen(garden.seasons.all(), request.GET.get("season", ""))
    season = asked or queries.season_now(garden)
    free = queries.free_from(plot, garden.today())
    return {"season": season, "began_on": max(free, season.starts_on) if free and season else free}


@require_POST
def plot_free(request: HttpRequest, slug: str, pk: int, assignment_pk: int) -> HttpResponse:
    """Ends an assignment today."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    plot = access.plot_to_see(request.user, garden, pk)
    assignment = get_object_or_404(plot.assignments, pk=assignment_pk)
    service.end_assignment(assignment=assignment, ended_on=garden.today(), by=request.user)
    messages.success(
        request, _("Today is %(person)s's last day with this plot.") % {"person": assignment.holder}
    )
    return redirect("plots:plot", slug, pk)
