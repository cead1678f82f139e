"""Who lives and gardens together, and how many plots each household holds."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from plots import access, queries
from plots.listing import Column, Filter, Listing
from plots.powers import Power
from plots.queries.households import ABOVE, AT, BELOW, NONE, HouseholdRow
from plots.views.answers import list_page

STATES = [
    (ABOVE, gettext_lazy("more plots than the rules allow")),
    (AT, gettext_lazy("as many as the rules allow")),
    (BELOW, gettext_lazy("fewer")),
    (NONE, gettext_lazy("no plot")),
]
WORDS = dict(STATES)


def _members(row: HouseholdRow) -> str:
    return ", ".join(member.user.name for member in row.members)


HOUSEHOLDS: Listing[HouseholdRow] = Listing(
    columns=[
        Column("household", gettext_lazy("Household"), lambda row: row.name),
        Column("members", gettext_lazy("Members"), _members),
        Column("plots", gettext_lazy("Plots"), lambda row: ", ".join(row.plots)),
        Column("count", gettext_lazy("How many"), lambda row: len(row.plots)),
        Column("allowed", gettext_lazy("Allowed"), lambda row: row.allowed, on_page=False),
        Column("state", gettext_lazy("State"), lambda row: str(WORDS[row.state]), on_page=False),
    ],
    filters=[
        Filter("state", gettext_lazy("Plots"), STATES, lambda row, word: row.state == word),
        Filter(
            "kind",
            gettext_lazy("Household"),
            [("together", gettext_lazy("several together")), ("alone", gettext_lazy("one alone"))],
            lambda row, word: row.together == (word == "together"),
        ),
    ],
    text=lambda row: f"{row.name} {_members(row)} {' '.join(row.plots)}",
)


@require_safe
def households(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    rows = queries.households_of(garden, today=garden.today())
    return list_page(request, "plots/households.html", HOUSEHOLDS, rows, garden=garden, words=WORDS)
