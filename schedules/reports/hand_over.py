"""The hand-over pack: all that who takes over has to know, on one set of sheets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from django.utils.translation import gettext

from schedules.reports.document import Document, Head, Page

ROW = 34.0  # points: two lines of a pen
Rows = Sequence[tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class HandOver:
    """Texts alone, in the order they are printed; every row has as many cells as its table has titles."""

    garden: Sequence[tuple[str, str]]
    dates: Rows  # day, what, where
    keepers: Rows  # name, part, email, telephone
    duties: Rows  # duty, done by, stands in, what it takes
    matters: Rows  # part of the work, what is open, day
    things: Rows  # thing, place, who knows more, due
    plots: Rows  # label, size, held by, reached by
    rules: Sequence[tuple[str, Sequence[tuple[str, str]]]]  # block, its rules
    address: str
    coming_in: Sequence[str]
    kept_in: Sequence[tuple[str, str]]  # what, where on the computer


def hand_over(head: Head, pack: HandOver) -> Document:
    """What is open first, then dates and people, then the ground, then how the garden decides."""
    page = Page(head)
    page.facts(pack.garden)
    _matters(page, pack.matters)
    _part(
        page,
        gettext("The coming year's dates"),
        pack.dates,
        titles=(gettext("Day"), gettext("What"), gettext("Where")),
        shares=(2.2, 4.5, 2.5),
        empty=gettext("No date is set yet."),
    )
    _people(page, pack)
    _ground(page, pack)
    page.heading(gettext("How this garden decides"))
    for title, pairs in pack.rules:
        page.table(pairs, titles=(title, ""), shares=(3, 2))
    _getting_in(page, pack)
    page.heading(gettext("Handed over"), room=130)
    page.text(gettext("Everything else is in Trugbook: {address}").format(address=pack.address))
    page.signature(gettext("Handed over by"), gettext("Taken over by"), gettext("Day"))
    return page.document()


def _people(page: Page, pack: HandOver) -> None:
    _part(
        page,
        gettext("Who runs the garden"),
        pack.keepers,
        titles=(gettext("Name"), gettext("Part"), gettext("Email"), gettext("Telephone")),
        shares=(2.4, 3.2, 3.2, 2),
        empty="",
    )
    _part(
        page,
        gettext("Who does what"),
        pack.duties,
        titles=(gettext("Duty"), gettext("Done by"), gettext("Stands in"), gettext("What it takes")),
        shares=(2.2, 2, 2, 4),
        empty=gettext("No duty is noted yet."),
    )


def _ground(page: Page, pack: HandOver) -> None:
    _part(
        page,
        gettext("Where things are"),
        pack.things,
        titles=(gettext("Thing"), gettext("Where it is"), gettext("Who knows more"), gettext("Due")),
        shares=(2.4, 4, 2.2, 1.6),
        empty=gettext("Nothing is noted yet. Walk the garden together, and write it down here:"),
        lines=6,
    )
    _part(
        page,
        gettext("The plots"),
        pack.plots,
        titles=(gettext("Plot"), gettext("Size"), gettext("Held by"), gettext("Reached by")),
        shares=(1, 2, 3.6, 3.6),
        empty=gettext("There are no plots yet."),
    )


def _getting_in(page: Page, pack: HandOver) -> None:
    """The way in, where everything is kept, and lines for what is written down nowhere else."""
    page.heading(gettext("Getting in, and keeping it safe"))
    for text in pack.coming_in:
        page.text(text)
    page.facts(pack.kept_in)
    page.text(
        gettext(
            "Copies: stop the service and copy that whole folder to somewhere else; a PostgreSQL database is "
            "copied with its own tools. Try once to read a copy back. Who knows, writes it down:"
        )
    )
    asked = (
        gettext("Where that computer stands, and who looks after it"),
        gettext("Where the copies are, how often they are made, when one was last read back"),
        gettext("Who has which keys, and who changes the codes after today"),
        gettext("The mailbox, the bank and the landowner: who signs for them now"),
    )
    page.table([(question, "") for question in asked], shares=(2, 3), row_height=ROW, grid=True)


def _matters(page: Page, matters: Rows) -> None:
    page.heading(gettext("What is open"))
    if not matters:
        page.text(gettext("Nothing waits for anybody."))
    for part, rows in groupby(matters, key=lambda row: row[0]):
        page.table([row[1:] for row in rows], titles=(part, gettext("By")), shares=(5, 1.4))


def _part(
    page: Page,
    heading: str,
    rows: Rows,
    *,
    titles: Sequence[str],
    shares: Sequence[float],
    empty: str,
    lines: int = 0,
) -> None:
    """A table under its heading, or the sentence that says there is none, with lines to write on."""
    page.heading(heading)
    if rows:
        page.table(rows, titles=titles, shares=shares)
    elif empty:
        page.text(empty)
        page.writing_lines(lines)
