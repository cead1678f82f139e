"""What the garden's own sowings teach, read at once for all its crops."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

from crops.facts import CropFacts
from plots.models import Garden
from schedules.learned import Grown, Taught, as_taught, taught
from schedules.models import Ripening

CropKey = tuple[int, int | None]
"""A crop, and a variety of it or none."""


@dataclass(frozen=True)
class Lessons:
    """The garden's sowings that ripened, by crop and variety; a crop learns from all its varieties."""

    grown: dict[CropKey, list[Grown]] = field(default_factory=dict)

    def lesson(self, facts: CropFacts, crop: int, variety: int | None) -> Taught | None:
        """What was taught of a variety, or, where it has no records of its own, of its crop."""
        return taught(facts, self.grown.get((crop, variety)) or self.grown.get((crop, None), []))

    def facts(self, facts: CropFacts, crop: int, variety: int | None) -> CropFacts:
        """Published facts with the days to maturity of this garden."""
        return as_taught(facts, self.lesson(facts, crop, variety))


def lessons_of(garden: Garden) -> Lessons:
    """What counts of the garden's sowings; 1 query."""
    rows = Ripening.objects.filter(planting__plot__garden=garden, planting__removed_at=None, counts=True)
    grown: dict[CropKey, list[Grown]] = defaultdict(list)
    columns = ("planting__crop_id", "planting__variety_id", "expected_days", "begun_on", "picked_on")
    for crop, variety, expected, begun, picked in rows.values_list(*columns):
        one = Grown(expected, (picked - begun).days)
        grown[crop, None].append(one)
        if variety is not None:
            grown[crop, variety].append(one)
    return Lessons(dict(grown))
