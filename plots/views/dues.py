"""Dues: what is due, paid or waived. No card is charged, no proof asked."""

from __future__ import annotations

from decimal import Decimal

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.turn import DueForm
from plots.listing import Column, Filter, Listing
from plots.models import Due
from plots.powers import Power
from plots.views.answers import chosen, form_page, list_page, page_with_form, typed

STATES = [
    ("due", gettext_lazy("due")),
    ("paid", gettext_lazy("paid")),
    ("waived", gettext_lazy("waived")),
]
WORDS = dict(STATES)
DUES: Listing[Due] = Listing(
    columns=[
        Column("person", gettext_lazy("Who"), lambda due: due.person.name),
        Column("what", gettext_lazy("What for"), lambda due: due.title),
        Column("season", gettext_lazy("Season"), lambda due: due.season.name),
        Column("amount", gettext_lazy("Amount"), lambda due: due.amount),
        Column("due_on", gettext_lazy("Due by"), lambda due: due.due_on),
        Column("state", gettext_lazy("State"), lambda due: str(WORDS[due.state])),
        Column("paid_on", gettext_lazy("Paid on"), lambda due: due.paid_on, on_page=False),
    ],
    filters=[Filter("state", gettext_lazy("State"), STATES, lambda due, word: due.state == word)],
    text=lambda due: f"{due.person.name} {due.title} {due.season.name}",
)


@require_safe
def dues(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.MONEY)
    rows = list(garden.dues.select_related("person", "season", "assignment__plot"))
    totals = {
        word: sum((due.amount for due in rows if due.state == word), Decimal(0)) for word, _title in STATES
    }
    seasons = queries.seasons_to_pay(garden)
    context = {
        "totals": totals,
        "words": WORDS,
        "seasons": seasons,
        "part": len(queries.part_dues(seasons)),
        "has_rates": garden.rules.dues_per_plot or garden.rules.dues_per_area,
    }
    return list_page(request, "plots/dues.html", DUES, rows, garden=garden, **context)


@require_POST
def dues_draw_up(request: HttpRequest, slug: str) -> HttpResponse:
    """The dues of every plot held in the season, for those not drawn up yet."""
    garden = access.garden_to_run(request.user, slug, Power.MONEY)
    season = chosen(garden.seasons.all(), request.POST.get("season", ""))
    if season is None:
        return redirect("plots:dues", slug)
    count = service.draw_up_dues(season=season, by=request.user, today=garden.today())
    words = ngettext("Dues for %(count)s plot are drawn up.", "Dues for %(count)s plots are drawn up.", count)
    messages.success(request, words % {"count": count})
    return redirect("plots:dues", slug)


@page_with_form
def due_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.MONEY)
    form = DueForm(garden, typed(request))
    if form.is_bound and form.is_valid():
        service.add_due(due=form.save(commit=False), by=request.user)
        messages.success(request, _("It is noted as due."))
        return redirect("plots:dues", slug)
    return form_page(request, "plots/due_new.html", form, garden=garden)


@page_with_form
def due(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One due with its history. The button pressed says paid, waived, or due again, which corrects those."""
    garden = access.garden_to_run(request.user, slug, Power.MONEY)
    owed = get_object_or_404(garden.dues.select_related("person", "season", "assignment__plot"), pk=pk)
    if request.method != "POST":
        context = {
            "garden": garden,
            "due": owed,
            "changes": queries.changes_of(garden, owed),
            "may_run": True,
        }
        return render(request, "plots/due.html", context)
    state = request.POST.get("state")
    if state in WORDS:
        owed = service.settle_due(due=owed, state=state, on=garden.today(), by=request.user)
        words = {"person": owed.person, "what": owed.title, "state": WORDS[state]}
        messages.success(request, _("%(person)s, %(what)s: %(state)s.") % words)
    asked = request.POST.get("list", "")[:200]
    address = redirect("plots:dues", slug)
    if asked.startswith("?"):
        address.headers["Location"] += asked
    return address
