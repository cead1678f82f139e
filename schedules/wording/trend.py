"""Stations beside each other, and the last fifteen years beside all, in words."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plots.quantities import Units
from schedules.risk import CHART_YEAR
from schedules.seasons import Side, from_day_number
from schedules.trend import Trend
from schedules.wording.phrases import month_day

_PLAIN_CHANCE = 0.05
_MERE_CHANCE = 0.5
KILOMETRES_PER_MILE = 1.609344


def distance_text(kilometres: float, units: str) -> str:
    """How far a station is: "12 miles", "19 km"."""
    if units == Units.US:
        miles = round(kilometres / KILOMETRES_PER_MILE)
        return ngettext("%(count)s mile", "%(count)s miles", miles) % {"count": miles}
    return _("%(count)s km") % {"count": round(kilometres)}


def trend_text(trend: Trend) -> str:
    """A side of the season of late, beside all years, and whether that may be chance."""
    later = trend.days_later
    if later is None or trend.recent is None or trend.every is None:
        return ""
    values = {
        "recent": month_day(from_day_number(trend.recent, CHART_YEAR)),
        "every": month_day(from_day_number(trend.every, CHART_YEAR)),
        "count": abs(later),
        "years": trend.recent_years,
        "all": trend.every_years,
    }
    return f"{_shift_text(trend.side, later) % values} {_chance_text(trend.by_chance)}"


def _shift_text(side: Side, later: int) -> str:
    if later == 0:
        if side is Side.LAST:
            return _("The middle last freeze of the last %(years)s years is that of all %(all)s: %(every)s.")
        return _("The middle first freeze of the last %(years)s years is that of all %(all)s: %(every)s.")
    count = abs(later)
    if side is Side.LAST and later > 0:
        return ngettext(
            "In the last %(years)s years the middle last freeze came on %(recent)s,"
            " %(count)s day later than over all %(all)s (%(every)s).",
            "In the last %(years)s years the middle last freeze came on %(recent)s,"
            " %(count)s days later than over all %(all)s (%(every)s).",
            count,
        )
    if side is Side.LAST:
        return ngettext(
            "In the last %(years)s years the middle last freeze came on %(recent)s,"
            " %(count)s day earlier than over all %(all)s (%(every)s).",
            "In the last %(years)s years the middle last freeze came on %(recent)s,"
            " %(count)s days earlier than over all %(all)s (%(every)s).",
            count,
        )
    if later > 0:
        return ngettext(
            "In the last %(years)s years the middle first freeze came on %(recent)s,"
            " %(count)s day later than over all %(all)s (%(every)s).",
            "In the last %(years)s years the middle first freeze came on %(recent)s,"
            " %(count)s days later than over all %(all)s (%(every)s).",
            count,
        )
    return ngettext(
        "In the last %(years)s years the middle first freeze came on %(recent)s,"
        " %(count)s day earlier than over all %(all)s (%(every)s).",
        "In the last %(years)s years the middle first freeze came on %(recent)s,"
        " %(count)s days earlier than over all %(all)s (%(every)s).",
        count,
    )


def _chance_text(by_chance: float) -> str:
    if by_chance >= _MERE_CHANCE:
        return _("Chance alone brings differences like that.")
    percent = max(round(100 * by_chance), 1)
    if by_chance < _PLAIN_CHANCE:
        return _("Chance alone would bring such a difference in about %(percent)s of 100 records.") % {
            "percent": percent
        }
    return _("That may be chance: it would bring such a difference in about %(percent)s of 100 records.") % {
        "percent": percent
    }
