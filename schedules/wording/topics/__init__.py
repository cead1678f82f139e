"""The topics of workshop packs, in the order in which a pack has them."""

from __future__ import annotations

from schedules.wording.topics import frost_risk, plant_by_crop, plant_by_month
from schedules.wording.topics.topic import Question, Topic

__all__ = ["TOPICS", "Question", "Topic"]

_IN_ORDER: tuple[Topic, ...] = (
    plant_by_crop.TOPIC,
    plant_by_month.TOPIC,
    frost_risk.TOPIC,
)
TOPICS: dict[str, Topic] = {topic.code: topic for topic in _IN_ORDER}
