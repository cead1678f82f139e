"""Moved dates in words."""

from __future__ import annotations

from django import template

from schedules.shifts import Dates, Shift
from schedules.wording import shifts as words

register = template.Library()


@register.filter
def dates(value: Dates | None, year: int) -> str:
    """As in “Apr 10 – May 20”, or that there are none."""
    return words.dates_text(value, year)


@register.filter
def row_name(row: Shift, this_year: int) -> str:
    """As in “Bean: sow, sowing 2”."""
    return words.row_text(row, this_year)


@register.filter
def shift(row: Shift) -> str:
    """As in “16 days later”."""
    return words.shift_text(row)
