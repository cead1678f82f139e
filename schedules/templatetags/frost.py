"""Filters that put freezes and the findings of a station file into words."""

from __future__ import annotations

from datetime import date

from django import template
from django.utils.formats import number_format

from schedules.frost import Freeze
from schedules.reports.days import short_day
from schedules.stations import Finding, Run
from schedules.wording import phrases, risk, stations

register = template.Library()


@register.filter
def freeze(value: Freeze | None, label_year: int) -> str:
    """A year's own freeze, or what stands in its place."""
    return risk.freeze_text(value, label_year)


@register.filter
def month_day(value: date) -> str:
    """A date without its year, its month cut short."""
    return short_day(value)


@register.filter
def finding(value: Finding) -> str:
    """What is wrong with a line, as a sentence."""
    return stations.finding_sentence(value)


@register.filter
def run(value: Run) -> str:
    """A stretch of days filled in with one value."""
    return stations.run_sentence(value)


@register.filter
def whole_degrees(celsius: float, units: str) -> str:
    """A temperature in whole degrees of the garden's scale."""
    return phrases.whole_temperature(celsius, units)


@register.filter
def grouped(number: int) -> str:
    """A count with its thousands set apart."""
    return number_format(number, force_grouping=True)
