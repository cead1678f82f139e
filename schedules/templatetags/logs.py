"""Logs and amounts in words."""

from __future__ import annotations

import json
from datetime import datetime
from uuid import uuid4

from django import template
from django.utils.formats import date_format

from crops.models import Planting
from crops.wording.names import crop_label
from plots.models import Garden
from schedules.entries import Entry
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


@register.simple_tag
def new_key() -> str:
    """A key of its own for each form, so that what is sent twice is kept once."""
    return str(uuid4())


@register.simple_tag
def ways_to_log(*, first: int | None = None) -> list[tuple[str, str]]:
    """Every kind of work with its word, the commonest first; with `first` only so many."""
    return words.ways()[:first]


@register.filter
def tick_work(entry: Entry) -> str:
    """What the button says that ticks a job off: “Thinned”."""
    return words.work_word(entry.operation)


@register.filter
def tick_line(entry: Entry) -> str:
    """What a ticked job becomes as a log: “Thinned carrot, plot 12”."""
    return words.tick_text(entry)


@register.filter
def typed_number(value: float) -> str:
    """A number as somebody would type it, whatever the page's language."""
    return f"{value:.10g}"


@register.filter
def by_garden_clock(moment: datetime, garden: Garden) -> str:
    """A moment as the clocks of the garden showed it."""
    return date_format(moment.astimezone(garden.zone).replace(tzinfo=None), "DATETIME_FORMAT")
