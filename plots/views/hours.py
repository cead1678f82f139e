"""Hours of work: everybody's for who runs workdays, and one's own."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.workdays import ExcuseForm, HoursForm
from plots.hours import HOUR, State
from plots.listing import Column, Filter, Listing
from plots.models import Garden, HoursDone, Season, User
from plots.powers import Power
from plots.queries import HoursRow
from plots.views.answers import list_page, page_with_form, typed
from plots.wording.hours import STATES, reason_text


def _hours(minutes: int) -> float:
    return round(minutes / HOUR, 2)


LISTING: Listing[HoursRow] = Listing(
    columns=[
        Column("who", gettext_lazy("Who"), lambda row: ", ".join(one.name for one in row.people)),
        Column("plots", gettext_lazy("Plots"), lambda row: ", ".join(plot.label for plot in row.plots)),
        Column("owed", gettext_lazy("Hours owed"), lambda row: _hours(row.standing.owed)),
        Column("done", gettext_lazy("Done"), lambda row: _hours(row.standing.done)),
        Column("left", gettext_lazy("Left"), lambda row: _hours(row.standing.left)),
        Column("due", gettext_lazy("Until"), lambda row: row.standing.due, on_page=False),
        Column("state", gettext_lazy("State"), lambda row: str(STATES[row.state])),
    ],
    filters=[
        Filter(
            "state",
            gettext_lazy("State"),
            [(state.value, title) for state, title in STATES.items()],
            lambda row, word: row.state == word,
        ),
        Filter(
            "here",
            gettext_lazy("Holding"),
            [("now", gettext_lazy("a plot now")), ("left", gettext_lazy("no longer, or none"))],
            lambda row, word: (not row.standing.has_left and bool(row.plots)) == (word == "now"),
        ),
    ],
    text=lambda row: " ".join([*(one.name for one in row.people), *(plot.label for plot in row.plots)]),
)

DONE: Listing[HoursDone] = Listing(
    columns=[
        Column("day", gettext_lazy("Day"), lambda one: one.day),
        Column("what", gettext_lazy("What"), lambda one: one.title),
        Column("hours", gettext_lazy("Hours"), lambda one: _hours(one.minutes)),
        Column("counts", gettext_lazy("Counts"), lambda one: one.removed_at is None, on_page=False),
    ],
    filters=[
        Filter(
            "counts",
            gettext_lazy("Counts"),
            [("yes", gettext_lazy("counts")), ("no", gettext_lazy("does not count"))],
            lambda one, word: (one.removed_at is None) == (word == "yes"),
        )
    ],
    text=lambda one: one.title,
)


@require_safe
def hours(request: HttpRequest, slug: str) -> HttpResponse:
    """Everybody's hours in a season, `?season=`."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    season = _season(request, garden)
    today = garden.today()
    rows = queries.season_hours(season, today=today) if season else []
    members = dict(garden.memberships.values_list("user", "pk"))
    guests = list(queries.guests_of(garden, season).values_list("minutes", flat=True)) if season else []
    context = {
        "season": season,
        "seasons": list(garden.seasons.all()),
        "rule": queries.hours_rule(season) if season else None,
        "members": members,
        "total": sum(row.standing.done for row in rows),
        "guests": len(guests),
        "guest_total": sum(guests),
        "count": sum(row.state == State.OVERDUE for row in rows),
    }
    return list_page(request, "plots/hours.html", LISTING, rows, garden=garden, **context)


@require_safe
def hours_own(request: HttpRequest, slug: str) -> HttpResponse:
    """What the reader owes, did and has left, alone or with those who garden with them."""
    garden = access.garden_to_see(request.user, slug)
    context = _of_person(request, garden, request.user)
    context |= {"jobs": [job for job in queries.make_up_jobs(garden) if job.free != 0]}
    return list_page(request, "plots/hours_person.html", DONE, context.pop("done"), **context)


@page_with_form
def hours_person(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One member's hours; more of them are kept by hand here."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    person = get_object_or_404(garden.memberships.select_related("user"), pk=pk).user
    form = HoursForm(garden, typed(request))
    if form.is_bound and form.is_valid():
        service.add_hours(garden=garden, person=person, by=request.user, **form.cleaned_data)
        messages.success(request, _("The hours are kept."))
        return redirect("plots:hours_person", slug, pk)
    context = _of_person(request, garden, person)
    changes = queries.changes_of(garden, person, only=["hours-excused"])
    context |= {"form": form, "membership_pk": pk, "changes": changes}
    context |= {"may_run": True, "excuse": _excuse_form(context["season"], person)}
    return _with_list(request, context, 422 if form.errors else 200)


def _with_list(request: HttpRequest, context: dict[str, object], status: int) -> HttpResponse:
    answer = list_page(request, "plots/hours_person.html", DONE, context.pop("done"), **context)
    answer.status_code = status
    return answer


def _of_person(request: HttpRequest, garden: Garden, person: User) -> dict[str, object]:
    season = _season(request, garden)
    rows = queries.season_hours(season, today=garden.today()) if season else []
    own = [row for row in rows if person in row.people]
    return {
        "garden": garden,
        "person": person,
        "season": season,
        "seasons": list(garden.seasons.all()),
        "standings": [(row, _reasons(row)) for row in own],
        "done": list(queries.hours_of(person, garden, season)),
        "is_own": person == request.user,
    }


def _reasons(row: HoursRow) -> list[str]:
    names = {one.pk: one.name for one in row.people}
    return [reason_text(reason, names) for reason in row.standing.reasons]


def _season(request: HttpRequest, garden: Garden) -> Season | None:
    asked = request.GET.get("season", "")
    found = garden.seasons.filter(pk=int(asked)).first() if asked.isdecimal() and len(asked) < 10 else None
    return found or queries.season_now(garden)


def _excuse_form(season: Season | None, person: User) -> ExcuseForm | None:
    if season is None:
        return None
    row = season.hours_excused.filter(person=person).first()
    scope = "none" if row is None else "some" if row.minutes else "all"
    return ExcuseForm(initial={"scope": scope, "minutes": row.minutes if row else None})


@require_POST
def hours_excuse(request: HttpRequest, slug: str, pk: int, season_pk: int) -> HttpResponse:
    """Excuses the member from some or all of a season's hours."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    person = get_object_or_404(garden.memberships.select_related("user"), pk=pk).user
    season = get_object_or_404(garden.seasons, pk=season_pk)
    form = ExcuseForm(request.POST)
    if form.is_valid():
        service.excuse(season=season, person=person, minutes=form.excused, by=request.user)
        messages.success(request, _("What is owed has changed."))
        return redirect("plots:hours_person", slug, pk)
    context = _of_person(request, garden, person)
    context |= {"form": HoursForm(garden), "membership_pk": pk, "may_run": True, "excuse": form}
    return _with_list(request, context, 422)


@require_POST
def hours_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Counts hours no more, with a way back."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    row = get_object_or_404(garden.hours_done, pk=pk)
    service.remove_hours(hours=row, by=request.user)
    messages.success(
        request, _("These hours no longer count."), extra_tags=reverse("plots:hours_restore", args=[slug, pk])
    )
    return _to_whose(garden, row.person_id, row.workday_id)


@require_POST
def hours_restore(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    row = get_object_or_404(garden.hours_done, pk=pk)
    try:
        service.restore_hours(hours=row)
    except ValidationError as error:
        messages.error(request, error.messages[0])
    else:
        messages.success(request, _("These hours count again."))
    return _to_whose(garden, row.person_id, row.workday_id)


def _to_whose(garden: Garden, person_pk: int | None, workday_pk: int | None) -> HttpResponse:
    membership = garden.memberships.filter(user=person_pk).first() if person_pk else None
    if membership is not None:
        return redirect("plots:hours_person", garden.slug, membership.pk)
    if workday_pk is not None:
        return redirect("plots:workday", garden.slug, workday_pk)
    return redirect("plots:hours", garden.slug)
