"""Filters that put windows, jobs and their dates into words."""

from __future__ import annotations

from datetime import date

from django import template

from schedules.entries import Entry, Way
from schedules.jobs import Task
from schedules.windows import Done, Operation, Reason, Turn
from schedules.wording import Told, calendar, operation_name, reason_sentence, tell

register = template.Library()


@register.filter
def operation(value: Operation) -> str:
    """As in “Start indoors”."""
    return operation_name(value)


@register.filter
def sentence(reason: Reason, units: str) -> str:
    """A reason as the member reads it, in the garden's units."""
    return reason_sentence(reason, units)


@register.filter
def told(reasons: tuple[Reason, ...], units: str) -> list[Told]:
    """The reasons of a window, each told once, those that set an edge first."""
    return tell(reasons, units)


@register.filter
def day(value: date, year: int | None = None) -> str:
    """A day, with its year unless the page is about that year."""
    return calendar.day_text(value, year)


@register.simple_tag
def span(earliest: date, latest: date, year: int | None = None) -> str:
    """As in “April 10 to May 20”."""
    return calendar.span_text(earliest, latest, year)


@register.simple_tag
def short_span(earliest: date, latest: date, year: int) -> str:
    """As in “Apr 10 – May 20”."""
    return calendar.short_span_text(earliest, latest, year)


@register.filter
def moment(task: Task) -> str:
    """What the week says about a window."""
    return calendar.moment_text(task)


@register.filter
def told_in(entry: Entry, monday: date) -> Done | None:
    """What a log tells was done of it in the week of `monday`."""
    return entry.told_in(monday)


@register.filter
def done_text(entry: Entry, monday: date) -> str:
    """As in “done on May 4”."""
    return calendar.done_text(entry, monday)


@register.filter
def moved(days: int) -> str:
    """By how much logs moved a window; nothing where they did not."""
    return calendar.moved_text(days)


@register.filter
def sowing(entry: Entry) -> str:
    """As in “sowing 2 of 3”, or nothing where there is one."""
    return calendar.succession_text(entry.succession, entry.successions)


@register.filter
def turn(value: Turn) -> str:
    """As in “Spring”."""
    return calendar.turn_name(value)


@register.filter
def way_name(way: Way) -> str:
    """As in “Spring, sown or set in its place”."""
    return calendar.way_name(way.turn, way.start)
