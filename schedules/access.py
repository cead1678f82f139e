"""A planting is seen and planned by whoever may see and plan its plot; `plots.access` decides."""

from __future__ import annotations

from django.http import Http404

from crops.models import Planting
from crops.queries import plantings_with_facts
from plots.access import Visitor, garden_to_see, plot_to_plan, plot_to_see


def planting_to_see(user: Visitor, slug: str, planting_pk: int) -> Planting:
    """A planting that still stands in its plan, with its facts and its garden at hand."""
    garden = garden_to_see(user, slug)
    try:
        planting = plantings_with_facts(garden).get(pk=planting_pk)
    except Planting.DoesNotExist:
        raise Http404 from None
    planting.plot = plot_to_see(user, garden, planting.plot_id)
    return planting


def planting_to_plan(user: Visitor, slug: str, planting_pk: int) -> Planting:
    """As `planting_to_see`, for somebody who may also change it."""
    planting = planting_to_see(user, slug, planting_pk)
    plot_to_plan(user, planting.plot.garden, planting.plot_id)
    return planting


def removed_to_restore(user: Visitor, slug: str, planting_pk: int) -> Planting:
    """A planting that was taken out of the plan and may be put back."""
    garden = garden_to_see(user, slug)
    try:
        planting = Planting.objects.get(pk=planting_pk, plot__garden=garden, removed_at__isnull=False)
    except Planting.DoesNotExist:
        raise Http404 from None
    planting.plot = plot_to_plan(user, garden, planting.plot_id)
    return planting
