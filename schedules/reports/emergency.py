"""The sheet for the shed's sealed envelope: whom to call, and where the garden is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from schedules.reports.document import WRITING_LINE, Document, Head, Page

LINES, ABOVE = 5, 70.0  # to write on, or more, and points of the heading and titles above them


@dataclass(frozen=True, slots=True)
class EmergencyRow:
    """One member and whom they want called; no word about health."""

    name: str
    plots: str
    call: str
    phone: str


def emergency(head: Head, place: str, rows: Sequence[EmergencyRow], without: int) -> Document:
    """By name; `without` members gave nobody, and are only counted."""
    page = Page(head)
    page.heading(gettext("This garden is at: {place}").format(place=place))
    if not place:
        page.writing_lines(1)
        page.gap()
    page.text(
        gettext("Call the emergency number first and say where the garden is; then whom the member named.")
    )
    page.heading(gettext("Whom to call"))
    if rows:
        titles = (gettext("Member"), gettext("Plots"), gettext("Call"), gettext("Telephone"))
        cells = [(row.name, row.plots, row.call, row.phone) for row in rows]
        page.table(cells, titles=titles, shares=(3, 1.4, 3, 2))
    else:
        page.text(gettext("Nobody has named anybody yet."))
    page.quiet(gettext("Members who named nobody: {count}.").format(count=without))
    page.heading(gettext("What happened"), room=LINES * WRITING_LINE + ABOVE)
    page.quiet(gettext("Give this page to a coordinator."))
    columns = (gettext("Date and time"), gettext("Who"), gettext("What happened, what was done"))
    page.table((), titles=columns, shares=(2, 3, 6), grid=True, to_the_end=True)
    return page.document()
