"""The sheet for the shed's sealed envelope: whom to call, and where the garden is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from schedules.reports.document import ROOM, WRITING_LINE, Document, Head, Page

LINES = 6  # to write on, all of them on one page


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
    page.facts([(gettext("This garden is at"), place)])
    page.heading(gettext("Whom to call"))
    if rows:
        titles = [gettext("Member"), gettext("Plots"), gettext("Call"), gettext("Telephone")]
        cells = [(row.name, row.plots, row.call, row.phone) for row in rows]
        page.table(cells, titles=titles, shares=(3, 1.4, 3, 2))
    else:
        page.text(gettext("Nobody has named anybody yet."))
    page.quiet(gettext("Members who named nobody: {count}.").format(count=without))
    page.heading(gettext("What happened"), room=LINES * WRITING_LINE + ROOM)
    page.quiet(gettext("Date, time, who, what was done. Give this page to a coordinator."))
    page.writing_lines(LINES)
    return page.document()
