"""The topics of workshop packs, in the order in which a pack has them."""

from __future__ import annotations

from schedules.wording.topics import (
    autumn,
    bed_plan,
    closing,
    compost,
    feeding,
    frost_risk,
    hardening_off,
    harvest_and_washing,
    kinds_of_garden,
    mulch,
    new_ground,
    pests,
    place_and_sun,
    plant_by_crop,
    plant_by_month,
    seed_or_seedling,
    soil,
    sowing_depth,
    supports,
    thinning,
    water,
)
from schedules.wording.topics.topic import Question, Topic

__all__ = ["TOPICS", "Question", "Topic"]

_IN_ORDER: tuple[Topic, ...] = (
    plant_by_crop.TOPIC,
    plant_by_month.TOPIC,
    frost_risk.TOPIC,
    place_and_sun.TOPIC,
    kinds_of_garden.TOPIC,
    bed_plan.TOPIC,
    soil.TOPIC,
    new_ground.TOPIC,
    sowing_depth.TOPIC,
    seed_or_seedling.TOPIC,
    thinning.TOPIC,
    hardening_off.TOPIC,
    supports.TOPIC,
    water.TOPIC,
    feeding.TOPIC,
    compost.TOPIC,
    mulch.TOPIC,
    pests.TOPIC,
    autumn.TOPIC,
    closing.TOPIC,
    harvest_and_washing.TOPIC,
)
TOPICS: dict[str, Topic] = {topic.code: topic for topic in _IN_ORDER}
