"""Filters of workdays and dates: `{{ row.minutes|hours }}`."""

from __future__ import annotations

from django import template

from plots.dates import Certainty
from plots.hours import State
from plots.wording.dates import CERTAINTIES
from plots.wording.hours import STATES, hours_text

register = template.Library()


@register.filter
def hours(minutes: int | None) -> str:
    """A time worked, as in “2 h 30 min”."""
    return hours_text(minutes)


@register.filter
def hours_state(state: State) -> str:
    return str(STATES[state])


@register.filter
def how_sure(certainty: Certainty) -> str:
    """Whether a date takes place."""
    return str(CERTAINTIES[certainty])


@register.filter
def at(values: dict[int, int], key: int) -> int | None:
    """What a table has for a key."""
    return values.get(key)
