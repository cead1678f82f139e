"""What templates ask about pests and damage."""

from __future__ import annotations

from datetime import date, timedelta

from django import template
from django.utils.formats import date_format

from crops.models import Planting
from plots.models import Garden
from schedules.entries import Entry
from schedules.models import Guidance, Treatment, WorkLog
from schedules.queries import guidance_about, guidance_of
from schedules.reach import Reached
from schedules.service.scouting import hold_at, picked_too_early
from schedules.wording.intervals import hold_sentence, hold_short
from schedules.wording.pests import beside_text
from schedules.wording.pests import reach_text as why_reached

register = template.Library()


@register.simple_tag
def advice_about(garden: Garden, seen: str) -> list[Guidance]:
    """The garden's guidance about what was seen; for a page of one log, not for lists."""
    return guidance_about(garden, seen)


@register.simple_tag
def advice_of(garden: Garden) -> list[Guidance]:
    """All of the garden's guidance."""
    return list(guidance_of(garden))


@register.simple_tag
def held_today(planting: Planting) -> str:
    """Why the planting may not be picked today; empty where it may. For the page of one planting."""
    plot = planting.plot
    held = hold_at(plot, planting=planting.pk, crop=planting.crop_id, day=plot.garden.today())
    return hold_sentence(held) if held else ""


@register.simple_tag
def picked_before_label(treatment: Treatment) -> list[WorkLog]:
    """What was picked before the label's days were past: the product was logged late, or counts more days."""
    return picked_too_early(treatment)


@register.filter
def not_before(entry: Entry) -> str:
    """As in “not before July 3: interval on the label”; empty where nothing holds a harvest back."""
    return hold_short(entry.not_before) if entry.not_before else ""


@register.filter
def held_until(treatment: Treatment) -> str:
    """The first day on which may be picked again."""
    until: date = treatment.log.day + timedelta(days=treatment.label_days)
    return date_format(until)


@register.filter
def beside(log: WorkLog) -> str:
    """What was seen, or the product that was used; empty for other work."""
    return beside_text(log)


@register.filter
def reach_text(reach: Reached | None, units: str) -> str:
    """Why a plot may be reached."""
    return why_reached(reach, units)
