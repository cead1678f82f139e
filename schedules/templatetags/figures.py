"""Sums of logs in words: `{{ totals|harvest:garden.units }}`."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import template
from django.utils.formats import date_format

from plots.listing import Cell, Column
from plots.models import Garden
from schedules.figures import Gift, Totals
from schedules.models import WorkLog
from schedules.wording import figures as words
from schedules.wording.logs import log_text, work_word

register = template.Library()


@register.filter
def harvest(sums: Totals | Gift, units: str) -> str:
    """What was picked, or was given to somebody, as in “12.5 lb and 40 pieces”."""
    return words.harvest_text(sums.grams, sums.pieces, units)


@register.filter
def given(totals: Totals, units: str) -> str:
    """What of it was given away."""
    return words.harvest_text(totals.given_grams, totals.given_pieces, units)


@register.filter
def left_out(totals: Totals) -> list[str]:
    """What the sums leave out, in sentences."""
    return words.left_out_texts(totals)


@register.filter
def year_name(year: int, garden: Garden) -> str:
    """As in “2026”, south of the equator “2026/27”."""
    return words.year_text(year, garden)


@register.filter
def month_name(first: date) -> str:
    """As in “June 2026”."""
    return words.month_text(first)


@register.filter
def line_here(log: WorkLog) -> str:
    """A log in a line for its own plot's page, which need not say the plot."""
    return log_text(log, where=False)


@register.filter
def who(log: WorkLog) -> str:
    """Who did it, as far as the reader may know."""
    return words.who_text(log)


@register.filter
def work_name(work: str) -> str:
    """As in “Watered”."""
    return work_word(work)


@register.simple_tag
def cell(column: Column[Any], row: object) -> Cell:
    """What a column of figures says of a row; a day in the reader's words."""
    value = column.value(row)
    return date_format(value) if isinstance(value, date) else "" if value is None else value
