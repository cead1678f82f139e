"""A week's jobs for a pocket or the shed: boxes to tick, why, and lines to write on.

Two cards stand on a sheet, whoever they are for; one alone, or in large print, takes a whole one. Where a
week is full, reasons give way to jobs, the least urgent first; a week that no card holds goes on on the next.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import accumulate

from django.utils import translation
from django.utils.translation import gettext as _

from schedules.reports import fonts, ink
from schedules.reports.document import Document, Head, Page
from schedules.reports.leaves import (
    LARGE,
    USUAL,
    Foot,
    Leaf,
    Leaves,
    legible,
    lines_of,
    lost,
    page_of,
    width_of,
    without_orphan,
)
from schedules.reports.member_plan import DayLine
from schedules.reports.setting import bracketed
from schedules.reports.sheet import PAPERS

_SIDE, _EDGE = 34.0, 24.0
_GAP = 20.0
_BOX = 9.0
_BETWEEN = 4.5
_LINES, _LINE = 2, 21.0
_DAYS = re.compile(r"(?<=[^\W\d]) (?=\d)|(?<=\d) (?=[^\W\d])")  # "May 7" stays on one line


@dataclass(frozen=True, slots=True)
class TaskLine:
    """One thing to do: what, at which plot where there are several, until when, why.

    `urgent` ones are in bold; of two lines the one of lower `rank` is more urgent.
    """

    what: str
    plot: str
    when: str
    why: str
    urgent: bool = False
    rank: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class JobCard:
    """One member's week; `week` names it, `water` is owed, `following` is for one in which nothing is due."""

    week: str
    plots: str
    people: str
    garden: str
    record: str
    monday: date
    tasks: tuple[TaskLine, ...]
    water: tuple[TaskLine, ...]
    days: tuple[DayLine, ...]
    following: str
    language: str
    paper: str
    printed_on: date
    large: bool = False


def job_cards_pdf(cards: Sequence[JobCard]) -> bytes:
    """The cards, two to a sheet where there are several, each in its language and named in the outline.

    Raises `ValueError` without any.
    """
    first, *others = cards
    whole = first.large or not others
    book = Leaves(title=first.week, author=first.garden, subject=first.record, language=first.language)
    leaves: list[Leaf] = []
    for card in cards:
        with translation.override(card.language):
            own = _Card(book, card, whole=whole).pages()
            own[0].bookmarks.append((f"{card.people}, {card.plots}" if others else card.week, 0))
            leaves += own
    book.add(leaves if whole else _paired(book, leaves))
    return book.finished()


def job_card(card: JobCard) -> Document:
    """The same as a page shows it and a table holds it."""
    page = Page(
        Head(
            garden=card.garden,
            title=card.week,
            paper=card.paper,
            language=card.language,
            printed_on=card.printed_on,
            subtitle=f"{card.people}, {card.plots}",
            note=card.record,
            large=card.large,
        )
    )
    page.table([(one.when, one.what) for one in card.days], shares=(1, 3))
    page.table(
        [(one.what, one.plot, one.when, one.why) for one in (*card.water, *card.tasks)],
        titles=(_("what"), _("plot"), _("when"), _("why")),
        shares=(3, 1, 3, 5),
    )
    page.text(card.following)
    page.writing_lines(_LINES)
    return page.document()


class _Card:
    """One card, on as many sheets, or halves of them, as its jobs need."""

    def __init__(self, book: Leaves, card: JobCard, *, whole: bool) -> None:
        self.book, self.card = book, card
        self.sizes = LARGE if card.large else USUAL
        width, height = PAPERS[card.paper]
        self.size = (width, height if whole else height / 2)
        texts = [card.garden, card.plots, card.people, *(one.what for one in card.tasks)]
        record = bracketed(card.record) if any(map(lost, texts)) else card.record
        self.foot = Foot(card.garden, card.plots, record, card.printed_on)
        self.width = width - 2 * _SIDE
        self.columns = 1 if card.large else 2
        self.column = (self.width - (self.columns - 1) * _GAP) / self.columns
        self.line = _LINE * (1.4 if card.large else 1.0)
        self.box = _BOX * (1.7 if card.large else 1.0)
        self.bottom = _EDGE - 8 + self.foot.height(self.width, self.sizes) + 6
        self.writing = self.bottom + _LINES * self.line + self.sizes.small_leading

    def pages(self) -> list[Leaf]:
        pages = self._filled()
        for number, leaf in enumerate(pages, start=1):
            self.foot.draw(leaf, _SIDE, _EDGE - 8, self.width, self.sizes, page_of(number, len(pages)))
        return pages

    def _filled(self) -> list[Leaf]:
        """Tasks down the columns and on to the next card; lines to write on at the foot of the last."""
        pages: list[Leaf] = []
        left = self._with_reasons()
        while True:
            leaf, top = self._begun(first=not pages)
            pages.append(leaf)
            last = self._fits(left, top - self.writing)
            room = top - (self.writing if last else self.bottom)
            columns = self._even(left, room) if last else self._columns(left, room)
            ends = [
                self._column(leaf, tasks, _SIDE + n * (self.column + _GAP), top)
                for n, tasks in enumerate(columns)
            ]
            left = left[sum(map(len, columns)) :]
            if last:
                self._writing(leaf, min(ends))
                return pages

    def _with_reasons(self) -> list[TaskLine]:
        """The tasks, with reasons for as many, the most urgent, as no further card is needed for."""
        tasks = [*self.card.water, *self.card.tasks]
        fewest = self._count([replace(one, why="") for one in tasks])
        by_urgency = sorted(range(len(tasks)), key=lambda n: tasks[n].rank)
        for count in range(len(tasks), 0, -1):
            told = set(by_urgency[:count])
            shown = [one if n in told else replace(one, why="") for n, one in enumerate(tasks)]
            if self._count(shown) == fewest:
                return shown
        return [replace(one, why="") for one in tasks]

    def _count(self, tasks: Sequence[TaskLine]) -> int:
        """How many cards the tasks need."""
        left, top = list(tasks), self.size[1] - _EDGE - self._head_height(first=True)
        for count in range(1, len(tasks) + 2):
            if self._fits(left, top - self.writing):
                return count
            left = left[sum(map(len, self._columns(left, top - self.bottom))) :]
            top = self.size[1] - _EDGE - self._head_height(first=False)
        return len(tasks) + 2

    def _fits(self, tasks: Sequence[TaskLine], room: float) -> bool:
        """Whether the tasks stand in the columns of one card."""
        return sum(map(len, self._columns(tasks, room))) == len(tasks)

    def _columns(self, tasks: Sequence[TaskLine], room: float) -> list[list[TaskLine]]:
        """What stands in each column; a task higher than all `room` has one to itself."""
        left = list(tasks)
        columns: list[list[TaskLine]] = []
        for _n in range(self.columns):
            columns.append([])
            used = 0.0
            while left and (not columns[-1] or used + self._height(left[0]) <= room):
                used += self._height(left[0])
                columns[-1].append(left.pop(0))
        return columns

    def _even(self, tasks: Sequence[TaskLine], room: float) -> list[list[TaskLine]]:
        """Columns no longer than they must be to hold all tasks, so that none stands empty."""
        heights = [self._height(one) for one in tasks]
        fitting = (end for end in accumulate(heights) if end <= room and self._fits(tasks, end))
        return self._columns(tasks, next(fitting, room))

    def _texts(self, *, first: bool) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
        """In lines: the week, whose it is, and on the first card the garden's days and what is to come."""
        card, sizes = self.card, self.sizes
        title = card.week if first else _("%(week)s, continued") % {"week": card.week}
        told = [*(f"{one.when}: {one.what}" for one in card.days), card.following] if first else []
        return (
            lines_of(title, sizes.heading * 1.1, self.width, fonts.LIGHT),
            lines_of(f"{card.people}  ·  {card.plots}", sizes.body, self.width, fonts.BOLD),
            tuple(line for text in told if text for line in lines_of(text, sizes.body, self.width)),
        )

    def _head_height(self, *, first: bool) -> float:
        title, whose, told = self._texts(first=first)
        return len(title) * self.sizes.heading * 1.1 + (len(whose) + len(told)) * self.sizes.leading + 15

    def _begun(self, *, first: bool) -> tuple[Leaf, float]:
        """A card with its head, and the y below it."""
        sizes, (title, whose, told) = self.sizes, self._texts(first=first)
        leaf, size = self.book.leaf(*self.size), self.sizes.heading * 1.1
        y = self.size[1] - _EDGE
        leaf.lines(_SIDE, y - size, title, size, size, font=fonts.LIGHT)
        y -= len(title) * size + 3
        leaf.lines(_SIDE, y - sizes.leading, whose, sizes.body, sizes.leading, font=fonts.BOLD)
        y -= len(whose) * sizes.leading + 5
        leaf.rule(_SIDE, y, _SIDE + self.width, y)
        leaf.lines(_SIDE, y - 2 - sizes.leading, told, sizes.body, sizes.leading)
        return leaf, self.size[1] - _EDGE - self._head_height(first=first)

    def _lines(self, one: TaskLine) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...], bool]:
        """What, when and why in lines, and whether when has room beside what."""
        sizes, room = self.sizes, self.column - self.box - 6
        text = _("%(crop)s (%(plot)s)") % {"crop": one.what, "plot": one.plot} if one.plot else one.what
        what = lines_of(text, sizes.body, room, fonts.BOLD)
        when = without_orphan(_DAYS.sub("\u00a0", one.when), sizes.small, room) if one.when else ()
        used = width_of(what[0], sizes.body, fonts.BOLD) + 8
        beside = len(what) == len(when) == 1 and used + self._width_of_when(one) <= room
        return what, when, lines_of(one.why, sizes.small, room) if one.why else (), beside

    def _width_of_when(self, one: TaskLine) -> float:
        return width_of(legible(one.when), self.sizes.small, self._font_of_when(one))

    def _font_of_when(self, one: TaskLine) -> str:
        return fonts.BOLD if one.urgent else fonts.BODY

    def _height(self, one: TaskLine) -> float:
        what, when, why, beside = self._lines(one)
        small = len(why) + (0 if beside else len(when))
        return len(what) * self.sizes.leading + small * self.sizes.small_leading + _BETWEEN

    def _column(self, leaf: Leaf, tasks: Sequence[TaskLine], x: float, top: float) -> float:
        """The tasks one below the other; returns the y below them."""
        for one in tasks:
            self._task(leaf, one, x, top)
            top -= self._height(one)
        return top

    def _task(self, leaf: Leaf, one: TaskLine, x: float, top: float) -> None:
        """A box to tick, and beside it what, when and why."""
        sizes, font = self.sizes, self._font_of_when(one)
        what, when, why, beside = self._lines(one)
        base, place = top - sizes.body, x + self.box + 6
        leaf.box(x + 0.5, base - self.box * 0.12, self.box)
        leaf.lines(place, base, what, sizes.body, sizes.leading, font=fonts.BOLD)
        y = base - len(what) * sizes.leading + (sizes.leading - sizes.small_leading)
        if beside:
            after = place + width_of(what[0], sizes.body, fonts.BOLD) + 8
            leaf.text(after, base, when[0], sizes.small, font=font)
        else:
            leaf.lines(place, y, when, sizes.small, sizes.small_leading, font=font)
            y -= len(when) * sizes.small_leading
        leaf.lines(place, y, why, sizes.small, sizes.small_leading, color=ink.QUIET)

    def _writing(self, leaf: Leaf, below: float) -> None:
        """Lines to write on, as many as there is room for `below` the tasks."""
        count = max(_LINES, int((below - self.sizes.small_leading - self.bottom) // self.line))
        top = self.bottom + count * self.line
        leaf.text(_SIDE, top - 2, _("What was done, seen and picked"), self.sizes.small, color=ink.QUIET)
        for n in range(1, count + 1):
            y = top - n * self.line + 2
            leaf.rule(_SIDE, y, _SIDE + self.width, y, color=ink.RULE)


def _paired(book: Leaves, halves: Sequence[Leaf]) -> list[Leaf]:
    """Two cards on each sheet, with a line to cut along."""
    sheets = []
    for at in range(0, len(halves), 2):
        upper, lower = halves[at], halves[at + 1] if at + 1 < len(halves) else None
        leaf = book.leaf(upper.width, 2 * upper.height)
        leaf.place("\n".join(upper.operators), 0, upper.height)
        leaf.rule(0, upper.height, upper.width, upper.height, color=ink.QUIET, width=0.5, dash="3 4")
        leaf.bookmarks = [*upper.bookmarks, *(lower.bookmarks if lower else [])]
        if lower is not None:
            leaf.place("\n".join(lower.operators), 0, 0)
        sheets.append(leaf)
    return sheets
