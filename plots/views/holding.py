"""Changes in mid-season to who holds a plot."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from plots import access, queries, service
from plots.forms.turn import HandOverForm
from plots.models import Assignment, Garden
from plots.powers import Power
from plots.views.answers import form_page, typed


def _assignment(garden: Garden, pk: int, assignment_pk: int) -> Assignment:
    found = Assignment.objects.select_related("plot__garden", "holder", "season")
    return get_object_or_404(found, plot__garden=garden, plot=pk, pk=assignment_pk)


@require_http_methods(["GET", "HEAD", "POST"])
def hand_over(request: HttpRequest, slug: str, pk: int, assignment_pk: int) -> HttpResponse:
    """Ends what a household holds on a chosen day and, if somebody goes on, gives the plot to them."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    held = _assignment(garden, pk, assignment_pk)
    form = HandOverForm(held, typed(request))
    if form.is_bound and form.is_valid():
        try:
            _hand_over(request, held, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            return redirect("plots:plot", slug, pk)
    return form_page(request, "plots/hand_over.html", form, garden=garden, plot=held.plot, held=held)


def _hand_over(
    request: HttpRequest,
    held: Assignment,
    *,
    last_day: object,
    holder: object,
    co_gardeners: object,
    why: str,
) -> None:
    if holder is None:
        service.end_assignment(assignment=held, ended_on=last_day, by=request.user, why=why)
        words = {"person": held.holder, "day": date_format(last_day)}
        messages.success(request, _("%(person)s holds the plot until %(day)s.") % words)
        return
    following = service.hand_over(
        assignment=held, last_day=last_day, holder=holder, co_gardeners=co_gardeners, by=request.user, why=why
    )
    words = {"person": holder, "day": date_format(following.began_on)}
    messages.success(request, _("%(person)s holds the plot from %(day)s on.") % words)
    if queries.part_due_of(following).amount:
        messages.info(request, _("What is due for the rest of the season is proposed under “Dues”."))


@require_POST
def reopen(request: HttpRequest, slug: str, pk: int, assignment_pk: int) -> HttpResponse:
    """Takes the end of holding a plot back."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    held = _assignment(garden, pk, assignment_pk)
    try:
        service.reopen_assignment(assignment=held, by=request.user)
    except ValidationError as error:
        messages.error(request, " ".join(error.messages))
    else:
        messages.success(request, _("%(person)s goes on with the plot.") % {"person": held.holder})
    return redirect("plots:plot", slug, pk)
