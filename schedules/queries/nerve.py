"""How much frost risk the people of a plot accept."""

from __future__ import annotations

from django.db.models import F, OuterRef, QuerySet, Subquery, Value
from django.db.models.functions import Coalesce

from plots.models import Assignment, Garden, Plot


def holder_nerve(garden: Garden, plot: OuterRef) -> Coalesce:
    """For plantings: the nerve of who holds the `plot`, now or as agreed for later; empty for none chosen."""
    return Coalesce(Subquery(_nerves(garden, plot)[:1]), Value(""))


def nerve_of_holder(plot: Plot) -> str:
    """The nerve of who holds a plot; empty for none chosen. 1 query."""
    return _nerves(plot.garden, plot).first() or ""


def _nerves(garden: Garden, plot: Plot | OuterRef) -> QuerySet[Assignment, str]:
    standing = Assignment.objects.standing(garden.today()).filter(plot=plot)
    theirs = standing.filter(holder__memberships__garden=garden).order_by("began_on", "pk")
    return theirs.annotate(nerve=F("holder__memberships__nerve")).values_list("nerve", flat=True)
