"""The waiting list for whoever looks after it: the line, free plots, and one who waits."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.forms import BaseForm
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.timezone import localdate
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.waiting import ChoiceForm, EntryForm, ReasonForm
from plots.listing import Column, Filter, Listing
from plots.models import FINAL, Garden, LeftWhy, PlotChoice, RenewalRound, Season, WaitingEntry
from plots.powers import Power
from plots.queries import Stand
from plots.views.answers import form_page, list_page, page_with_form, saved, typed
from plots.waiting import State
from plots.wording import waiting as words

MOST_STANDS = 60  # proposals on the page; offers go out by the handful. An offer made is always on it.
STATES = [
    ("offer", gettext_lazy("has an offer")),
    ("reach", gettext_lazy("cannot be reached")),
    ("twice", gettext_lazy("perhaps on the list twice")),
    ("unmet", gettext_lazy("no plot here is what they wish")),
    ("full", gettext_lazy("household has its plots")),
]


def _is(row: queries.Row, word: str) -> bool:
    return {
        "offer": row.offer is not None,
        "reach": not row.entry.reachable,
        "twice": row.twice,
        "unmet": row.unmet,
        "full": row.full,
    }[word]


LINE: Listing[queries.Row] = Listing(
    columns=[
        Column("place", gettext_lazy("Place"), lambda row: row.place and row.place.number),
        Column("name", gettext_lazy("Name"), lambda row: row.entry.name),
        Column(
            "why", gettext_lazy("Why there"), lambda row: row.place and words.reasons_text(row.place.reasons)
        ),
        Column("joined", gettext_lazy("Joined"), lambda row: localdate(row.entry.joined_at), on_page=False),
        Column("phone", gettext_lazy("Telephone"), lambda row: row.entry.phone),
        Column("email", gettext_lazy("Email"), lambda row: row.entry.email, on_page=False),
        Column("address", gettext_lazy("Postal address"), lambda row: row.entry.address, on_page=False),
        Column("note", gettext_lazy("Note"), lambda row: row.entry.note, on_page=False),
    ],
    filters=[
        Filter(
            "accessible",
            gettext_lazy("Accessible bed"),
            [("yes", gettext_lazy("needed"))],
            lambda row, _word: row.entry.needs_accessible,
        ),
        Filter("state", gettext_lazy("Who"), STATES, _is),
    ],
    text=lambda row: f"{row.entry.name} {row.entry.phone} {row.entry.email} {row.entry.note}",
)
LEFT: Listing[WaitingEntry] = Listing(
    columns=[
        Column("name", gettext_lazy("Name"), lambda entry: entry.name),
        Column("why", gettext_lazy("Why"), lambda entry: entry.get_left_why_display()),
        Column("joined", gettext_lazy("Joined"), lambda entry: localdate(entry.joined_at)),
        Column("left", gettext_lazy("Left the list"), lambda entry: localdate(entry.left_at)),
    ],
    filters=[
        Filter("left", gettext_lazy("Why"), LeftWhy.choices, lambda entry, word: entry.left_why == word)
    ],
    text=lambda entry: f"{entry.name} {entry.phone} {entry.email}",
)


@require_safe
def waiting(request: HttpRequest, slug: str) -> HttpResponse:
    """Free plots with who is next for each, then everybody in line with the reason for their place."""
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    round = queries.open_round_of(garden)
    season = _season(request, garden, round)
    list_now = queries.waiting_list(garden)
    context = {
        "season": season,
        "seasons": garden.seasons.filter(ends_on__gte=garden.today()).order_by("starts_on"),
        **_stands(queries.stands(list_now, season) if season else [], garden),
        "interest": queries.interest_round_of(garden),
        "interest_due": queries.interest_due(list_now),
        "movers": round if round and garden.rules.movers_first and queries.movers_in(round) else None,
        "left_count": garden.waiting.filter(place__isnull=True).count(),
    }
    rows = queries.marked_rows(list_now)
    return list_page(request, "plots/waiting.html", LINE, rows, garden=garden, **context)


def _stands(every: list[Stand], garden: Garden) -> dict[str, object]:
    """What asks for a person plot by plot, and the plots that nobody can have together."""
    proposals = [one.plot.pk for one in every if one.situation.state is State.NEXT]
    later = set(proposals[MOST_STANDS:])
    idle: dict[str, list[Stand]] = {}
    shown = []
    for one in every:
        text = words.stand_text(one.situation, garden)
        if one.situation.state is State.NOBODY:
            idle.setdefault(text.nobody, []).append(one)
        elif one.plot.pk not in later:
            shown.append((one, text))
    return {"stands": shown, "idle": list(idle.items()), "more_stands": len(later)}


def _season(request: HttpRequest, garden: Garden, turning: RenewalRound | None) -> Season | None:
    asked = request.GET.get("season", "")
    chosen = garden.seasons.filter(pk=asked).first() if asked.isdecimal() and len(asked) < 19 else None
    if chosen:
        return chosen
    # While a season turns, a plot is worth offering for the season that comes.
    return turning.season if turning else queries.season_now(garden)


@require_safe
def waiting_left(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    rows = garden.waiting.filter(place__isnull=True).order_by("-left_at", "-pk")
    return list_page(request, "plots/waiting_left.html", LEFT, rows, garden=garden)


@page_with_form
def waiting_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Puts somebody on the list who asked in person, by telephone or on paper."""
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    form = EntryForm(garden, typed(request))
    if form.is_bound and form.is_valid():
        try:
            entry = service.join_list(entry=form.entry(), choices=form.chosen(), by=request.user)
        except ValidationError as error:
            form.add_error("member", error)
        else:
            messages.success(request, _("%(person)s is on the waiting list.") % {"person": entry})
            return redirect("plots:waiting_entry", slug, entry.pk)
    return form_page(request, "plots/waiting_edit.html", form, garden=garden)


@never_cache
@require_safe
def waiting_entry(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    return _entry_page(request, garden, get_object_or_404(garden.waiting, pk=pk), ReasonForm())


def _entry_page(request: HttpRequest, garden: Garden, entry: WaitingEntry, form: BaseForm) -> HttpResponse:
    list_now = queries.waiting_list(garden)
    row = list_now.row_of(entry.pk)
    context = {
        "entry": entry,
        "row": row,
        "place": words.place_text(row.place) if row and row.place else "",
        "ahead": words.ahead_text(list_now.ahead_of(row)) if row else [],
        "offers": entry.offers.select_related("plot", "season", "next_in_line"),
        "link": service.place_link(entry),
        "may_return": not entry.waits and entry.left_why not in FINAL,
        "changes": queries.changes_of(garden, entry),
        "may_run": True,
    }
    return form_page(request, "plots/waiting_entry.html", form, garden=garden, **context)


@page_with_form
def waiting_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    form = EntryForm(garden, typed(request), instance=get_object_or_404(garden.waiting, pk=pk))
    if form.is_bound and form.is_valid():
        why = form.cleaned_data["why"]
        service.change_entry(entry=form.entry(), choices=form.chosen(), by=request.user, why=why)
        messages.success(request, _("Kept."))
        return redirect("plots:waiting_entry", slug, pk)
    return form_page(request, "plots/waiting_edit.html", form, garden=garden)


@require_POST
def waiting_leave(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Ends a place: because the person asked for it, which is final, or for a reason that is kept."""
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    entry = get_object_or_404(garden.waiting, pk=pk)
    form = ReasonForm(request.POST)
    asked = "asked" in request.POST
    if not asked and not form.is_valid():
        return _entry_page(request, garden, entry, form)
    why = LeftWhy.CANCELLED if asked else LeftWhy.REMOVED
    reason = request.POST.get("reason", "")[:200]
    service.leave_list(entry=entry, why=why, by=request.user, reason=reason)
    messages.success(request, _("%(person)s is off the waiting list.") % {"person": entry})
    return redirect("plots:waiting_entry", slug, pk)


@require_POST
def waiting_return(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    entry = get_object_or_404(garden.waiting, pk=pk)
    form = ReasonForm(request.POST)
    if form.is_valid():
        try:
            service.reinstate(entry=entry, by=request.user, reason=form.cleaned_data["reason"])
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("%(person)s waits again, at the old date.") % {"person": entry})
            return redirect("plots:waiting_entry", slug, pk)
    return _entry_page(request, garden, entry, form)


@require_safe
def choices(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    rows = garden.plot_choices.prefetch_related("plots", "entries")
    return render(request, "plots/choices.html", {"garden": garden, "choices": rows})


@page_with_form
def choice_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    return _choice_form(request, garden, PlotChoice(garden=garden))


@page_with_form
def choice_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    return _choice_form(request, garden, get_object_or_404(garden.plot_choices, pk=pk))


def _choice_form(request: HttpRequest, garden: Garden, choice: PlotChoice) -> HttpResponse:
    form = ChoiceForm(garden, typed(request), instance=choice)
    keep = partial(
        service.keep_choice,
        choice=choice,
        plots=form.cleaned_data["plots"] if form.is_bound and form.is_valid() else (),
        by=request.user,
    )
    if form.is_bound and form.is_valid() and saved(form, keep):
        messages.success(request, _("Kept."))
        return redirect("plots:choices", garden.slug)
    return form_page(request, "plots/choice_edit.html", form, garden=garden)
