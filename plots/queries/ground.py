"""Lists of the ground and its people, with what a page shows of them."""

from __future__ import annotations

from datetime import date

from django.db.models import Prefetch, QuerySet

from plots.models import Assignment, Garden, Membership, Plot, Season
from plots.spelling import natural_key


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


def history_of(plot: Plot) -> QuerySet[Assignment]:
    return plot.assignments.select_related("holder", "season").prefetch_related("co_gardeners")


def members_of(garden: Garden) -> QuerySet[Membership]:
    return garden.memberships.filter(user__is_active=True).select_related("user").order_by("user__name", "pk")


def season_now(garden: Garden) -> Season | None:
    """The season that today falls in, else the latest one."""
    today = garden.today()
    return garden.seasons.filter(starts_on__lte=today, ends_on__gte=today).first() or garden.seasons.first()
