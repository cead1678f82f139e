"""Moved dates in words."""

from __future__ import annotations

from django import template

from schedules.shifts import Dates, Shift
from schedules.wording import shifts as words

register = template.Library()


@register.filter
def dates(value: Dates | None, year: int) -> str:
    """As in “April 10 to May 20”, or that there are none."""
    return words.dates_text(value, year)


@register.filter
def shift(row: Shift) -> str:
    """As in “16 days later”."""
    return words.shift_text(row)
