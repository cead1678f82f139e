"""The garden's dates as iCalendar (RFC 5545), for anybody at a public address; it names no person."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from django.conf import settings
from django.urls import reverse
from django.utils.translation import gettext as _
from icalendar import Calendar, Event

from plots.dates import Certainty, GardenDay
from plots.models import Garden

_REFRESH = timedelta(hours=12)
_YEAR = timedelta(days=366)
_STATUS = {
    Certainty.FIRM: "CONFIRMED",
    Certainty.IF_RAIN: "TENTATIVE",
    Certainty.OFF: "CANCELLED",
}


def dates_calendar(garden: Garden, days: Iterable[GardenDay], *, rules_changed_at: datetime) -> bytes:
    """The calendar, in the language that is active; days out of the rules are as new as the rules."""
    calendar = Calendar()
    calendar.add("prodid", "-//Trugbook//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    name = _("Dates of %(garden)s") % {"garden": garden}
    for key in ("name", "x-wr-calname"):
        calendar.add(key, name)
    calendar.add("refresh-interval", _REFRESH, parameters={"VALUE": "DURATION"})
    calendar.add("x-published-ttl", "PT12H")
    days = list(days)
    for day in days:
        calendar.add_component(_event(garden, day, day.changed_at or rules_changed_at))
    shown = [day.day for day in days]
    if shown:
        calendar.add_missing_timezones(min(shown) - _YEAR, max(shown) + _YEAR)
    return calendar.to_ical()


def _event(garden: Garden, day: GardenDay, changed_at: datetime) -> Event:
    event = Event()
    event.add("uid", f"{day.key}-{garden.slug}@{settings.SITE.host}")
    event.add("dtstamp", changed_at)
    event.add("last-modified", changed_at)
    event.add("sequence", int(changed_at.timestamp()) // 60)  # whatever is newer must count higher
    _add_times(event, garden, day)
    event.add("summary", day.title)
    event.add("location", ", ".join(filter(None, [day.place, garden.name, garden.place])))
    if day.note:
        event.add("description", day.note)
    event.add("status", _STATUS[day.certainty])
    event.add("transp", "TRANSPARENT")
    event.add("url", settings.SITE.origin + reverse("plots:dates", args=[garden.slug]))
    return event


def _add_times(event: Event, garden: Garden, day: GardenDay) -> None:
    """Whole days, or the hours of the garden's own clock."""
    if day.starts_at is None:
        event.add("dtstart", day.day)
        event.add("dtend", day.until + timedelta(days=1))
        return
    event.add("dtstart", datetime.combine(day.day, day.starts_at, garden.zone))
    if day.ends_at is not None:
        event.add("dtend", datetime.combine(day.until, day.ends_at, garden.zone))
