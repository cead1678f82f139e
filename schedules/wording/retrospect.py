"""A year's real freezes beside the curve, in words."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from schedules.retrospect import Placed, RealFreeze
from schedules.seasons import Side
from schedules.wording.phrases import month_day


def placed_text(placed: Placed) -> str:
    """How a freeze lies among the years: "Your last freeze, May 14, was later than in 33 of 37 years."."""
    values = {"day": month_day(placed.day), **_share(placed)}
    if placed.side is Side.LAST:
        late = _("Your last freeze, %(day)s, was later than in %(count)s of %(years)s years.")
        early = _("Your last freeze, %(day)s, was earlier than in %(count)s of %(years)s years.")
    else:
        late = _("Your first freeze, %(day)s, was later than in %(count)s of %(years)s years.")
        early = _("Your first freeze, %(day)s, was earlier than in %(count)s of %(years)s years.")
    return (late if placed.is_late else early) % values


def unplaced_text(freeze: RealFreeze, unread: int) -> str:
    """What is said of a freeze that nobody can call the last or the first: so many nights are not known."""
    values = {"day": month_day(freeze.day), "count": unread}
    if freeze.side is Side.LAST:
        text = ngettext(
            "The last freeze read was on %(day)s, but %(count)s night after it was not read.",
            "The last freeze read was on %(day)s, but %(count)s nights after it were not read.",
            unread,
        )
    else:
        text = ngettext(
            "The first freeze read was on %(day)s, but %(count)s night before it was not read.",
            "The first freeze read was on %(day)s, but %(count)s nights before it were not read.",
            unread,
        )
    return text % values


def no_freeze_text(side: Side) -> str:
    """What is said of a season of whose freeze nothing is known."""
    if side is Side.LAST:
        return _("No freeze of that spring is known.")
    return _("No freeze of that autumn is known.")


def read_by_text(freeze: RealFreeze) -> str:
    """Which thermometer it was."""
    if freeze.minimum.in_garden:
        return _("read on the garden's own thermometer")
    return _("from the station, moved by the garden's difference")


def _share(placed: Placed) -> dict[str, object]:
    if placed.years is None or placed.earlier is None or placed.later is None:
        share = placed.earlier_share if placed.is_late else placed.later_share
        return {"count": round(10 * share), "years": 10}
    return {"count": placed.earlier if placed.is_late else placed.later, "years": placed.years}
