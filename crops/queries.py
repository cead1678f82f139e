"""Reads of what grows, with everything that `facts()` needs in a bounded number of queries."""

from __future__ import annotations

from django.db.models import Prefetch, Q, QuerySet

from crops.models import Crop, EmergenceReading, FactSource, GerminationLimit, Planting, Variety
from plots.models import Garden, Plot


def crops_for(garden: Garden) -> QuerySet[Crop]:
    """The catalogue's crops and the garden's own, by name; 2 queries, 3 where there are emergence tables."""
    return (
        Crop.objects.filter(Q(garden=None) | Q(garden=garden))
        .select_related("emergence_table")
        .prefetch_related("emergence_table__readings")
    )


def crops_with_varieties(garden: Garden) -> QuerySet[Crop]:
    """As `crops_for`, each with the garden's varieties in `.own_varieties`."""
    varieties = Variety.objects.filter(garden=garden).select_related("crop")
    return crops_for(garden).prefetch_related(Prefetch("varieties", varieties, to_attr="own_varieties"))


def varieties_for(garden: Garden) -> QuerySet[Variety]:
    """A garden's varieties, with what their `facts()` need."""
    return (
        Variety.objects.filter(garden=garden)
        .select_related("crop__emergence_table")
        .prefetch_related("crop__emergence_table__readings")
    )


def plantings_with_facts(garden: Garden) -> QuerySet[Planting]:
    """A garden's plantings on the plan, without removed ones; plot, crop, variety and facts cost no query.

    Thousands of plantings share a few dozen crops: fetched once each, and not joined to every row, they come
    ten times as fast.
    """
    return Planting.objects.filter(plot__garden=garden, removed_at=None).prefetch_related(
        Prefetch("plot", Plot.objects.select_related("garden")),
        Prefetch("crop", crops_for(garden)),
        Prefetch("variety", varieties_for(garden)),
    )


def fact_sources_of(crop: Crop) -> QuerySet[FactSource]:
    """Where a crop's facts come from; 2 queries."""
    return crop.fact_sources.prefetch_related("sources")


def germination_of(crop: Crop) -> tuple[list[EmergenceReading], list[GerminationLimit]]:
    """The published readings and the rival limits that hold for a crop, with their sources; 2 queries."""
    readings = EmergenceReading.objects.filter(table=crop.emergence_table_id).select_related(
        "table", "source"
    )
    limits = GerminationLimit.objects.filter(table=crop.limits_table_id).select_related("table", "source")
    return list(readings), list(limits)
