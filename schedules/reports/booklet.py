"""A member's year month by month with room to write, on whole pages or folded to half of them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial

from django.utils import translation
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from reportlab.lib.colors import Color

from schedules.months import month_starts
from schedules.reports import fonts, ink, marks, ruled_strip, season_strip
from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.days import short_day
from schedules.reports.document import Document, Page
from schedules.reports.leaves import Flow, Leaf, Leaves, at_once, legible, lines_of, page_of, width_of
from schedules.reports.member_calendar import crops_of, dated_rows
from schedules.reports.member_plan import (
    MemberPlan,
    foot_of,
    frost_lines,
    head_of,
    nothing_dated,
    sizes_of,
    span_of,
    what_of,
)
from schedules.reports.ruled_strip import Ruling
from schedules.reports.sheet import PAPERS, SIDE

_FOLDED_SIDE, _BOTTOM = 32.0, 26.0
_LEAST_LINES = 3
_WRITING_LINE = 24.0
_MARK_SCALE = 0.5
_REASONS_APART = 2.5
_LEAVES_OF_A_SHEET = 4
Listed = tuple[CalendarRow, str]


def booklets_pdf(plans: Sequence[MemberPlan], *, folded: bool = False) -> bytes:
    """The booklets one after the other, each in its own language and named in the file's outline.

    A folded one is printed on both sides, turned over the short edge: two pages a side, in such an order that
    the sheets laid into each other and folded are the booklet. Raises `ValueError` without any plan.
    """
    first, *others = plans
    book = Leaves(title=first.title, author=first.garden, subject=first.record, language=first.language)
    for plan in plans:
        with translation.override(plan.language):
            leaves = _Booklet(book, plan, folded=folded).leaves()
            name = f"{plan.people}, {plan.title}" if others else plan.title
            if folded:
                leaves = _imposed(book, leaves)
            leaves[0].bookmarks.append((name, 0))
            book.add(leaves)
    return book.finished()


def booklet(plan: MemberPlan, *, folded: bool = False) -> Document:
    """The same as a page shows it and a table holds it."""
    page = Page(head_of(plan))
    if folded:
        page.quiet(
            _("Print it on both sides, turned over the short edge; lay the sheets into each other and fold.")
        )
    page.facts((one.when, one.what) for one in frost_lines(plan))
    for text in nothing_dated(plan):
        page.text(text)
    for month in months_of(plan):
        _month_of(plan, month, page)
    if any(plan.rows):
        page.heading(_("Why on these days"))
    for crop, rows in crops_of(plan):
        page.table(
            [(what_of(row), span_of(row, plan.year), " ".join(row.reasons)) for row in rows],
            titles=(crop, "", ""),
            shares=(3, 3, 8),
        )
    return page.document()


def _month_of(plan: MemberPlan, month: date, page: Page) -> None:
    name = date_format(month, "YEAR_MONTH_FORMAT")
    page.heading(name)
    days = [(one.when, one.what) for one in plan.days if same_month(one.day, month)]
    page.table(days, shares=(1, 3))
    begins, goes_on = in_month(plan, month)
    for title, rows in (
        (_("Begins this month"), [(crop, what_of(row), _when(row, plan)) for row, crop in begins]),
        (_("Goes on"), [(crop, what_of(row), _going_on(row, month, plan)) for row, crop in goes_on]),
    ):
        page.table(rows, titles=(title, "", ""), shares=(4, 3, 4))
    page.writing_lines(_LEAST_LINES)


def months_of(plan: MemberPlan) -> list[date]:
    """The months of the plan's strip; of the next year only those that something of the plan falls into."""
    months = month_starts(plan.strip.first, plan.strip.last)
    return [month for month in months if month.year <= plan.year or any(in_month(plan, month))]


def same_month(day: date, month: date) -> bool:
    """Whether a day falls into the month that begins with `month`."""
    return (day.year, day.month) == (month.year, month.month)


def in_month(plan: MemberPlan, month: date) -> tuple[list[Listed], list[Listed]]:
    """The windows that open in a month, and those that opened before and are open still."""
    begins, goes_on = [], []
    for (earliest, _best, latest), row, crop in dated_rows(plan):
        before_all = month == plan.strip.first and earliest < month <= latest
        if same_month(earliest, month) or before_all:
            begins.append((row, crop))
        elif earliest < month <= latest and not row.done:
            goes_on.append((row, crop))
    return begins, goes_on


def _when(row: CalendarRow, plan: MemberPlan) -> str:
    """All three days of a window in words."""
    if row.best is None:
        return ""
    best = short_day(row.best, plan.year)
    if row.done:
        return _("done on %(day)s") % {"day": best}
    return _("%(span)s, best %(best)s") % {"span": span_of(row, plan.year), "best": best}


def _going_on(row: CalendarRow, month: date, plan: MemberPlan) -> str:
    """What is still to know of a window in a later month."""
    if row.best is None or row.latest is None:
        return ""
    words = {"best": short_day(row.best, plan.year), "latest": short_day(row.latest, plan.year)}
    if row.best >= month:
        return _("best %(best)s, until %(latest)s") % words
    return _("until %(latest)s") % words


class _Booklet:
    """The pages of one booklet."""

    def __init__(self, book: Leaves, plan: MemberPlan, *, folded: bool) -> None:
        self.plan, self.sizes, self.foot, self.folded = plan, sizes_of(plan), foot_of(plan), folded
        width, height = PAPERS[plan.paper]
        size = (height / 2, width) if folded else (width, height)
        side = _FOLDED_SIDE if folded else SIDE
        self.line = _WRITING_LINE * (1.3 if plan.large else 1.0)
        foot = _BOTTOM + self.foot.height(size[0] - 2 * side, self.sizes) + 6
        self.flow = Flow(book, size, side, side, foot)
        self.mark = season_strip.KEY_WIDTH * _MARK_SCALE * (1.3 if plan.large else 1.0)

    def leaves(self) -> list[Leaf]:
        flow = self.flow
        self._cover()
        for month in months_of(self.plan):
            self._month(month)
        if any(self.plan.rows):
            self._why()
        if self.folded:
            while len(flow.leaves) % _LEAVES_OF_A_SHEET:
                self._notes()
        for number, leaf in enumerate(flow.leaves, start=1):
            words = page_of(number, len(flow.leaves))
            self.foot.draw(leaf, flow.left, _BOTTOM, flow.width, self.sizes, words)
        return flow.leaves

    def _cover(self) -> None:
        plan, flow, sizes = self.plan, self.flow, self.sizes
        flow.turn()
        flow.y -= sizes.heading * 2
        self._lines(plan.garden, sizes.heading, fonts.LIGHT, color=ink.QUIET)
        flow.y -= sizes.heading
        self._lines(plan.title, sizes.title * (1.2 if self.folded else 1.5), fonts.LIGHT)
        self._lines(plan.people, sizes.body + 2, fonts.BOLD)
        flow.y -= sizes.leading * 1.5
        ruling = Ruling(lane=10, text=sizes.small, names=0)
        high = min(flow.size[1] * 0.2, 150.0)
        flow.y = ruled_strip.draw_strip(
            flow.leaf, plan.strip, [], ruling, left=flow.left, top=flow.y, width=flow.width, least=high
        )
        if plan.strip.frost:
            self._lines(_("The grey hill is the risk of frost."), sizes.small, color=ink.QUIET)
        flow.y -= sizes.leading
        for one in frost_lines(plan):
            self._lines(one.when, sizes.body, fonts.BOLD)
            self._lines(one.what, sizes.body)
            flow.y -= 5
        flow.y -= sizes.leading
        for text in nothing_dated(plan):
            self._lines(text, sizes.body)

    def _lines(
        self, text: str, size: float, font: str = fonts.BODY, *, indent: float = 0, color: Color = ink.INK
    ) -> None:
        """Text in as many lines as it takes, going on on the next page where it must."""
        flow, leading = self.flow, size * 1.3
        lines = lines_of(text, size, flow.width - indent, font)
        for n, line in enumerate(lines, start=1):
            flow.room(leading * at_once(n, len(lines)))
            flow.leaf.text(flow.left + indent, flow.y - size, line, size, font=font, color=color)
            flow.y -= leading

    def _head(self, text: str, leaf: Leaf) -> float:
        flow, size = self.flow, self.sizes.title
        lines = lines_of(text, size, flow.width, fonts.LIGHT)
        y = flow.size[1] - flow.top - size * 0.8
        leaf.lines(flow.left, y, lines, size, size * 1.1, font=fonts.LIGHT)
        y -= (len(lines) - 1) * size * 1.1 + size * 0.4
        leaf.rule(flow.left, y, flow.right, y)
        return y - 6

    def _head_again(self, text: str, crop: str, leaf: Leaf) -> float:
        """The head of a page that goes on with a crop's reasons."""
        flow, size = self.flow, self.sizes.small
        y, lines = self._head(text, leaf), lines_of(crop, size, flow.width, fonts.BOLD)
        leaf.lines(flow.left, y - size, lines, size, size * 1.3, font=fonts.BOLD)
        return y - len(lines) * size * 1.3

    def _month(self, month: date) -> None:
        plan, flow, sizes = self.plan, self.flow, self.sizes
        name = date_format(month, "YEAR_MONTH_FORMAT")
        flow.head = lambda leaf: self._head(name, leaf)
        flow.turn()
        again = _("%(month)s, continued") % {"month": name}
        flow.head = lambda leaf: self._head(again, leaf)
        if not self.folded:
            flow.leaf.bookmarks.append((name, 1))
        days = [one for one in plan.days if same_month(one.day, month)]
        for one in days:
            self._lines(one.when, sizes.body, fonts.BOLD)
            self._lines(one.what, sizes.body, indent=10)
            flow.y -= 2
        begins, goes_on = in_month(plan, month)
        if begins:
            self._part(_("Begins this month"))
            for row, crop in begins:
                self._window(row, crop, _when(row, plan), fonts.BOLD)
        if goes_on:
            self._part(_("Goes on"))
            for row, crop in goes_on:
                self._window(row, crop, _going_on(row, month, plan), fonts.BODY)
        if not begins and not goes_on and any(plan.rows):
            self._lines(_("Nothing of your plan falls into this month."), sizes.body, color=ink.QUIET)
        self._writing()

    def _part(self, title: str) -> None:
        flow, size = self.flow, self.sizes.heading
        flow.y -= 4
        flow.room(size * 1.5 + 3 * self.sizes.leading)
        self._lines(title, size, fonts.LIGHT)
        flow.y -= 2

    def _window(self, row: CalendarRow, crop: str, when: str, font: str) -> None:
        """What to do with which crop, and when: at the right where there is room, else below."""
        flow, size, leading = self.flow, self.sizes.body, self.sizes.leading
        indent, text = self.mark + 6, f"{what_of(row)}: {crop}"
        room = flow.width - indent
        beside = width_of(legible(text), size, font) + width_of(legible(when), size) + 14 <= room
        lines = lines_of(text, size, room, font)
        below = () if beside else lines_of(when, size, room)
        flow.room((len(lines) + len(below)) * leading)
        self._draw_mark(row.operation)
        base = flow.y - size
        flow.leaf.lines(flow.left + indent, base, lines, size, leading, font=font)
        for n, line in enumerate((when,) if beside else below):
            y = base if beside else base - (len(lines) + n) * leading
            flow.leaf.text(flow.right, y, line, size, anchor="end")
        flow.y -= (len(lines) + len(below)) * leading + 1.5

    def _draw_mark(self, operation: str) -> None:
        flow = self.flow
        wide, scale = season_strip.KEY_WIDTH - 2, self.mark / season_strip.KEY_WIDTH
        drawn = flow.book.kept(("mark", operation), lambda: marks.draw(operation, 0, wide, 0))
        flow.leaf.place(drawn, flow.left, flow.y - self.sizes.body * 0.66, scale)

    def _why(self) -> None:
        """The reasons of every window in small print, crop by crop, after the months."""
        plan, flow, sizes = self.plan, self.flow, self.sizes
        title = _("Why on these days")
        first = flow.head = lambda leaf: self._head(title, leaf)
        flow.turn()
        for crop, rows in crops_of(plan):
            flow.head = first
            flow.room(sizes.leading + 3 * sizes.small_leading)
            self._lines(crop, sizes.small, fonts.BOLD)
            flow.head = partial(self._head_again, title, crop)
            for row in rows:
                words = {"what": what_of(row), "when": span_of(row, plan.year), "why": " ".join(row.reasons)}
                self._lines(_("%(what)s, %(when)s: %(why)s") % words, sizes.small, indent=8, color=ink.QUIET)
                flow.y -= _REASONS_APART
            flow.y -= 5

    def _writing(self) -> None:
        """Lines to write on down to the foot; a few at least, on a page of their own if they must."""
        flow = self.flow
        flow.y -= 6
        flow.room(self.sizes.leading + _LEAST_LINES * self.line)
        self._lines(_("What was done, seen and picked"), self.sizes.small, color=ink.QUIET)
        while flow.y - self.line >= flow.bottom:
            flow.y -= self.line
            flow.leaf.rule(flow.left, flow.y, flow.right, flow.y, color=ink.RULE)

    def _notes(self) -> None:
        """A page to write on."""
        flow = self.flow
        flow.head = lambda leaf: self._head(_("Notes"), leaf)
        flow.turn()
        while flow.y - self.line >= flow.bottom:
            flow.y -= self.line
            flow.leaf.rule(flow.left, flow.y, flow.right, flow.y, color=ink.RULE)


def folding_order(count: int) -> list[tuple[int, int]]:
    """The pages at the left and right of each side of each sheet, from the outermost on, counted from 1.

    `count` is a multiple of four.

    >>> folding_order(8)
    [(8, 1), (2, 7), (6, 3), (4, 5)]
    """
    sides = []
    for first in range(1, count // 2, 2):
        last = count + 1 - first
        sides += [(last, first), (first + 1, last - 1)]
    return sides


def _imposed(book: Leaves, leaves: Sequence[Leaf]) -> list[Leaf]:
    """Two pages on each side of a sheet, in the order in which it is folded."""
    width, height = leaves[0].width, leaves[0].height
    sides = []
    for left, right in folding_order(len(leaves)):
        side = book.leaf(2 * width, height)
        side.operators += leaves[left - 1].operators
        side.place("\n".join(leaves[right - 1].operators), width, 0)
        sides.append(side)
    return sides
