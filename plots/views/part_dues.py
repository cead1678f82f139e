"""Dues of plots held for a part of the season: proposed by the rule, confirmed by a person."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from plots import access, queries, service
from plots.dues import PartRule
from plots.forms.turn import PartDueForm
from plots.listing import Column, Filter, Listing
from plots.models import Assignment, Garden
from plots.powers import Power
from plots.queries.dues import PartDue
from plots.views.answers import form_page, list_page, page_with_form, typed
from plots.wording.renewal import share_text


def _why(row: PartDue) -> str:
    return share_text(row.share, PartRule(row.assignment.season.garden.rules.dues_part))


PARTS: Listing[PartDue] = Listing(
    columns=[
        Column("plot", gettext_lazy("Plot"), lambda row: row.assignment.plot.label),
        Column("person", gettext_lazy("Who"), lambda row: row.assignment.holder.name),
        Column("season", gettext_lazy("Season"), lambda row: row.assignment.season.name, on_page=False),
        Column("from", gettext_lazy("From"), lambda row: row.assignment.began_on),
        Column("until", gettext_lazy("Until"), lambda row: row.assignment.ended_on),
        Column("whole", gettext_lazy("Whole amount"), lambda row: row.whole),
        Column("amount", gettext_lazy("Proposed"), lambda row: row.amount),
        Column("why", gettext_lazy("Why"), _why, on_page=False),
    ],
    filters=[
        Filter(
            "now",
            gettext_lazy("So far"),
            [("none", gettext_lazy("nothing is drawn up")), ("whole", gettext_lazy("the whole is due"))],
            lambda row, word: (row.due is None) == (word == "none"),
        )
    ],
    text=lambda row: f"{row.assignment.plot.label} {row.assignment.holder.name}",
)


@require_safe
def dues_part(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.MONEY)
    rows = queries.part_dues(queries.seasons_to_pay(garden))
    for row in rows:
        row.assignment.why = _why(row)
    return list_page(request, "plots/dues_part.html", PARTS, rows, garden=garden)


@page_with_form
def due_part(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Confirms what is proposed for one plot, or another amount."""
    garden = access.garden_to_run(request.user, slug, Power.MONEY)
    row = _row(garden, pk)
    form = PartDueForm(typed(request), initial={"amount": row.amount})
    if form.is_bound and form.is_valid():
        amount = form.cleaned_data["amount"]
        try:
            service.keep_part_due(
                assignment=row.assignment, amount=amount, by=request.user, today=garden.today()
            )
        except ValidationError as error:
            form.add_error(None, error)
        else:
            words = {"person": row.assignment.holder, "plot": row.assignment.plot}
            words |= {"amount": f"{garden.rules.currency}{amount:.2f}"}
            messages.success(request, _("%(person)s, plot %(plot)s: %(amount)s due.") % words)
            return redirect("plots:dues_part", slug)
    return form_page(request, "plots/due_part.html", form, garden=garden, row=row, why=_why(row))


def _row(garden: Garden, pk: int) -> PartDue:
    held = Assignment.objects.select_related("plot", "holder", "season")
    assignment = get_object_or_404(held, plot__garden=garden, pk=pk)
    assignment.season.garden = garden
    return queries.part_due_of(assignment)
