"""Sums of logs in words and in the units of a garden."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from django.utils.formats import date_format
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from plots.models import Garden
from schedules.figures import Totals
from schedules.models import AmountUnit, WorkLog
from schedules.reports.year_glance import GlanceRow, YearGlance
from schedules.seasons import Hemisphere
from schedules.wording.logs import amount_text, weight_text, work_word
from schedules.years import span_of


def year_text(year: int, garden: Garden) -> str:
    """A year as people call it: `2026`, or where it runs over New Year `2026/27`."""
    last = span_of(year, Hemisphere.of_latitude(garden.latitude))[1]
    return str(year) if last.year == year else f"{year}/{last.year % 100:02}"


def month_text(first: date) -> str:
    """As in `June 2026`."""
    return capfirst(date_format(first, "YEAR_MONTH_FORMAT"))


def who_text(log: WorkLog) -> str:
    """Who did the work, for somebody who may read it; needs what `queries.diary` puts on a log."""
    return str(log.person) if log.named else _("an earlier gardener")


def harvest_text(grams: float, pieces: int, units: str) -> str:
    """What was picked: `12.5 lb`, `40 pieces`, `12.5 lb and 40 pieces`; nothing where neither is known."""
    parts = [weight_text(grams, units)] if grams else []
    if pieces:
        parts.append(amount_text(pieces, AmountUnit.PIECES))
    return pgettext("two amounts", " and ").join(parts)


def left_out_texts(totals: Totals) -> list[str]:
    """What the sums leave out, in sentences."""
    found = []
    if totals.unmeasured:
        found.append(
            ngettext(
                "%(n)d watering is not in the water: nobody knows how much it was.",
                "%(n)d waterings are not in the water: nobody knows how much they were.",
                totals.unmeasured,
            )
            % {"n": totals.unmeasured}
        )
    if totals.unweighed:
        found.append(
            ngettext(
                "%(n)d picking is not in the harvest: it was neither weighed nor counted.",
                "%(n)d pickings are not in the harvest: they were neither weighed nor counted.",
                totals.unweighed,
            )
            % {"n": totals.unweighed}
        )
    return found


def glance_of(days: Mapping[str, Sequence[date]], first: date, last: date, today: date) -> YearGlance:
    """The drawing of a year, with the kinds of work in words."""
    rows = tuple(GlanceRow(work, work_word(work), tuple(own)) for work, own in days.items())
    return YearGlance(rows, first, last, today)
