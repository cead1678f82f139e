"""Lists of the ground and its people, with what a page shows of them."""

from __future__ import annotations

from datetime import date

from django.db.models import Prefetch, Q, QuerySet

from plots.models import Assignment, Garden, Membership, Plot, Season, User
from plots.spelling import natural_key
from plots.stakes import read_code


def plots_with_holders(plots: QuerySet[Plot], *, today: date) -> list[Plot]:
    """The plots in the order of their stakes (2 before 10), with who holds them.

    Each has its `current` assignments, of today, and those `coming`, agreed for later.
    """
    standing = Assignment.objects.standing(today).order_by("began_on").select_related("holder", "season")
    held = Prefetch("assignments", standing.prefetch_related("co_gardeners"), to_attr="standing")
    found = sorted(plots.prefetch_related(held), key=lambda plot: natural_key(plot.label))
    for plot in found:
        plot.current = [assignment for assignment in plot.standing if assignment.began_on <= today]
        plot.coming = [assignment for assignment in plot.standing if assignment.began_on > today]
    return found


def plot_of_stake(typed: str) -> Plot | None:
    """The plot whose stake bears this code, unless it was given up."""
    code = read_code(typed)
    plot = Plot.objects.select_related("garden").filter(stake_code=code).first() if code else None
    if plot is None or (plot.retired_on and plot.retired_on <= plot.garden.today()):
        return None
    return plot


def holders_by_time(plot: Plot, *, today: date) -> dict[str, list[Assignment]]:
    """Who holds the plot: `current` today, `coming` as agreed, `past` with the latest first."""
    history = list(history_of(plot))
    standing = [held for held in history if held.ended_on is None or held.ended_on >= today]
    return {
        "current": [held for held in standing if held.began_on <= today],
        "coming": [held for held in reversed(standing) if held.began_on > today],
        "past": [held for held in history if held not in standing],
    }


def history_of(plot: Plot) -> QuerySet[Assignment]:
    return plot.assignments.select_related("holder", "season").prefetch_related("co_gardeners")


def members_of(garden: Garden) -> QuerySet[Membership]:
    return garden.memberships.filter(user__is_active=True).select_related("user").order_by("user__name", "pk")


def plots_of_household(garden: Garden, person: User, *, day: date) -> int:
    """How many plots the person's household holds on the day or from a later one on."""
    household = Membership.objects.filter(garden=garden, user=person).values_list("household", flat=True)
    people = Q(holder=person) | Q(
        holder__memberships__garden=garden, holder__memberships__household__in=household
    )
    held = Assignment.objects.standing(day).filter(people, plot__garden=garden)
    return held.values("plot").distinct().count()


def season_after(garden: Garden) -> Season:
    """An unsaved season that follows the latest one, a year later; of this year where there is none."""
    latest = garden.seasons.first()
    if latest is None:
        year = garden.today().year
        starts_on, ends_on = date(year, 1, 1), date(year, 12, 31)
    else:
        starts_on, ends_on = (_a_year_later(day) for day in (latest.starts_on, latest.ends_on))
    return Season(garden=garden, name=str(starts_on.year), starts_on=starts_on, ends_on=ends_on)


def _a_year_later(day: date) -> date:
    leap_day = (day.month, day.day) == (2, 29)
    return day.replace(year=day.year + 1, day=28 if leap_day else day.day)


def season_now(garden: Garden) -> Season | None:
    """The season that today falls in, else the latest one."""
    today = garden.today()
    return garden.seasons.filter(starts_on__lte=today, ends_on__gte=today).first() or garden.seasons.first()
