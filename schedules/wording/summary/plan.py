"""What was planned and what became of it, and what that suggests for next year."""

from __future__ import annotations

from datetime import date

from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from schedules.plan_done import Change, Sowing, Suggestion
from schedules.summary import Period
from schedules.wording.summary.writer import Writer, count_text, day_text

_NAMED = 6  # crops; the table has all of them


def plan(writer: Writer, *, sowing_by_sowing: bool) -> None:
    """What was planned and what became of it."""
    summary = writer.summary
    if not summary.sowings:
        return
    writer.page.heading(_("Planned, and done"))
    if summary.plan.due and not summary.plan.begun:
        writer.page.text(
            _("Of %(due)s sowings and plantings whose time came, none was written down as begun.")
            % {"due": summary.plan.due}
        )
    elif summary.plan.due:
        writer.page.text(
            _(
                "Of %(due)s sowings and plantings whose time came, %(begun)s were begun, %(in_time)s of "
                "them within their window; %(picked)s gave a first picking."
            )
            % {
                "due": summary.plan.due,
                "begun": summary.plan.begun,
                "in_time": summary.plan.in_time,
                "picked": summary.plan.picked,
            }
        )
    if sowing_by_sowing:
        _sowings(writer)
    else:
        _sowings_by_crop(writer)


def _sowings(writer: Writer) -> None:
    period = writer.summary.period
    writer.page.table(
        [
            (
                _sowing_name(one),
                one.plot,
                _span(one.planned, period),
                day_text(one.begun, period) + _off_text(one),
                day_text(one.picking_planned, period),
                _lost_text(one, period) or day_text(one.first_picked, period),
            )
            for one in writer.summary.sowings
        ],
        titles=(_("What"), _("Plot"), _("to begin"), _("begun"), _("to pick from"), _("first picked")),
        shares=(2.6, 0.8, 1.9, 2.2, 1.3, 1.5),
    )


def _sowings_by_crop(writer: Writer) -> None:
    groups: dict[str, list[Sowing]] = {}
    for one in writer.summary.sowings:
        groups.setdefault(one.name, []).append(one)
    rows = [
        (
            name,
            count_text(len(own)),
            count_text(sum(one.begun is not None for one in own)),
            count_text(sum(one.days_off == 0 for one in own)),
            count_text(sum(one.first_picked is not None for one in own)),
            count_text(sum(one.lost is not None for one in own) or None),
        )
        for name, own in sorted(groups.items())
    ]
    writer.page.table(
        rows,
        titles=(_("Crop"), _("planned"), _("begun"), _("in time"), _("picked from"), _("lost to frost")),
        shares=(3, 1, 1, 1, 1, 1),
        numbers=(1, 2, 3, 4, 5),
    )


def changes(writer: Writer) -> None:
    if not writer.summary.suggestions:
        return
    writer.page.heading(_("What to change next year"))
    writer.page.points(suggestion_text(one) for one in writer.summary.suggestions)


def suggestion_text(one: Suggestion) -> str:
    """A suggestion with the numbers that give the reason for it."""
    names = pgettext("between names that may hold commas", "; ").join(one.names[:_NAMED])
    if len(one.names) > _NAMED:
        names = _("%(names)s and others") % {"names": names}
    values = {"part": one.part, "whole": one.whole, "names": names, "days": one.days}
    texts = {
        Change.HANG_SHEETS: _(
            "Only %(part)s of %(whole)s plots wrote anything down. Hang log sheets in the shed, and show new "
            "members how to log at their plot."
        ),
        Change.MEASURE_HOSE: _(
            "%(part)s of %(whole)s waterings have no amount. Measure the hose once with a bucket; from then "
            "on minutes are enough."
        ),
        Change.WEIGH_BUNCHES: _(
            "%(part)s of %(whole)s pickings were neither weighed nor counted. Hang a scale in the shed, or "
            "weigh a usual bunch of each crop once."
        ),
        Change.PLAN_LESS: _(
            "%(part)s of %(whole)s sowings were not begun, or nobody wrote it down: %(names)s. Planning "
            "fewer may be enough, or beginning them together with others."
        ),
        Change.BEGIN_EARLIER: _(
            "%(names)s: begun about %(days)s days after the window had closed. A reminder a week before it "
            "closes may help, or a quicker variety."
        ),
        Change.BEGIN_LATER: _(
            "%(names)s: begun about %(days)s days before the window opened. Where that went well, a bolder "
            "nerve fits them; where not, wait for the window."
        ),
        Change.WAIT_OR_COVER: _(
            "Lost to frost: %(names)s. Choose a more careful nerve for these, or keep row cover at hand."
        ),
        Change.NOTE_PICKING: _(
            "%(names)s: begun, but no picking was written down. A note of the first one is enough to tell "
            "how long they take here."
        ),
        Change.OFFER_FREE_PLOTS: ngettext(
            "%(part)s plot was free at the end while %(whole)s people waited. Offer it early.",
            "%(part)s plots were free at the end while %(whole)s people waited. Offer them early.",
            one.part,
        ),
        Change.WRITE_ATTENDANCE: _(
            "How many came is not written down for %(part)s of %(whole)s workshops. Count at the door, and "
            "write it down the same day."
        ),
    }
    return texts[one.change] % values


def _sowing_name(one: Sowing) -> str:
    if one.successions == 1:
        return one.name
    return _("%(crop)s, sowing %(n)s") % {"crop": one.name, "n": one.succession}


def _span(days: tuple[date, date] | None, period: Period) -> str:
    if days is None:
        return _("no window")
    return f"{day_text(days[0], period)} – {day_text(days[1], period)}"


def _off_text(one: Sowing) -> str:
    off = one.days_off
    if not off:
        return ""
    text = (
        ngettext("%(n)s day late", "%(n)s days late", off)
        if off > 0
        else ngettext("%(n)s day early", "%(n)s days early", -off)
    )
    return f" ({text % {'n': number_format(abs(off))}})"


def _lost_text(one: Sowing, period: Period) -> str:
    return "" if one.lost is None else _("lost to frost, %(day)s") % {"day": day_text(one.lost, period)}
