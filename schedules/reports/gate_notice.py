"""A notice for the gate: large words, the garden's name, and where to ask; not whom it is for."""

from __future__ import annotations

from django.utils.translation import gettext

from schedules.reports.document import Document, Head, Page


def gate_notice(head: Head, body: str) -> Document:
    """The text in letters as large as its page allows."""
    page = Page(head)
    page.loud(body)
    page.quiet(gettext("Questions? Ask a coordinator of the garden."))
    return page.document()
