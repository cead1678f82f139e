"""Lists of the ground and its people, with what a page shows of them."""

from __future__ import annotations

from django.db.models import Prefetch, QuerySet

from plots.models import Assignment, Garden, Membership, Plot, Season
from plots.spelling import name_key, natural_key


def plots_with_holders(plots: QuerySet[Plot]) -> list[Plot]:
    """The plots in the order of their stakes (2 before 10), each with its `current` assignments."""
    open_ones = Assignment.objects.filter(ended_on__isnull=True).select_related("holder", "season")
    current = Prefetch("assignments", open_ones.prefetch_related("co_gardeners"), to_attr="current")
    return sorted(plots.prefetch_related(current), key=lambda plot: natural_key(plot.label))


def history_of(plot: Plot) -> QuerySet[Assignment]:
    return plot.assignments.select_related("holder", "season").prefetch_related("co_gardeners")


def members_of(garden: Garden) -> list[Membership]:
    """Whoever belongs to the garden, by name."""
    members = garden.memberships.filter(user__is_active=True).select_related("user")
    return sorted(members, key=lambda membership: (name_key(membership.user.name), membership.pk))


def season_now(garden: Garden) -> Season | None:
    """The season that today falls in, else the latest one."""
    today = garden.today()
    return garden.seasons.filter(starts_on__lte=today, ends_on__gte=today).first() or garden.seasons.first()
