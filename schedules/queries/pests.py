"""What is known of pests and damage, each in a bounded number of queries."""

from __future__ import annotations

from django.db.models import Count, QuerySet

from plots.models import Garden
from plots.spelling import folded
from schedules.models import Guidance, Sighting, Treatment


def guidance_of(garden: Garden) -> QuerySet[Guidance]:
    """What the garden advises, by the name of the thing."""
    return Guidance.objects.filter(garden=garden, removed_at__isnull=True)


def guidance_about(garden: Garden, seen: str) -> list[Guidance]:
    """The garden's advice about what was seen; "aphids on beans" finds that about aphids, too."""
    words = folded(seen)
    return [one for one in guidance_of(garden) if one.thing_folded in words]


def sightings_of(garden: Garden) -> QuerySet[Sighting]:
    """What was seen, latest first, with the log, where and on what, and how many words went out about it."""
    return (
        Sighting.objects.filter(log__garden=garden, log__removed_at__isnull=True)
        .select_related(
            "log__plot", "log__person", "log__crop", "log__planting__crop", "log__planting__variety"
        )
        .annotate(told=Count("words"))
        .order_by("-log__day", "-pk")
    )


def treatments_of(garden: Garden) -> QuerySet[Treatment]:
    """Products used, latest first, with where, on what and by whom."""
    standing = Treatment.objects.filter(log__garden=garden, log__removed_at__isnull=True)
    return standing.select_related(
        "log__plot", "log__person", "log__crop", "log__planting__crop", "log__planting__variety"
    )
