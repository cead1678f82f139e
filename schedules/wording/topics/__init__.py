"""The topics of workshop packs, in the order in which a pack has them."""

from __future__ import annotations

from schedules.wording.topics.topic import Question, Topic

__all__ = ["TOPICS", "Question", "Topic"]

_IN_ORDER: tuple[Topic, ...] = ()
TOPICS: dict[str, Topic] = {topic.code: topic for topic in _IN_ORDER}
