"""A garden's dates of one year on a sheet for the gate or the shed door."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from schedules.reports.document import Document, Head, Page

_SHARES = (14, 22, 64)


@dataclass(frozen=True, slots=True)
class DateLine:
    """A date: the month it stands under, the day and hours in words, what it is and what else to know."""

    month: str
    when: str
    what: str


def dates_sheet(head: Head, lines: Sequence[DateLine]) -> Document:
    """The dates in one table, month by month."""
    page = Page(head)
    if not lines:
        page.text(gettext("Nothing is set for this year yet."))
    rows = [(row.month, row.when, row.what) for row in lines]
    titles = (gettext("Month"), gettext("Day"), gettext("What"))
    page.table(rows, titles=titles, shares=_SHARES, grouped=True)
    return page.document()
