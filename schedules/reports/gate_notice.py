"""A notice for the gate: large words, the garden's name, and where to ask; not whom it is for."""

from __future__ import annotations

from django.utils.translation import gettext
from reportlab.lib.styles import ParagraphStyle

from schedules.reports import sheet
from schedules.reports.frame import Head, Page

LARGE = ParagraphStyle("gate", sheet.BODY, fontSize=24, leading=34, spaceAfter=16)


def gate_notice_pdf(head: Head, body: str) -> bytes:
    """The text in letters that can be read from a step away."""
    page = Page(head)
    page.gap(6)
    for part in body.splitlines():
        if part.strip():
            page.add(page.setter.paragraph(part, LARGE))
    page.quiet(gettext("Questions? Ask a coordinator of the garden."))
    return page.pdf()
