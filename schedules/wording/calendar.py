"""Words for windows and jobs: spans of dates, ways to grow a crop, and what a week says about a window."""

from __future__ import annotations

from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from schedules.entries import Entry, Way
from schedules.jobs import Moment, Task
from schedules.reports.days import short_day
from schedules.windows import Operation, Start, Turn
from schedules.wording import operation_name


def day_text(day: date, year: int | None = None) -> str:
    """A day in words, with its year unless that is the `year` the page is about."""
    return date_format(day, "MONTH_DAY_FORMAT" if day.year == year else "DATE_FORMAT")


def span_text(earliest: date, latest: date, year: int | None = None) -> str:
    """From one day to another; one day alone where both are the same."""
    if earliest == latest:
        return day_text(earliest, year)
    return pgettext("dates", "%(first)s to %(last)s") % {
        "first": day_text(earliest, latest.year if earliest.year == latest.year else year),
        "last": day_text(latest, year),
    }


def short_span_text(earliest: date, latest: date, year: int) -> str:
    """As `span_text`, short enough for a column of a table."""
    last = short_day(latest, year)
    if earliest == latest:
        return last
    return f"{short_day(earliest, latest.year if earliest.year == latest.year else year)} – {last}"


def turn_name(turn: Turn) -> str:
    """The half of the growing year: "Spring"."""
    return {
        Turn.SPRING: pgettext("half of the year", "Spring"),
        Turn.AUTUMN: pgettext("half of the year", "Autumn"),
    }[turn]


def row_name(crop: str, turn: Turn) -> str:
    """A crop on a calendar, where its spring and its autumn planting may meet: "Kale, autumn"."""
    return crop if turn is Turn.SPRING else pgettext("on a calendar", "%(crop)s, autumn") % {"crop": crop}


def way_name(turn: Turn, start: Start) -> str:
    """What is chosen when a crop is planned, as in "Spring, sown or set in its place"."""
    names = {
        (Turn.SPRING, Start.SOW): _("Spring, sown or set in its place"),
        (Turn.SPRING, Start.TRANSPLANT): _("Spring, as seedlings raised under cover"),
        (Turn.AUTUMN, Start.SOW): _("Autumn, sown or set in its place"),
        (Turn.AUTUMN, Start.TRANSPLANT): _("Autumn, as seedlings raised under cover"),
    }
    return names[turn, start]


def way_dates(way: Way, year: int) -> str:
    """When a way begins and when it is picked; empty where it has no dates."""
    if way.beginning is None or way.beginning.earliest is None or way.beginning.latest is None:
        return ""
    begun = span_text(way.beginning.earliest, way.beginning.latest, year)
    text = f"{operation_name(way.beginning.operation)} {begun}"
    if way.harvest is not None and way.harvest.earliest is not None and way.harvest.latest is not None:
        picked = span_text(way.harvest.earliest, way.harvest.latest, year)
        text += f"; {operation_name(way.harvest.operation).lower()} {picked}"
    return text


def succession_text(succession: int, successions: int) -> str:
    """Which of several sowings a window belongs to; empty where there is only one."""
    if successions == 1:
        return ""
    return _("sowing %(number)d of %(count)d") % {"number": succession, "count": successions}


def moment_text(task: Task) -> str:
    """What a week says about a window, in a few words."""
    entry = task.entry
    year = entry.best.year
    words = _picking_words() if entry.operation is Operation.HARVEST else _doing_words()
    return words[task.moment] % {
        "earliest": day_text(entry.earliest, year),
        "best": day_text(entry.best, year),
        "latest": day_text(entry.latest, year),
    }


def _doing_words() -> dict[Moment, str]:
    return {
        Moment.ONLY: _("this week only, %(earliest)s to %(latest)s"),
        Moment.LAST: _("last week for it, until %(latest)s"),
        Moment.BEST: _("best this week, possible until %(latest)s"),
        Moment.LATE: _("still possible until %(latest)s"),
        Moment.OPENS: _("from %(earliest)s on, best around %(best)s"),
        Moment.EARLY: _("possible now, best around %(best)s, until %(latest)s"),
        Moment.CLOSED: _("its time ended on %(latest)s"),
    }


def _picking_words() -> dict[Moment, str]:
    return {
        Moment.ONLY: _("this week only, %(earliest)s to %(latest)s"),
        Moment.LAST: _("last week of picking, until about %(latest)s"),
        Moment.BEST: _("at its best this week, picking until about %(latest)s"),
        Moment.LATE: _("picking until about %(latest)s"),
        Moment.OPENS: _("first picking from about %(earliest)s"),
        Moment.EARLY: _("picking until about %(latest)s"),
        Moment.CLOSED: _("its time ended on %(latest)s"),
    }


def done_text(entry: Entry, monday: date) -> str:
    """What logs tell of an entry in the week of `monday`; empty where they tell nothing."""
    told = entry.told_in(monday)
    if told is None:
        return ""
    if entry.done is not None:
        return _("done on %(day)s") % {"day": day_text(told.day, monday.year)}
    words = {"day": day_text(told.day, monday.year), "latest": day_text(entry.latest, monday.year)}
    return _("picked on %(day)s, picking until about %(latest)s") % words


def moved_text(days: int) -> str:
    """By how much logs moved a window, as in "Moved 9 days later by what was logged."."""
    if days > 0:
        text = ngettext(
            "Moved %(count)d day later by what was logged.",
            "Moved %(count)d days later by what was logged.",
            days,
        )
    elif days < 0:
        text = ngettext(
            "Moved %(count)d day earlier by what was logged.",
            "Moved %(count)d days earlier by what was logged.",
            -days,
        )
    else:
        return ""
    return text % {"count": abs(days)}


def event_title(entry: Entry) -> str:
    """The line a phone shows for a window, as in "Sow: Carrot (until 10 May)"."""
    if entry.done is not None:
        words = {"operation": operation_name(entry.operation), "crop": entry.name}
        return _("%(operation)s: %(crop)s, done") % words
    return _("%(operation)s: %(crop)s (until %(latest)s)") % {
        "operation": operation_name(entry.operation),
        "crop": entry.name,
        "latest": day_text(entry.latest, entry.best.year),
    }
