"""A member's calendar in its editions: in full with reasons, as a poster, a booklet and a week's card."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.access import oversees
from plots.models import User
from schedules.entries import Entry
from schedules.reports.document import Document, Page
from schedules.reports.member_plan import MemberPlan
from schedules.service.member_plans import Holding, Planned, holding_of_plots, holdings_of, member_plans
from schedules.service.print_table.table import Asked, Group, Kind, Made

ToDocument = Callable[[MemberPlan], Document]
ToPdf = Callable[[Sequence[MemberPlan]], bytes]


def calendar(asked: Asked) -> Made:
    """The calendar in full of one member, or of plots."""
    return _calendar(asked, _holdings(asked))


def calendars(asked: Asked, members: Sequence[User]) -> Made:
    """The same for several members."""
    return _calendar(asked, holdings_of(asked.garden, members, asked.today))


def _calendar(asked: Asked, holdings: Sequence[Holding]) -> Made:
    from schedules.reports.member_calendar import member_calendar, member_calendars_pdf  # lazy: reportlab

    return _made(asked, _planned(asked, holdings), member_calendar, member_calendars_pdf)


def _holdings(asked: Asked) -> list[Holding]:
    """Of the member that is asked for; else each of the plots by itself."""
    member = asked.choices.get("member")
    if member is not None:
        return holdings_of(asked.garden, [member], asked.today)
    plots = asked.choices.get("plots") or []
    return holding_of_plots(asked.garden, plots, asked.today)


def _planned(asked: Asked, holdings: Sequence[Holding]) -> list[Planned]:
    return member_plans(
        asked.garden,
        holdings,
        year=asked.choices["year"],
        today=asked.today,
        paper=asked.paper,
        large=asked.large,
    )


def _made(asked: Asked, planned: Sequence[Planned], to_document: ToDocument, to_pdf: ToPdf) -> Made:
    if not planned:
        return Made(document=_without_plots(asked))
    plans = [one.plan for one in planned]
    first, *others = (to_document(plan) for plan in plans)
    entries: tuple[Entry, ...] = tuple(entry for one in planned for entry in one.entries)
    return Made(document=first.and_then(others), laid_out=lambda: to_pdf(plans), entries=entries)


def _without_plots(asked: Asked) -> Document:
    page = Page(asked.head(_("Calendar")))
    page.text(_("There is no plot to print a calendar for. A coordinator assigns the plots."))
    return page.document()


_ASKS = ("member", "plots", "year")

KINDS = (
    Kind(
        code="calendar",
        name=gettext_lazy("Planting calendar"),
        about=gettext_lazy("The season on a strip, month by month, and crop by crop with the reasons."),
        group=Group.CALENDARS,
        make=calendar,
        asks=_ASKS,
        others=oversees,
        together=calendars,
    ),
)
