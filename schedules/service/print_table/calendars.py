"""A member's calendar in its editions: in full with reasons, as a poster, a booklet and a week's card."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from django.utils import translation
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.access import oversees
from plots.models import User
from schedules.reports.document import Document, Page
from schedules.reports.member_plan import MemberPlan
from schedules.service.member_plans import Holding, holding_of_plots, holdings_of, member_plans
from schedules.service.print_table.table import Asked, Group, Kind, Made
from schedules.service.week_cards import week_cards

ToDocument = Callable[[MemberPlan], Document]
ToPdf = Callable[[Sequence[MemberPlan]], bytes]


def calendar(asked: Asked) -> Made:
    """The calendar in full, of one member or of plots."""
    return _calendars(asked, _holdings(asked))


def calendars(asked: Asked, members: Sequence[User]) -> Made:
    """The same of several members."""
    return _calendars(asked, holdings_of(asked.garden, members, asked.today))


def _calendars(asked: Asked, holdings: Sequence[Holding]) -> Made:
    from schedules.reports.member_calendar import member_calendar, member_calendars_pdf  # lazy: reportlab

    return _made(asked, holdings, member_calendar, member_calendars_pdf)


def poster(asked: Asked) -> Made:
    """The season on one sheet, of one member or of plots."""
    return _posters(asked, _holdings(asked))


def posters(asked: Asked, members: Sequence[User]) -> Made:
    """The same of several members."""
    return _posters(asked, holdings_of(asked.garden, members, asked.today))


def _posters(asked: Asked, holdings: Sequence[Holding]) -> Made:
    from schedules.reports import poster as sheets  # lazy: reportlab

    return _made(asked, holdings, sheets.poster, sheets.posters_pdf)


def booklet(asked: Asked) -> Made:
    """The year month by month, of one member or of plots."""
    return _booklets(asked, _holdings(asked))


def booklets(asked: Asked, members: Sequence[User]) -> Made:
    """The same of several members."""
    return _booklets(asked, holdings_of(asked.garden, members, asked.today))


def _booklets(asked: Asked, holdings: Sequence[Holding]) -> Made:
    from schedules.reports import booklet as sheets  # lazy: reportlab

    folded = bool(asked.choices.get("folded"))
    return _made(
        asked,
        holdings,
        partial(sheets.booklet, folded=folded),
        partial(sheets.booklets_pdf, folded=folded),
    )


def job_card(asked: Asked) -> Made:
    """The jobs of a week, of one member or of plots."""
    return _job_cards(asked, _holdings(asked))


def job_cards(asked: Asked, members: Sequence[User]) -> Made:
    """The same of several members, two cards to a sheet."""
    return _job_cards(asked, holdings_of(asked.garden, members, asked.today))


def _job_cards(asked: Asked, holdings: Sequence[Holding]) -> Made:
    from schedules.reports import job_card as sheets  # lazy: reportlab

    day = asked.choices.get("week") or asked.today
    weeks = week_cards(
        asked.garden, holdings, day=day, today=asked.today, paper=asked.paper, large=asked.large
    )
    if not weeks:
        return Made(document=_without_plots(asked))
    cards = [week.card for week in weeks]
    return Made(
        document=_one_after_the_other([sheets.job_card(card) for card in cards]),
        laid_out=lambda: sheets.job_cards_pdf(cards),
        entries=[entry for week in weeks for entry in week.entries],
    )


def _holdings(asked: Asked) -> list[Holding]:
    """Of the member, else each of the plots by itself; in the language that is asked for."""
    member = asked.choices.get("member")
    if member is None:
        return holding_of_plots(asked.garden, asked.choices.get("plots") or [], asked.today)
    found = holdings_of(asked.garden, [member], asked.today)
    return [replace(one, language=asked.language) for one in found]


def _made(asked: Asked, holdings: Sequence[Holding], to_document: ToDocument, to_pdf: ToPdf) -> Made:
    """One edition of the plans of `holdings`."""
    planned = member_plans(
        asked.garden,
        holdings,
        year=asked.choices["year"],
        today=asked.today,
        paper=asked.paper,
        large=asked.large,
    )
    if not planned:
        return Made(document=_without_plots(asked))
    plans = [one.plan for one in planned]
    documents = []
    for plan in plans:
        with translation.override(plan.language):
            documents.append(to_document(plan))
    return Made(
        document=_one_after_the_other(documents),
        laid_out=lambda: to_pdf(plans),
        entries=[entry for one in planned for entry in one.entries],
    )


def _one_after_the_other(documents: Sequence[Document]) -> Document:
    first, *others = documents
    return first.and_then(others)


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
    Kind(
        code="poster",
        name=gettext_lazy("Season poster"),
        about=gettext_lazy("The whole season on one sheet for the wall, with the days to remember."),
        group=Group.CALENDARS,
        make=poster,
        asks=_ASKS,
        others=oversees,
        together=posters,
    ),
    Kind(
        code="booklet",
        name=gettext_lazy("Month-by-month booklet"),
        about=gettext_lazy("A page for each month with its windows and days, and room to write; or folded."),
        group=Group.CALENDARS,
        make=booklet,
        asks=(*_ASKS, "folded"),
        others=oversees,
        together=booklets,
    ),
    Kind(
        code="job-card",
        name=gettext_lazy("Job card of a week"),
        about=gettext_lazy(
            "What is due in a week and why, with boxes to tick; several cards stand two to a sheet."
        ),
        group=Group.CALENDARS,
        make=job_card,
        asks=("member", "plots", "week"),
        others=oversees,
        together=job_cards,
    ),
)
