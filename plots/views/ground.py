"""Plots: the list, one plot, its form, and who holds it."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.ground import HolderForm, PlotForm
from plots.models import Garden, Plot
from plots.views.answers import form_page, page_with_form, saved, typed


@require_safe
def plots(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    context = {
        "garden": garden,
        "may_run": access.may_run(request.user, garden),
        "plots": queries.plots_with_holders(access.visible_plots(request.user, garden)),
    }
    return render(request, "plots/plots.html", context)


@require_safe
def plot(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    plot = access.plot_to_see(request.user, garden, pk)
    history = list(queries.history_of(plot))
    context = {
        "garden": garden,
        "plot": plot,
        "current": [assignment for assignment in history if assignment.ended_on is None],
        "past": [assignment for assignment in history if assignment.ended_on is not None],
        "may_run": access.may_run(request.user, garden),
    }
    return render(request, "plots/plot.html", context)


@page_with_form
def plot_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    return _plot_form(request, garden, Plot(garden=garden))


@page_with_form
def plot_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    return _plot_form(request, garden, access.plot_to_see(request.user, garden, pk))


def _plot_form(request: HttpRequest, garden: Garden, plot: Plot) -> HttpResponse:
    form = PlotForm(typed(request), instance=plot)
    is_new = plot.pk is None
    if form.is_bound and form.is_valid() and saved(form):
        messages.success(request, _("Plot %(plot)s is kept.") % {"plot": plot})
        if "another" in request.POST:
            return redirect("plots:plot_new", garden.slug)
        return redirect("plots:plot", garden.slug, plot.pk)
    return form_page(request, "plots/plot_edit.html", form, garden=garden, is_new=is_new)


@page_with_form
def plot_holder(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Gives a plot to a member and their co-gardeners."""
    garden = access.garden_to_run(request.user, slug)
    plot = access.plot_to_see(request.user, garden, pk)
    form = HolderForm(garden, typed(request))
    if form.is_bound and form.is_valid():
        try:
            assignment = service.assign_plot(plot=plot, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            words = {"plot": plot, "person": assignment.holder}
            messages.success(request, _("%(person)s now holds plot %(plot)s.") % words)
            return redirect("plots:plot", slug, pk)
    return form_page(request, "plots/plot_holder.html", form, garden=garden, plot=plot)


@require_POST
def plot_free(request: HttpRequest, slug: str, pk: int, assignment_pk: int) -> HttpResponse:
    """Ends an assignment today."""
    garden = access.garden_to_run(request.user, slug)
    plot = access.plot_to_see(request.user, garden, pk)
    assignment = get_object_or_404(plot.assignments, pk=assignment_pk)
    service.end_assignment(assignment=assignment, ended_on=garden.today())
    messages.success(request, _("%(person)s no longer holds this plot.") % {"person": assignment.holder})
    return redirect("plots:plot", slug, pk)
