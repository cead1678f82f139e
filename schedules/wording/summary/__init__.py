"""A summary as a sheet: its figures, charts and tables in words and in the garden's units.

Nothing is estimated: a figure that nobody wrote down stays blank, and the sheet says so.
"""

from __future__ import annotations

from django.utils.translation import gettext as _

from schedules.reports.document import Document, Head, Page
from schedules.service.summary import Summary
from schedules.wording.summary.figures import figures, period_text, photos, workshops
from schedules.wording.summary.frosts import frosts
from schedules.wording.summary.harvest import food, gifts, water_and_hours
from schedules.wording.summary.plan import changes, plan, suggestion_text
from schedules.wording.summary.writer import Writer

__all__ = ["period_text", "suggestion_text", "summary_document"]


def summary_document(summary: Summary, head: Head, *, sowing_by_sowing: bool) -> Document:
    """The sheet. A garden's plan is told crop by crop; `sowing_by_sowing` tells each with its days."""
    page = Page(head)
    writer = Writer.of(summary, page)
    figures(writer)
    food(writer)
    gifts(writer)
    water_and_hours(writer)
    workshops(writer)
    plan(writer, sowing_by_sowing=sowing_by_sowing)
    frosts(writer)
    photos(writer)
    changes(writer)
    page.quiet(
        _(
            "Every number is a sum of what was written down, with nothing added for what was not. A blank "
            "means that nobody wrote it down, and not that there was none."
        )
    )
    return page.document()
