"""The garden's dates in words."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from plots.dates import Certainty, GardenDay

CERTAINTIES: dict[Certainty, Promise] = {
    Certainty.FIRM: gettext_lazy("takes place"),
    Certainty.IF_RAIN: gettext_lazy("only if the first day is rained off"),
    Certainty.OFF: gettext_lazy("does not take place"),
}
GROUPS: dict[str, Promise] = {
    "workday": gettext_lazy("workdays"),
    "deadline": gettext_lazy("deadlines"),
    "garden": gettext_lazy("garden and water"),
    "other": gettext_lazy("meetings and other dates"),
}
_ENDS = (".", "!", "?", "…", "。", "？", "！")
_DEADLINES = ("deadline", "renewal", "hours", "clear_by")
_GARDEN = ("opens", "water_on", "water_off", "closes", "season")


def told(day: GardenDay) -> str:
    """What a date of the garden is, how sure, where, and what else to know: a sentence each."""
    sure = "" if day.certainty is Certainty.FIRM else str(CERTAINTIES[day.certainty])
    *before, last = [_sentence(part) for part in (day.title, sure, day.place, day.note) if part]
    return " ".join([*(part if part.endswith(_ENDS) else f"{part}." for part in before), last])


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:].removesuffix(".")


def group_of(day: GardenDay) -> str:
    """Which of `GROUPS` a date belongs to."""
    if day.kind == "workday":
        return "workday"
    if day.kind in _DEADLINES:
        return "deadline"
    return "garden" if day.kind in _GARDEN else "other"
