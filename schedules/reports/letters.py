"""The weekly letters of those who have no email, a page each, to hand out or to hang at the gate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from django.utils.translation import gettext as _

from schedules.reports.document import Document, Head, Page


@dataclass(frozen=True, slots=True)
class PaperLetter:
    """One member's letter; `to` says who and where, such as a name and plots."""

    to: str
    subject: str
    body: str


def letters(head: Head, written: Sequence[PaperLetter]) -> Document:
    """All letters in one document, each from a page of its own; `head` gives garden and paper.

    Indented lines of a letter are the points of a list.

    The foot of every page is that of `head`: no name of another member stands on somebody's letter.
    """
    page = Page(head, titled=not written)
    if not written:
        page.text(_("Nobody who asked for the letter needs it on paper."))
    for letter in written:
        page.next_sheet(letter.subject, letter.to)
        for indented, lines in groupby(letter.body.splitlines(), key=lambda line: line.startswith("  ")):
            if indented:
                page.points(line.strip() for line in lines)
            else:
                page.text("\n".join(lines))
    return page.document()
