"""The sign-in sheet of a workday: who is down for what, and lines for whoever else comes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from schedules.reports.document import Document, Head, Page

ROW = 27.0  # points: high enough to write into standing up
_SHARES = (5, 34, 27, 10, 10, 14)


@dataclass(frozen=True, slots=True)
class SignInLine:
    """A person who signed up, and for what."""

    name: str
    task: str = ""


@dataclass(frozen=True, slots=True)
class SignInSheet:
    """A workday as its sheet says it; `tasks` are task, place and how many people it needs."""

    head: Head
    tasks: Sequence[tuple[str, str, str]]
    note: str
    lines: Sequence[SignInLine]
    empty_lines: int


def sign_in_sheet(made: SignInSheet) -> Document:
    """Names stand in the order in which the page asks for them again."""
    page = Page(made.head)
    page.text(made.note)
    if made.tasks:
        page.table(
            made.tasks,
            titles=(gettext("Task"), gettext("Where"), gettext("People needed")),
            shares=(50, 32, 18),
        )
    page.gap(6)
    titles = (
        "",
        gettext("Name"),
        gettext("Task"),
        gettext("From"),
        gettext("Until"),
        gettext("Initials"),
    )
    signed_up = [(f"{n}", line.name, line.task, "", "", "") for n, line in enumerate(made.lines, start=1)]
    first = len(signed_up) + 1
    empty = [(f"{n}", "", "", "", "", "") for n in range(first, first + made.empty_lines)]
    page.table([*signed_up, *empty], titles=titles, shares=_SHARES, row_height=ROW, grid=True)
    page.quiet(
        gettext(
            "Not on the list? Write your name so that everybody can read it; guests write “guest” under "
            "task. Hours are counted from these lines."
        )
    )
    return page.document()
