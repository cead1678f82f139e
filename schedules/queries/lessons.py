"""What the garden's own sowings teach, read at once for all its crops."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, field

from crops.facts import CropFacts
from crops.models import Crop, Variety
from crops.queries import crops_for
from crops.wording.names import crop_label
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


@dataclass(frozen=True)
class CropLesson:
    """What was taught of a crop or a variety; `taught` is `None` where all its sowings were set `aside`."""

    crop: Crop
    variety: Variety | None
    taught: Taught | None
    aside: int

    @property
    def name(self) -> str:
        return crop_label(self.crop, self.variety)


def lessons_by_crop(garden: Garden) -> list[CropLesson]:
    """Every crop and variety of which the garden has sowings of its own, by name."""
    lessons, aside = lessons_of(garden), _set_aside(garden)
    keys = lessons.grown.keys() | aside.keys()
    crops = {crop.pk: crop for crop in crops_for(garden)}
    kept = Variety.objects.filter(pk__in=[variety for _crop, variety in keys if variety])
    varieties = {variety.pk: variety for variety in kept.select_related("crop")}
    found = []
    for crop_pk, variety_pk in keys:
        crop, variety = crops[crop_pk], varieties.get(variety_pk)
        facts = crop.facts() if variety is None else variety.facts()
        own = lessons.grown.get((crop_pk, variety_pk))
        lesson = lessons.lesson(facts, crop_pk, variety_pk) if own else None
        found.append(CropLesson(crop, variety, lesson, aside[crop_pk, variety_pk]))
    return sorted(found, key=lambda one: one.name)


def _set_aside(garden: Garden) -> Counter[CropKey]:
    """How many sowings were set aside, by crop and by variety."""
    rows = Ripening.objects.filter(planting__plot__garden=garden, planting__removed_at=None, counts=False)
    sown = rows.values_list("planting__crop_id", "planting__variety_id")
    return Counter(key for crop, variety in sown for key in {(crop, None), (crop, variety)})


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
