"""Lists of care that grow over the years: the rounds walked, and who was away when."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from plots import access, queries
from plots.listing import Column, Filter, Listing
from plots.models import CareRound, Pause, PauseWhy
from plots.powers import Power
from plots.views.answers import list_page

ROUNDS: Listing[CareRound] = Listing(
    columns=[
        Column("day", gettext_lazy("Day"), lambda one: one.day),
        Column("by", gettext_lazy("Begun by"), lambda one: one.made_by.name if one.made_by else ""),
        Column("seen", gettext_lazy("Plots seen"), lambda one: one.seen),
        Column("noted", gettext_lazy("With a note"), lambda one: one.noted),
    ],
    text=lambda one: one.made_by.name if one.made_by else "",
)


def pauses_list(today: date) -> Listing[Pause]:
    states = [("now", gettext_lazy("away now")), ("other", gettext_lazy("earlier or later"))]
    return Listing(
        columns=[
            Column("plot", gettext_lazy("Plot"), lambda one: one.assignment.plot.label),
            Column("holder", gettext_lazy("Held by"), lambda one: one.assignment.holder.name),
            Column("why", gettext_lazy("Because of"), lambda one: str(one.get_why_display())),
            Column("from_on", gettext_lazy("From"), lambda one: one.from_on),
            Column("until_on", gettext_lazy("Until"), lambda one: one.until_on),
        ],
        filters=[
            Filter(
                "state", gettext_lazy("State"), states, lambda one, word: one.covers(today) == (word == "now")
            ),
            Filter("why", gettext_lazy("Because of"), PauseWhy.choices, lambda one, word: one.why == word),
        ],
        text=lambda one: f"{one.assignment.plot.label} {one.assignment.holder.name}",
    )


@require_safe
def care_rounds(request: HttpRequest, slug: str) -> HttpResponse:
    """Every round, the latest first."""
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    rows = queries.rounds_of(garden).select_related("made_by")
    return list_page(request, "plots/care_rounds.html", ROUNDS, rows, garden=garden)


@require_safe
def care_pauses(request: HttpRequest, slug: str) -> HttpResponse:
    """Who is away, and who was."""
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    rows, listing = queries.pauses_of(garden), pauses_list(garden.today())
    return list_page(request, "plots/care_pauses.html", listing, rows, garden=garden)
