"""Logs and amounts in words."""

from __future__ import annotations

import json

from django import template

from crops.models import Planting
from crops.wording.names import crop_label
from schedules.models import BunchWeight, WorkLog
from schedules.wording import logs as words

register = template.Library()


@register.filter
def log_line(log: WorkLog) -> str:
    """As in “Watered plot 12, 10 min at the hose”."""
    return words.log_text(log)


@register.filter
def planting_line(planting: Planting) -> str:
    """As in “Carrot, autumn 2026”."""
    return words.planting_text(planting, 0)


@register.filter
def amount_line(log: WorkLog) -> str:
    """The amount as it was typed, and what was made of it."""
    return words.amount_line(log)


@register.filter("json")
def as_json(value: object) -> str:
    """For an attribute that a script reads; escaped like any other text."""
    return json.dumps(value)


@register.filter
def weight(grams: float, units: str) -> str:
    """Grams as pounds and ounces, or as kilograms and grams."""
    return words.weight_text(grams, units)


@register.filter
def crop_line(row: BunchWeight) -> str:
    """The crop of bunches, in the reader's language."""
    return crop_label(row.crop)


@register.filter
def litres_of(litres: float, units: str) -> str:
    """Litres as gallons or litres, to the tenth."""
    return words.volume_text(litres, units)
