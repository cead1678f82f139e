"""The weekly letter of a member: this week's jobs at their plots, and the garden's dates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import QuerySet
from django.utils import translation

from plots.access import own_plots
from plots.models import Garden, Membership
from plots.queries import dates_of
from schedules.jobs import jobs_in_week, monday_of
from schedules.service.calendar import GardenDates, years_around
from schedules.wording.letters import letter_body, letter_subject

DAYS_AHEAD = 14  # dates of the garden that a letter tells


@dataclass(frozen=True, slots=True)
class WeeklyLetter:
    subject: str
    body: str


def choose_letter(*, membership: Membership, wanted: bool) -> None:
    """The member asks for the letter, or no more."""
    Membership.objects.filter(pk=membership.pk).update(weekly_letter=wanted)


def readers_of(garden: Garden) -> QuerySet[Membership]:
    """Who asked for the letter and can get it."""
    return (
        garden.memberships.filter(weekly_letter=True, user__is_active=True, user__email__isnull=False)
        .select_related("user", "garden__rules")
        .order_by("user__name", "pk")
    )


def readers_on_paper(garden: Garden, *, can_send: bool) -> QuerySet[Membership]:
    """Who asked for the letter and cannot get it by email: without an address, or nothing can be sent."""
    asked = garden.memberships.filter(weekly_letter=True, user__is_active=True)
    if can_send:
        asked = asked.filter(user__email__isnull=True)
    return asked.select_related("user", "garden__rules").order_by("user__name", "pk")


def weekly_letter(membership: Membership, today: date, dates: GardenDates | None = None) -> WeeklyLetter:
    """The letter for the week that begins within the next days; from Saturday on the coming week."""
    garden, person = membership.garden, membership.user
    monday = monday_of(today + timedelta(days=2))
    dates = dates or GardenDates.of(garden)
    plots = [plot for plot in own_plots(person, garden) if plot.retired_on is None]
    entries = dates.entries(plots, years_around(monday)) if dates and plots else []
    days = dates_of(garden, today, today + timedelta(days=DAYS_AHEAD), public=True)
    with translation.override(person.language or garden.language or translation.get_language()):
        jobs = jobs_in_week(entries, monday)
        body = letter_body(garden.name, person.name, monday, jobs, days, many=len(plots) > 1)
        return WeeklyLetter(letter_subject(garden.name, monday), body)


def due_on(garden: Garden, today: date) -> bool:
    return today.weekday() == garden.rules.letter_weekday


def claim(membership: Membership, today: date) -> bool:
    """Marks today's letter as sent, once, whoever else runs the command at the same time."""
    rows = Membership.objects.filter(pk=membership.pk, weekly_letter=True).exclude(letter_on=today)
    return bool(rows.update(letter_on=today))


def release(membership: Membership, today: date) -> None:
    """The letter did not go out: the next run tries again."""
    Membership.objects.filter(pk=membership.pk, letter_on=today).update(letter_on=None)
