"""The season turn: the free plots, who could have each, and giving them to households that move."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.listing import Column, Filter, Listing
from plots.models import Renewal
from plots.powers import Power
from plots.queries import FreeInTurn
from plots.views.answers import chosen, list_page
from plots.views.turn import round_of
from plots.wording.renewal import reason_text


def _could_go_to(row: FreeInTurn) -> str:
    if row.offer is not None:
        return row.offer.entry.name
    candidate = row.proposal and (row.proposal.mover or row.proposal.place)
    return candidate.name if candidate else ""


def _square_metres(row: FreeInTurn) -> float | None:
    width, length = row.plot.width_m, row.plot.length_m
    return round(width * length, 2) if width and length else None


def _way(row: FreeInTurn) -> str:
    if row.offer is not None:
        return "offered"
    if row.proposal is None:
        return "nobody"
    return "mover" if row.proposal.mover else "list" if row.proposal.place else "nobody"


FREE_PLOTS: Listing[FreeInTurn] = Listing(
    columns=[
        Column("plot", gettext_lazy("Plot"), lambda row: row.plot.label),
        Column("size", gettext_lazy("Size"), _square_metres, in_csv=False),
        Column("area", gettext_lazy("Square metres"), _square_metres, on_page=False),
        Column("person", gettext_lazy("Could go to"), _could_go_to),
        Column(
            "why",
            gettext_lazy("Why"),
            lambda row: reason_text(row.proposal.reason) if row.proposal else "",
            on_page=False,
        ),
    ],
    filters=[
        Filter(
            "way",
            gettext_lazy("Could go to"),
            [
                ("mover", gettext_lazy("a member who moves")),
                ("list", gettext_lazy("somebody who waits")),
                ("offered", gettext_lazy("offered already")),
                ("nobody", gettext_lazy("nobody waits")),
            ],
            lambda row, word: _way(row) == word,
        )
    ],
    text=lambda row: f"{row.plot.label} {_could_go_to(row)}",
)


@require_safe
def proposals(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """The free plots of the coming season, each with who could have it and the rule behind that."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    round = round_of(garden, pk)
    context = {"round": round, "movers": queries.movers_in(round)}
    context["may_offer"] = access.may_run(request.user, garden, Power.WAITING)
    rows = queries.proposals_for(round)
    return list_page(request, "plots/proposals.html", FREE_PLOTS, rows, garden=garden, **context)


@require_POST
def renewal_move(request: HttpRequest, slug: str, pk: int, renewal_pk: int) -> HttpResponse:
    """Gives a household that asked for it another plot, and frees its own."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    renewals = Renewal.objects.select_related(
        "assignment__plot__garden", "assignment__holder", "round__season"
    )
    renewal = get_object_or_404(renewals, round=round_of(garden, pk), pk=renewal_pk)
    plot = chosen(garden.plots.all(), request.POST.get("plot", ""))
    if plot is None:
        return redirect("plots:proposals", slug, pk)
    try:
        service.move_household(renewal=renewal, plot=plot, on=garden.today(), by=request.user)
    except ValidationError as error:
        messages.error(request, " ".join(error.messages))
    else:
        words = {"person": renewal.assignment.holder, "new": plot, "old": renewal.assignment.plot}
        messages.success(request, _("%(person)s moves from %(old)s to %(new)s.") % words)
    return redirect("plots:proposals", slug, pk)
