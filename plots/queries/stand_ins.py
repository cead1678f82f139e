"""Who looks after whose plot."""

from __future__ import annotations

from django.db.models import Q, QuerySet

from plots.models import Assignment, Garden, StandIn, User


def holdings_of(person: User, garden: Garden) -> list[Assignment]:
    """What somebody holds or shares, now or agreed for later, with its people; 2 queries."""
    mine = Q(holder=person) | Q(co_gardeners=person)
    rows = Assignment.objects.standing(garden.today()).filter(mine, plot__garden=garden)
    return list(rows.select_related("plot", "holder").prefetch_related("co_gardeners").distinct())


def stand_ins_ahead(garden: Garden) -> QuerySet[StandIn]:
    """Neighbours who look after a plot, today or later."""
    rows = StandIn.objects.filter(taken_back_at=None, assignment__plot__garden=garden)
    return rows.filter(last_day__gte=garden.today()).select_related("assignment__plot", "person", "asked_by")
