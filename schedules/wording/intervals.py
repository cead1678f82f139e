"""Why something may not be picked yet, in a sentence; the interval is always the label's."""

from __future__ import annotations

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from schedules.intervals import Treated


def hold_sentence(held: Treated) -> str:
    """Not before which day, because of what: "Not before 3 July: “…” was used on 26 June, …"."""
    days = ngettext("%(n)d day", "%(n)d days", held.label_days) % {"n": held.label_days}
    return _(
        "Not before %(until)s: “%(product)s” was used on %(day)s, and its label asks for %(days)s"
        " before picking."
    ) % {
        "until": date_format(held.until, "MONTH_DAY_FORMAT"),
        "product": held.product,
        "day": date_format(held.day, "MONTH_DAY_FORMAT"),
        "days": days,
    }


def hold_short(held: Treated) -> str:
    """The same beside a row of the calendar: "not before 3 July: interval on the label"."""
    until = date_format(held.until, "MONTH_DAY_FORMAT")
    return _("not before %(until)s: interval on the label") % {"until": until}
