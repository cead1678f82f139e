"""Who gardens a plot beside its holder."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from plots import access, service
from plots.forms.people import CoGardenersForm
from plots.powers import Power
from plots.views.answers import form_page, typed


@require_http_methods(["GET", "HEAD", "POST"])
def co_gardeners(request: HttpRequest, slug: str, pk: int, assignment_pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    plot = access.plot_to_see(request.user, garden, pk)
    held = plot.assignments.standing(garden.today()).select_related("plot__garden", "holder")
    assignment = get_object_or_404(held, pk=assignment_pk)
    form = CoGardenersForm(assignment, typed(request))
    if form.is_bound and form.is_valid():
        service.change_co_gardeners(
            assignment=assignment,
            people=form.cleaned_data["people"],
            by=request.user,
            why=form.cleaned_data["why"],
        )
        messages.success(request, _("Kept."))
        return redirect("plots:plot", slug, pk)
    context = {"garden": garden, "plot": plot, "assignment": assignment}
    return form_page(request, "plots/co_gardeners.html", form, **context)
