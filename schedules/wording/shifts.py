"""Moved dates in sentences: how many, by how much, and what of them was told before."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from schedules.shifts import Dates, Shift, Summary
from schedules.wording import operation_name
from schedules.wording.calendar import short_span_text
from schedules.wording.phrases import days


def summary_text(summary: Summary) -> str:
    """As in “This shifts 41 dates of 18 plantings, the largest by 16 days; 2 lose theirs”."""
    parts = []
    if summary.moved:
        text = ngettext(
            "%(count)d date shifts, by %(days)s at most",
            "%(count)d dates shift, the largest by %(days)s",
            summary.moved,
        )
        parts.append(text % {"count": summary.moved, "days": days(summary.largest)})
    if summary.lost:
        text = ngettext("%(count)d has no window any more", "%(count)d have no window any more", summary.lost)
        parts.append(text % {"count": summary.lost})
    if summary.gained:
        text = ngettext("%(count)d gets a window", "%(count)d get a window", summary.gained)
        parts.append(text % {"count": summary.gained})
    counted = ngettext("%(count)d planting", "%(count)d plantings", summary.plantings)
    return _("%(changes)s (%(plantings)s).") % {
        "changes": pgettext("between the items of a list", "; ").join(parts),
        "plantings": counted % {"count": summary.plantings},
    }


def dates_text(dates: Dates | None, year: int) -> str:
    """From the earliest to the latest day, as in “Apr 10 – May 20”; or that there are none."""
    return _("no window") if dates is None else short_span_text(dates[0], dates[2], year)


def row_text(row: Shift, this_year: int) -> str:
    """Which row it is, as in “Bean: sow, sowing 2”; of another year with that."""
    words = {"name": row.name, "operation": operation_name(row.operation).lower(), "year": row.year}
    text = _("%(name)s: %(operation)s") if row.year == this_year else _("%(name)s %(year)d: %(operation)s")
    told = text % words
    if row.succession > 1:
        told = _("%(row)s, sowing %(number)d") % {"row": told, "number": row.succession}
    return told


def shift_text(row: Shift) -> str:
    """By how much a row moves, as in “16 days later”; nothing where it has no dates on one side."""
    if not row.days:
        return ""
    if row.is_of_best:
        text = _("best day %(days)s later") if row.days > 0 else _("best day %(days)s earlier")
    else:
        text = _("%(days)s later") if row.days > 0 else _("%(days)s earlier")
    return text % {"days": days(abs(row.days))}
