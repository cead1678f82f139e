"""Looking after a neighbour's plot: whom one asked, by whom one was asked, and ending it."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from plots import access, service
from plots.forms.stand_ins import StandInForm
from plots.queries.stand_ins import holdings_of, stand_ins_ahead
from plots.views.answers import form_page, page_with_form, typed


@page_with_form
def stand_ins(request: HttpRequest, slug: str) -> HttpResponse:
    """One's own plots and who looks after them, with the form to ask somebody."""
    garden = access.garden_to_see(request.user, slug)
    held = holdings_of(request.user, garden)
    form = StandInForm(typed(request), garden=garden, held=held)
    if form.is_bound and form.is_valid():
        try:
            asked = service.ask_stand_in(**form.cleaned_data, on=garden.today(), by=request.user)
        except ValidationError as refusal:
            form.add_error(None, refusal)
        else:
            words = {"person": asked.person, "plot": asked.assignment.plot}
            messages.success(request, _("%(person)s may log for plot %(plot)s.") % words)
            return redirect("plots:stand_ins", slug)
    ahead = stand_ins_ahead(garden)
    lists = {"mine": ahead.filter(assignment__in=held), "others": ahead.filter(person=request.user)}
    return form_page(request, "plots/stand_ins.html", form, garden=garden, held=held, **lists)


@require_POST
def stand_in_end(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """For the people of the plot, whoever was asked, and who is trusted with care."""
    asked = access.stand_in_to_end(request.user, slug, pk)
    service.end_stand_in(stand_in=asked, by=request.user)
    words = {"person": asked.person, "plot": asked.assignment.plot}
    messages.success(request, _("%(person)s looks after plot %(plot)s no longer.") % words)
    return redirect("plots:stand_ins", slug)
