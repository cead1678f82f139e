"""Nerve, chances and fits in a template."""

from __future__ import annotations

from django import template

from crops.models import Planting
from crops.wording.names import crop_label
from schedules.chance import Chance, NoChance
from schedules.nerve import Cost, Move
from schedules.windows import Start, Turn
from schedules.windows.ripening import Pace
from schedules.wording import choosing as words

register = template.Library()

register.filter("nerve_name", words.nerve_name)
register.filter("choice_text", words.choice_text)
register.filter("asked_text", words.asked_text)
register.filter("share_text", words.share_text)
register.filter("fit_way", words.fit_way)
register.filter("likely_text", words.likely_text)
register.filter("sowing_text", words.sowing_text)
register.filter("raised_text", words.raised_text)
register.filter("losses", words.losses_text)


@register.filter
def cost_heading(turn: Turn, number: int) -> str:
    """The heading of the column of days (0) or of risks (1)."""
    return words.cost_heading(turn)[number]


@register.filter
def gain_text(cost: Cost, turn: Turn) -> str:
    return words.gain_text(cost, turn)


@register.filter
def move_text(move: Move, turn: Turn) -> str:
    return words.move_text(move, turn)


@register.filter
def quick_chance(chance: Chance | NoChance, units: str) -> str:
    return words.chance_text(chance, Pace.QUICK, units)


@register.filter
def slow_chance(chance: Chance | NoChance, units: str) -> str:
    return words.chance_text(chance, Pace.SLOW, units)


@register.filter
def percent_text(chance: Chance | NoChance) -> str:
    """The chance in a table; a dash where none can be told."""
    return words.percent_text(chance)


@register.filter
def start_name(start: Start) -> str:
    """As in “Sown or set in its place”."""
    return words.start_name(start)


@register.simple_tag
def planting_name(planting: Planting) -> str:
    """The crop with its variety."""
    return crop_label(planting.crop, planting.variety)
