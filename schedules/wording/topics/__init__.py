"""The topics of workshop packs, in the order in which a pack has them."""

from __future__ import annotations

from schedules.wording.topics import (
    bed_plan,
    closing,
    compost,
    feeding,
    frost_risk,
    kinds_of_garden,
    mulch,
    new_ground,
    pests,
    place_and_sun,
    plant_by_crop,
    plant_by_month,
    soil,
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
    water.TOPIC,
    feeding.TOPIC,
    compost.TOPIC,
    mulch.TOPIC,
    pests.TOPIC,
    closing.TOPIC,
)
TOPICS: dict[str, Topic] = {topic.code: topic for topic in _IN_ORDER}
