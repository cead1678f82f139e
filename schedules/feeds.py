"""A member's calendar as iCalendar (RFC 5545), read by their phone at a secret address.

Each window is one all-day event on its best day, and its title says until when it can wait. A bar from the
first to the last day would bury a phone's month under weeks of overlapping bars, and an event on the first
day would call a member out when the window is at its riskiest; the earliest day and the reasons stand in the
description.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from django.conf import settings
from django.urls import reverse
from django.utils.translation import gettext as _
from icalendar import Calendar, Event

from plots.models import Garden
from schedules.entries import Entry
from schedules.wording import operation_name, tell
from schedules.wording.calendar import day_text, event_title, succession_text
from schedules.wording.intervals import hold_sentence

_REFRESH = timedelta(hours=12)


def feed_calendar(garden: Garden, entries: Iterable[Entry], *, dates_changed_at: datetime) -> bytes:
    """The calendar of these rows, in the language that is active.

    An event is as new as its planting or as what the garden's dates come from, whichever changed last.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//Trugbook//EN")
    calendar.add("version", "2.0")
    name = _("Planting at %(garden)s") % {"garden": garden}
    for key in ("name", "x-wr-calname"):
        calendar.add(key, name)
    calendar.add("refresh-interval", _REFRESH, parameters={"VALUE": "DURATION"})
    calendar.add("x-published-ttl", "PT12H")
    for entry in entries:
        calendar.add_component(_event(garden, entry, max(entry.changed_at, dates_changed_at)))
    return calendar.to_ical()


def _event(garden: Garden, entry: Entry, changed_at: datetime) -> Event:
    event = Event.new(
        uid=f"planting-{entry.planting}-{entry.operation}-{entry.succession}@{settings.SITE.host}",
        stamp=changed_at,
        start=entry.best,
        end=entry.best + timedelta(days=1),
        summary=event_title(entry),
        description=_description(garden, entry),
    )
    event.add("last-modified", changed_at)
    event.add("location", _("Plot %(plot)s, %(garden)s") % {"plot": entry.plot_label, "garden": garden})
    event.add("categories", [operation_name(entry.operation)])
    event.add("url", settings.SITE.origin + reverse("schedules:planting", args=[garden.slug, entry.planting]))
    event.add("status", "CONFIRMED")
    event.add("transp", "TRANSPARENT")
    return event


def _description(garden: Garden, entry: Entry) -> str:
    if entry.done is not None:
        return "\n".join(one.sentence for one in tell(entry.reasons, garden.units))
    dates = _("Earliest %(earliest)s, best %(best)s, latest %(latest)s.") % {
        "earliest": day_text(entry.earliest),
        "best": day_text(entry.best),
        "latest": day_text(entry.latest),
    }
    reasons = [one.sentence for one in tell(entry.reasons, garden.units) if one.decisive]
    held = hold_sentence(entry.not_before) if entry.not_before else ""
    lines = [succession_text(entry.succession, entry.successions), held, dates, *reasons]
    return "\n".join(line for line in lines if line)
