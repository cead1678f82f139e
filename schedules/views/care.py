"""Care rounds: when the next is due, one round, and one plot after the other on a phone."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.care import rubric_lines
from plots.forms.care import FindingForm, PauseForm
from plots.forms.photos import ask_for_photos_again
from plots.models import CareRound, Garden, User
from plots.powers import Power
from plots.queries import Stop
from plots.service.photos import photograph
from plots.views.answers import list_page, page_with_form, typed
from schedules.service.care import care_stops, with_work
from schedules.views.care_lists import round_list


@require_safe
def care(request: HttpRequest, slug: str) -> HttpResponse:
    """What waits: the next round, matters that are ripe, who is away."""
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    today = garden.today()
    rows = queries.matters_of(garden, today=today)
    context = {
        "garden": garden,
        "due": queries.round_due(garden, today),
        "today": today,
        "rounds": queries.rounds_of(garden)[:6],
        "plot_count": queries.gardened_plots(garden).count(),
        "ripe": [row for row in rows if row.is_ripe],
        "open_count": sum(row.matter.closed_on is None for row in rows),
        "pauses": queries.pauses_running(garden, today),
    }
    return render(request, "schedules/care.html", context)


@require_POST
def care_begin(request: HttpRequest, slug: str) -> HttpResponse:
    """Begins today's round, or goes on with it, at the first plot not seen yet."""
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    round = service.begin_round(garden=garden, on=garden.today(), by=request.user)
    return _next(round, queries.stops_of(round), None)


@require_safe
def care_round(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """All plots of the round in the order of the walk, with what asks for a word."""
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    round = _round(garden, pk)
    rows = care_stops(round)
    context = {
        "garden": garden,
        "round": round,
        "left": [row.stop for row in rows if row.stop.found is None],
        "asking": [row for row in rows if row.stop.asks],
    }
    return list_page(request, "schedules/care_round.html", round_list(garden), rows, **context)


@page_with_form
def care_stop(request: HttpRequest, slug: str, pk: int, plot_pk: int) -> HttpResponse:
    """One plot of the round: a button for each state of the rubric leads on to the next plot."""
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    round = _round(garden, pk)
    stops = queries.stops_of(round)
    place = next((place for place, stop in enumerate(stops) if stop.plot.pk == plot_pk), None)
    if place is None:
        raise Http404
    stop = stops[place]
    form = FindingForm(
        typed(request), request.FILES or None, initial={"note": stop.found.note if stop.found else ""}
    )
    if form.is_bound and form.is_valid():
        try:
            _keep(round, stop, form, request.user)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("Plot %(plot)s is noted.") % {"plot": stop.plot})
            return _next(round, stops, place)
    return _stop_page(request, round, stops, place, form)


def _keep(round: CareRound, stop: Stop, form: FindingForm, by: User) -> None:
    """Keeps the finding first, then its photos, which are written outside its transaction."""
    told = form.cleaned_data
    finding = service.keep_finding(round=round, plot=stop.plot, line=told["line"], note=told["note"], by=by)
    photograph(finding=finding, pictures=told["photos"], by=by)


def _stop_page(
    request: HttpRequest, round: CareRound, stops: list[Stop], place: int, form: FindingForm
) -> HttpResponse:
    ask_for_photos_again(form)
    lines = rubric_lines(round.garden.rules.rubric)
    last = stops[place].last
    (row,) = with_work(round, [stops[place]], [stops[place].plot])
    context = {
        "garden": round.garden,
        "round": round,
        "stop": stops[place],
        "row": row,
        "form": form,
        "pause_form": PauseForm(),
        "lines": list(enumerate(lines, start=1)),
        "same": last.line
        if last and last.line <= len(lines) and lines[last.line - 1] == last.words
        else None,
        "place": place + 1,
        "count": len(stops),
        "seen": sum(stop.found is not None for stop in stops),
        "before": stops[place - 1].plot if place else None,
        "after": stops[place + 1].plot if place + 1 < len(stops) else None,
    }
    return render(request, "schedules/care_stop.html", context, status=422 if form.errors else 200)


def _round(garden: Garden, pk: int) -> CareRound:
    round = get_object_or_404(garden.care_rounds, pk=pk)
    round.garden = garden
    return round


def _next(round: CareRound, stops: list[Stop], place: int | None) -> HttpResponse:
    """To the next plot not seen yet, in the order of the walk and then from its beginning; else the round."""
    start = 0 if place is None else place + 1
    others = [*stops[start:], *stops[: max(0, start - 1)]]
    for stop in others:
        if stop.found is None:
            return redirect("plots:care_stop", round.garden.slug, round.pk, stop.plot.pk)
    return redirect(round)
