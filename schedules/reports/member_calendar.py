"""A member's planting calendar on paper: one strip, month by month, then crop by crop with the reasons."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import partial
from itertools import groupby

from django.utils import translation
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from schedules.months import month_start
from schedules.reports import fonts, ink, marks, ruled_strip, season_strip
from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.days import short_day
from schedules.reports.document import Document, Page
from schedules.reports.leaves import Flow, Leaf, Leaves, at_once, legible, lines_of, page_of, width_of
from schedules.reports.member_plan import (
    MemberPlan,
    add_strip,
    foot_of,
    head_of,
    named,
    nothing_planned,
    sizes_of,
    span_of,
    what_of,
)
from schedules.reports.ruled_strip import Ruling
from schedules.reports.sheet import PAPERS, SIDE, TOP

BOTTOM = 30.0
_MARK_SCALE = 0.62
_ROW_GAP = 3.5
Dated = tuple[tuple[date, date, date], CalendarRow, str]


def member_calendars_pdf(plans: Sequence[MemberPlan]) -> bytes:
    """The calendars one after the other, each in its own language and named in the file's outline.

    Raises `ValueError` without any.
    """
    first, *others = plans
    book = Leaves(title=first.title, author=first.garden, subject=first.record, language=first.language)
    for plan in plans:
        with translation.override(plan.language):
            book.add(_Calendar(book, plan).leaves(f"{plan.people}, {plan.title}" if others else plan.title))
    return book.finished()


def member_calendar(plan: MemberPlan) -> Document:
    """The same as a page shows it and a table holds it."""
    page = Page(head_of(plan))
    if not any(plan.rows):
        for text in nothing_planned(plan):
            page.text(text)
        return page.document()
    add_strip(page, plan)
    if dated := dated_rows(plan):
        page.heading(_("Month by month"))
        page.table(
            [
                (
                    short_day(window[1], plan.year),
                    what_of(row),
                    crop,
                    span_of(row, plan.year),
                )
                for window, row, crop in dated
            ],
            titles=(_("best"), _("what"), _("crop"), _("from and until")),
            shares=(2, 4, 5, 4),
        )
    page.heading(_("Crop by crop, and why"))
    page.table(
        [_document_row(crop, row, plan) for crop, rows in crops_of(plan) for row in rows],
        titles=(_("crop"), _("what"), _("earliest"), _("best"), _("latest"), _("why")),
        shares=(4, 3, 2, 2, 2, 7),
    )
    return page.document()


def _document_row(crop: str, row: CalendarRow, plan: MemberPlan) -> tuple[str, ...]:
    return (crop, what_of(row), *dates_of(row, plan.year), " ".join(row.reasons))


def dates_of(row: CalendarRow, year: int) -> tuple[str, str, str]:
    """Earliest, best and latest as a sheet of `year` writes them."""
    if row.window is None:
        return _("no window"), "", ""
    earliest, best, latest = (short_day(day, year) for day in row.window)
    return (_("done"), best, "") if row.done else (earliest, best, latest)


def dated_rows(plan: MemberPlan) -> list[Dated]:
    """Every window with its crop's name, in the order of best days."""
    found = [
        (row.window, row, named(row.crop, plot, plan))
        for plot in plan.plots
        for row in plot.rows
        if row.window is not None
    ]
    return sorted(found, key=lambda one: (one[0][1], one[2]))


def crops_of(plan: MemberPlan) -> Iterator[tuple[str, list[CalendarRow]]]:
    """Each crop of each plot with all its windows."""
    for plot in plan.plots:
        for crop, rows in groupby(plot.rows, key=lambda row: row.crop):
            yield named(crop, plot, plan), list(rows)


def month_name(month: date, plan: MemberPlan) -> str:
    """A month, with its year where that is not the plan's."""
    return date_format(month, "F" if month.year == plan.year else "F Y")


class _Calendar:
    """One calendar on its pages."""

    def __init__(self, book: Leaves, plan: MemberPlan) -> None:
        self.plan, self.sizes = plan, sizes_of(plan)
        self.foot = foot_of(plan)
        size = PAPERS[plan.paper]
        bottom = BOTTOM + self.foot.height(size[0] - 2 * SIDE, self.sizes) + 6
        self.flow = Flow(book, size, SIDE, TOP, bottom)
        self.mark = season_strip.KEY_WIDTH * _MARK_SCALE

    def leaves(self, bookmark: str) -> list[Leaf]:
        flow = self.flow
        flow.turn()
        flow.leaf.bookmarks.append((bookmark, 0))
        self._title()
        if any(self.plan.rows):
            self._strip()
            if dated_rows(self.plan):
                self._by_month()
            self._by_crop()
        else:
            for text in nothing_planned(self.plan):
                self._paragraph(text, self.sizes.body)
        for number, leaf in enumerate(flow.leaves, start=1):
            self.foot.draw(leaf, flow.left, BOTTOM, flow.width, self.sizes, page_of(number, len(flow.leaves)))
        return flow.leaves

    def _title(self) -> None:
        flow, sizes = self.flow, self.sizes
        for line in lines_of(self.plan.title, sizes.title, flow.width, fonts.LIGHT):
            flow.y -= sizes.title
            flow.leaf.text(flow.left, flow.y, line, sizes.title, font=fonts.LIGHT)
            flow.y -= sizes.title * 0.15
        self._paragraph(self.plan.people, sizes.body)
        flow.y -= 8

    def _paragraph(self, text: str, size: float) -> None:
        flow, leading = self.flow, size * 1.32
        for line in lines_of(text, size, flow.width):
            flow.room(leading)
            flow.y -= leading
            flow.leaf.text(flow.left, flow.y, line, size)

    def _strip(self) -> None:
        plan, flow, strip = self.plan, self.flow, self.plan.strip
        size = self.sizes.body
        ruling = Ruling(lane=12.0 if plan.large else 10.0, text=size, names=flow.width * 0.24, pad=3)
        if plan.large:
            ruling = Ruling(lane=13.0, text=size, names=flow.width * 0.32, pad=4)
        rows = [
            ruled_strip.ruled_row(row, plot.label if plan.several else "", ruling)
            for plot in plan.plots
            for row in plot.sowings
        ]
        fixed = ruled_strip.head_height(strip, ruling) + ruled_strip.foot_height(strip, ruling)
        while rows:
            part = _fitting(rows, flow.y - flow.bottom - fixed)
            if not part:
                flow.turn()
                continue
            flow.y = ruled_strip.draw_strip(
                flow.leaf, strip, part, ruling, left=flow.left, top=flow.y, width=flow.width
            )
            rows = rows[len(part) :]
        if strip.rows:
            flow.room(ruled_strip.key_height(strip, flow.width, size))
            flow.y = ruled_strip.draw_key(
                flow.leaf, strip, left=flow.left, top=flow.y - 2, width=flow.width, size=size
            )

    def _heading(self, text: str) -> None:
        flow, size = self.flow, self.sizes.heading
        flow.room(size * 2 + 5 * self.sizes.leading)
        flow.y -= size * 1.7
        flow.leaf.text(flow.left, flow.y, text, size, font=fonts.LIGHT)
        flow.y -= size * 0.4

    def _by_month(self) -> None:
        """Every window under the month of its best day, in order."""
        self._heading(_("Month by month"))
        for month, entries in groupby(dated_rows(self.plan), key=lambda one: month_start(one[0][1])):
            name = month_name(month, self.plan)
            lines = [self._month_line(row, window, crop) for window, row, crop in entries]
            self._table_head(name, lines[0][1])
            for draw, height in lines:
                if self.flow.room(height):
                    self._table_head(name, height)
                draw(self.flow.y)
                self.flow.y -= height
                self.flow.leaf.rule(
                    self.flow.left, self.flow.y, self.flow.right, self.flow.y, color=ink.RULE, width=0.4
                )
            self.flow.y -= 9

    def _table_head(self, name: str, first: float, titles: Sequence[tuple[float, str]] = ()) -> None:
        """A name over a rule, titles of columns at their places; on one page with a row of height `first`."""
        flow, size, leading = self.flow, self.sizes.body, self.sizes.leading
        room = (min(x for x, _title in titles) if titles else flow.right) - flow.left - 6
        lines = lines_of(name, size, room, fonts.BOLD)
        height = len(lines) * leading + 5
        flow.room(height + first)
        flow.leaf.lines(flow.left, flow.y - size, lines, size, leading, font=fonts.BOLD)
        base = flow.y - size - (len(lines) - 1) * leading
        for x, title in titles:
            flow.leaf.text(x, base, title, self.sizes.small, color=ink.QUIET)
        flow.y -= height
        flow.leaf.rule(flow.left, flow.y, flow.right, flow.y, width=0.8)

    def _month_line(
        self, row: CalendarRow, window: tuple[date, date, date], crop: str
    ) -> tuple[Callable[[float], None], float]:
        """How to draw a line, and its height."""
        flow, sizes = self.flow, self.sizes
        year = window[1].year
        best, span = short_day(window[1], year), span_of(row, year)
        size, leading = sizes.body, sizes.leading
        dates = (
            width_of("00 Mmm. 00", size) if not self.plan.large else width_of("Mmm. 00 ", size, fonts.BOLD)
        )
        at_mark = flow.left + max(dates, width_of(legible(best), size, fonts.BOLD) + 6)
        at_what = at_mark + self.mark + 6
        if self.plan.large:
            above = lines_of(f"{what_of(row)}: {crop}", size, flow.right - at_what)
            below = lines_of(span, size, flow.right - at_what)
            cells = [(at_what, (*above, *below))]
        else:
            at_span = flow.right - 124
            at_crop = at_what + (at_span - at_what) * 0.48
            cells = [
                (at_what, lines_of(what_of(row), size, at_crop - at_what - 6)),
                (at_crop, lines_of(crop, size, at_span - at_crop - 6)),
                (at_span, lines_of(span, size, 124)),
            ]
        height = max(len(lines) for _x, lines in cells) * leading + _ROW_GAP

        def draw(top: float) -> None:
            base = top - size - 1
            flow.leaf.text(flow.left, base, best, size, font=fonts.BOLD)
            self._draw_mark(row.operation, at_mark, base)
            for x, lines in cells:
                flow.leaf.lines(x, base, lines, size, leading)

        return draw, height

    def _draw_mark(self, operation: str, x: float, base: float) -> None:
        leaf = self.flow.leaf
        wide = season_strip.KEY_WIDTH - 2
        drawn = leaf.book.kept(("mark", operation), lambda: marks.draw(operation, 0, wide, 0))
        leaf.place(drawn, x, base + self.sizes.body * 0.36, _MARK_SCALE)

    def _by_crop(self) -> None:
        """Each crop's windows in full, each with its reasons in small print."""
        self._heading(_("Crop by crop, and why"))
        flow = self.flow
        column = 74.0
        places = [flow.right - (3 - n) * column for n in range(3)]
        titles = (
            [] if self.plan.large else list(zip(places, (_("earliest"), _("best"), _("latest")), strict=True))
        )
        for name, rows in crops_of(self.plan):
            self._table_head(name, self._window_height(rows[0], places), titles)
            for row in rows:
                if flow.room(self._window_height(row, places)):
                    self._table_head(name, self.sizes.leading, titles)
                self._window(row, places, partial(self._table_head, name, 0.0, titles))
            flow.y -= 9

    def _window_height(self, row: CalendarRow, places: Sequence[float]) -> float:
        """What of a window must stay together: its dates and the beginning of its reasons."""
        what, dates = self._window_lines(row, places)
        lines = len(what) + (len(dates) if self.plan.large else 0)
        reasons = min(len(self._reasons(row)), 3)
        return lines * self.sizes.leading + reasons * self.sizes.small_leading + 6

    def _window_lines(self, row: CalendarRow, places: Sequence[float]) -> tuple[Sequence[str], Sequence[str]]:
        """The operation in lines, and its dates: one for each place, in large print in lines of words."""
        size, dates = self.sizes.body, dates_of(row, self.plan.year)
        left = self.flow.left + self.mark + 6
        if not self.plan.large:
            return lines_of(what_of(row), size, places[0] - left - 6), dates
        if row.window is None or row.done:
            told = " ".join(part for part in dates if part)
        else:
            words = {"earliest": dates[0], "best": dates[1], "latest": dates[2]}
            told = _("earliest %(earliest)s, best %(best)s, latest %(latest)s") % words
        room = self.flow.right - left
        return lines_of(what_of(row), size, room, fonts.BOLD), lines_of(told, size, room)

    def _reasons(self, row: CalendarRow) -> tuple[str, ...]:
        room = self.flow.width - self.mark - 6
        return lines_of(" ".join(row.reasons), self.sizes.small, room) if row.reasons else ()

    def _window(self, row: CalendarRow, places: Sequence[float], again: Callable[[], None]) -> None:
        """One window; reasons longer than its page go on below the crop's name, said `again`."""
        flow, sizes = self.flow, self.sizes
        what, dates = self._window_lines(row, places)
        size, leading = sizes.body, sizes.leading
        left, base = flow.left + self.mark + 6, flow.y - size - 1
        self._draw_mark(row.operation, flow.left, base)
        flow.leaf.lines(left, base, what, size, leading, font=fonts.BOLD if self.plan.large else fonts.BODY)
        flow.y -= len(what) * leading
        if self.plan.large:
            flow.leaf.lines(left, flow.y - size - 1, dates, size, leading)
            flow.y -= len(dates) * leading
        else:
            for at, (x, text) in enumerate(zip(places, dates, strict=True)):
                flow.leaf.text(x, base, text, size, font=fonts.BOLD if at == 1 else fonts.BODY)
        flow.y -= 2
        reasons = self._reasons(row)
        for n, line in enumerate(reasons, start=1):
            if flow.room(sizes.small_leading * at_once(n, len(reasons))):
                again()
            flow.y -= sizes.small_leading
            flow.leaf.text(
                left, flow.y + sizes.small_leading - sizes.small, line, sizes.small, color=ink.QUIET
            )
        flow.y -= _ROW_GAP


def _fitting(rows: Sequence[ruled_strip.RuledRow], room: float) -> list[ruled_strip.RuledRow]:
    """As many of the first rows as stand in `room` points."""
    found: list[ruled_strip.RuledRow] = []
    for row in rows:
        room -= row.height
        if room < 0:
            break
        found.append(row)
    return found
