"""A member's season on one sheet for the wall: a row for each planting, and the days to remember in words.

Rows are ruled as high as the sheet allows and no lower than can be read; what is more goes on a second sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from django.utils import translation
from django.utils.translation import gettext as _
from django.utils.translation import pgettext

from schedules.reports import fonts, ink, ruled_strip
from schedules.reports.days import short_day
from schedules.reports.document import Document, Page
from schedules.reports.leaves import Leaf, Leaves, legible, lines_of, page_of, width_of, without_orphan
from schedules.reports.member_calendar import dated_rows
from schedules.reports.member_plan import (
    DayLine,
    MemberPlan,
    add_strip,
    foot_of,
    head_of,
    key_dates,
    nothing_dated,
    sizes_of,
    span_of,
    what_of,
    without_days,
)
from schedules.reports.ruled_strip import RuledRow, Ruling
from schedules.reports.season import StripRow
from schedules.reports.sheet import PAPERS

SIDE, TOP, BOTTOM = 34.0, 30.0, 26.0
_COMFORTABLE = 13.0  # points of a lane: what is worth laying the sheet across
# Days to remember; points of a lane, letters, padding: from generous to the least that can be read.
_RULINGS = (
    (9, 17, 11.5, 6),
    (9, 15, 11, 5),
    (9, 13, 10.5, 4),
    (9, 11.5, 10, 3),
    (9, 10, 9.5, 2.5),
    (9, 9, 9.5, 2),
    (9, 8, 9.5, 1.6),
    (9, 7, 9.5, 1.3),
    (6, 7, 9.5, 1.3),
    (6, 6.2, 9.5, 1),
    (3, 6.2, 9.5, 1),
    (3, 5.4, 9.5, 0.8),
)
_LARGE_RULINGS = ((6, 18, 20, 7), (6, 16, 18, 5), (6, 13, 18, 3), (4, 10, 18, 2))
_ON_SEVERAL, _ON_SEVERAL_LARGE = (9, 10, 9.5, 2.5), (6, 15, 18, 4)
_EMPTY_HEIGHT = 160.0
_MOST_DATES = 9
_ABOVE_DAYS = 10.0
_BEGUN, _OUTDOORS = ("sow", "transplant"), 1
_NOTE_LINE = 24.0


def posters_pdf(plans: Sequence[MemberPlan]) -> bytes:
    """The posters one after the other, each in its own language and named in the file's outline.

    Raises `ValueError` without any.
    """
    first, *others = plans
    book = Leaves(title=first.title, author=first.garden, subject=first.record, language=first.language)
    for plan in plans:
        with translation.override(plan.language):
            leaves = _Poster(book, plan).leaves()
            leaves[0].bookmarks.append((f"{plan.people}, {plan.title}" if others else plan.title, 0))
            book.add(leaves)
    return book.finished()


def poster(plan: MemberPlan) -> Document:
    """The same as a page shows it and a table holds it."""
    page = Page(head_of(plan))
    for text in nothing_dated(plan):
        page.text(text)
    if any(plan.rows):
        add_strip(page, plan, by_planting=True)
    dates = [*key_dates(plan, _MOST_DATES), *without_days(plan)]
    page.heading(_("Days to remember"))
    page.table([(one.when, one.what) for one in dates], shares=(1, 3))
    if any(plan.rows):
        page.heading(_("Month by month"))
    page.table(
        [
            (crop, what_of(row), short_day(window[1], plan.year), span_of(row, plan.year))
            for window, row, crop in dated_rows(plan)
        ],
        titles=(_("crop"), _("what"), _("best"), _("from and until")),
        shares=(5, 4, 2, 4),
    )
    return page.document()


@dataclass(frozen=True, slots=True)
class _Line:
    """A planting on the poster: its row, its plot where that must be said, best days after `_heads`."""

    row: StripRow
    tag: str
    days: tuple[str, str, str]


def _lines(plan: MemberPlan) -> list[_Line]:
    return [
        _Line(
            row,
            plot.label if plan.several else "",
            (_best(row, ("start-indoors",)), _best(row, _BEGUN), _best(row, ("harvest",))),
        )
        for plot in plan.plots
        for row in plot.plantings
    ]


def _heads() -> tuple[str, str, str]:
    return (
        pgettext("above days", "indoors"),
        pgettext("above days", "outdoors"),
        pgettext("above days", "pick"),
    )


def _best(row: StripRow, operations: Sequence[str]) -> str:
    """The best day of the first of these, if there is any."""
    found = [mark for mark in row.marks if mark.operation in operations]
    open_yet = [mark for mark in found if not mark.done] or found
    if not open_yet:
        return ""
    day = min(mark.best for mark in open_yet)
    return short_day(day, day.year)


class _Poster:
    """One poster on its sheet, or where it has too many rows on several."""

    def __init__(self, book: Leaves, plan: MemberPlan) -> None:
        self.book, self.plan, self.sizes, self.foot = book, plan, sizes_of(plan), foot_of(plan)
        self.known = _lines(plan)
        self.empty = nothing_dated(plan)

    def leaves(self) -> list[Leaf]:
        self._choose()
        parts = self._parts()
        leaves = [self._sheet(*part, at, len(parts)) for at, part in enumerate(parts)]
        for number, leaf in enumerate(leaves, start=1):
            self.foot.draw(leaf, SIDE, BOTTOM, self.width, self.sizes, page_of(number, len(leaves)))
        return leaves

    def _choose(self) -> None:
        """Across where that leaves the rows at their ease, else upright, ruled as generously as fits.

        Before rows become too low to read, fewer days to remember are named; what fits in no way stands
        upright on several sheets.
        """
        upright = PAPERS[self.plan.paper]
        for dates, lane, text, pad in _LARGE_RULINGS if self.plan.large else _RULINGS:
            for size in (upright[::-1], upright):
                self._take(size, Ruling(lane=lane, text=text, names=0, pad=pad), dates)
                if (size is upright or lane >= _COMFORTABLE) and self._needed() <= self._room():
                    self._spread()
                    return
        dates, lane, text, pad = _ON_SEVERAL_LARGE if self.plan.large else _ON_SEVERAL
        self._take(upright, Ruling(lane=lane, text=text, names=0, pad=pad), dates)

    def _take(self, size: tuple[float, float], ruling: Ruling, dates: int) -> None:
        self.size, self.width = size, size[0] - 2 * SIDE
        self.dates = [*key_dates(self.plan, dates), *without_days(self.plan)]
        across = size[0] > size[1]
        self.columns = (2 if across else 1) if self.plan.large else 3
        self.columns_of_days = {
            n: max(width_of(legible(word), ruling.text, fonts.BOLD) for word in (head, *days)) + 7
            for n, head in enumerate(_heads())
            if any(days := [line.days[n] for line in self.known])
        }
        self.beyond = 0.0 if self.plan.large else sum(self.columns_of_days.values())
        share = 0.3 if self.plan.large else 0.2 if across else 0.24
        self.ruling = replace(ruling, names=self.width * share)
        self.ruled = [
            ruled_strip.ruled_row(line.row, line.tag, self.ruling, below=self._days_below(line))
            for line in self.known
        ]

    def _days_below(self, line: _Line) -> list[str]:
        """A planting's days under its name, where large letters leave no room at the end of its row."""
        if not self.plan.large:
            return []
        return [f"{head}\u00a0{day}" for head, day in zip(_heads(), line.days, strict=True) if day]

    def _needed(self) -> float:
        """The height of rows and days to remember together."""
        rows = sum(row.height for row in self.ruled) if self.known else _EMPTY_HEIGHT
        return rows + self._dates_height()

    def _empty_height(self) -> float:
        """An empty year takes all that its sheet has."""
        room = self._room()
        return room if self._needed() > room else room - self._dates_height()

    def _spread(self) -> None:
        """Rows a little apart where the sheet has room left."""
        if self.ruled:
            more = min((self._room() - self._needed()) / len(self.ruled), 2.2 * self.ruling.lane)
            self.ruled = [replace(row, height=row.height + more) for row in self.ruled]

    def _room(self) -> float:
        """The height for rows and days to remember on a sheet with a strip."""
        strip = self.plan.strip
        ruled = ruled_strip.head_height(strip, self.ruling) + ruled_strip.foot_height(strip, self.ruling)
        key = ruled_strip.key_height(strip, self.width, self.sizes.small)
        return self._plain_room() - ruled - key - 4 - _ABOVE_DAYS

    def _plain_room(self) -> float:
        """The height between a sheet's head and its foot."""
        foot = self.foot.height(self.width, self.sizes) + 10
        return self.size[1] - TOP - BOTTOM - self._head_height() - foot

    def _parts(self) -> list[tuple[list[int], list[DayLine]]]:
        """What each sheet holds: rows by number, evenly, then days to remember, alone if they must."""
        rows, used = self._rows_of_sheets()
        if used + self._dates_height() <= self._room() + 0.01:
            return [*((one, []) for one in rows[:-1]), (rows[-1], self.dates)]
        self.dates = [*key_dates(self.plan, _MOST_DATES), *without_days(self.plan)]  # there is room now
        days: list[list[DayLine]] = [[]]
        height = 0.0
        for line in self._lines_of_days():
            high = self._line_height(line)
            if days[-1] and height + high > self._plain_room() - self.sizes.heading * 1.6 - 10:
                days.append([])
                height = 0.0
            days[-1] += line
            height += high
        return [*((one, []) for one in rows), *(([], some) for some in days)]

    def _rows_of_sheets(self) -> tuple[list[list[int]], float]:
        """The rows of each sheet, and the height that those of the last one take."""
        if not self.known:
            return [[]], _EMPTY_HEIGHT
        fewest, used = self._dealt(1)
        parts, evenly = self._dealt(len(fewest))
        return (parts, evenly) if len(parts) == len(fewest) else (fewest, used)

    def _dealt(self, count: int) -> tuple[list[list[int]], float]:
        """The rows in at least `count` parts as even as can be, and the height of the last."""
        whole = sum(row.height for row in self.ruled)
        parts: list[list[int]] = [[]]
        used = 0.0
        for at, row in enumerate(self.ruled):
            full = used + row.height > self._room() + 0.01
            if parts[-1] and (full or (len(parts) < count and used + row.height / 2 > whole / count)):
                parts.append([])
                used = 0.0
            parts[-1].append(at)
            used += row.height
        return parts, used

    def _head_lines(self) -> tuple[float, tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
        """The title's size and lines, the people, and what an empty plan says."""
        for share in (1.25, 1.0, 0.8):
            size = self.sizes.title * share
            title = without_orphan(self.plan.title, size, self.width, fonts.LIGHT)
            if len(title) == 1:
                break
        body = self.sizes.body + 1.5
        step = lines_of(" ".join(self.empty), body, self.width) if self.empty else ()
        return size, title, lines_of(self.plan.people, body, self.width * 0.8), step

    def _head_height(self) -> float:
        size, title, people, step = self._head_lines()
        body = (self.sizes.body + 1.5) * 1.3
        return len(title) * size * 1.1 + (len(people) + len(step)) * body + (16 if step else 8)

    def _sheet(self, part: Sequence[int], days: Sequence[DayLine], at: int, count: int) -> Leaf:
        leaf = self.book.leaf(*self.size)
        y = self._head(leaf, at, count)
        if part or at == 0:
            y = self._strip(leaf, part, y)
            strip, small = self.plan.strip, self.sizes.small
            y = ruled_strip.draw_key(leaf, strip, left=SIDE, top=y - 4, width=self.width, size=small)
        if days:
            y = self._days(leaf, days, y - (_ABOVE_DAYS if part else 4))
        self._notes(leaf, y)
        return leaf

    def _head(self, leaf: Leaf, at: int, count: int) -> float:
        title_size, title, people, step = self._head_lines()
        y = self.size[1] - TOP - title_size * 0.85
        leaf.lines(SIDE, y, title, title_size, title_size * 1.1, font=fonts.LIGHT)
        size = self.sizes.body + 1.5
        y -= (len(title) - 1) * title_size * 1.1 + size * 1.55
        if count > 1:
            words = _("sheet %(number)d of %(count)d") % {"number": at + 1, "count": count}
            leaf.text(SIDE + self.width, y, words, self.sizes.body, color=ink.QUIET, anchor="end")
        leaf.lines(SIDE + 1, y, people, size, size * 1.3)
        leaf.lines(SIDE + 1, y - len(people) * size * 1.3 - 8, step, size, size * 1.3)
        return self.size[1] - TOP - self._head_height()

    def _strip(self, leaf: Leaf, part: Sequence[int], top: float) -> float:
        ruling, rows = self.ruling, [self.ruled[n] for n in part]
        below = ruled_strip.draw_strip(
            leaf,
            self.plan.strip,
            rows,
            ruling,
            left=SIDE,
            top=top,
            width=self.width - self.beyond,
            beyond=self.beyond,
            least=0.0 if self.known else self._empty_height(),
        )
        body = top - ruled_strip.head_height(self.plan.strip, ruling)
        if self.beyond:
            self._best_days(leaf, part, rows, body)
        return below

    def _best_days(self, leaf: Leaf, part: Sequence[int], rows: Sequence[RuledRow], body: float) -> None:
        """The best days of each planting at the right of its row."""
        size, heads, left = self.ruling.text, _heads(), SIDE + self.width - self.beyond
        widths = self.columns_of_days
        ends = list(zip((left + end for end in accumulate(widths.values())), widths, strict=True))
        for x, n in ends:
            leaf.text(x, body + size * 0.4, heads[n], size, color=ink.QUIET, anchor="end")
        y = body
        for line, row in zip(part, rows, strict=True):
            base = y - row.height / 2 - size * 0.34
            for x, n in ends:
                font = fonts.BOLD if n == _OUTDOORS else fonts.BODY
                leaf.text(x, base, self.known[line].days[n], size, font=font, anchor="end")
            y -= row.height

    def _column(self) -> float:
        return (self.width - (self.columns - 1) * 18) / self.columns

    def _day_lines(self, one: DayLine) -> tuple[tuple[str, ...], tuple[str, ...]]:
        size, width = self.sizes.body, self._column()
        return lines_of(one.when, size, width, fonts.BOLD), lines_of(one.what, size, width)

    def _lines_of_days(self) -> list[list[DayLine]]:
        return [self.dates[n : n + self.columns] for n in range(0, len(self.dates), self.columns)]

    def _line_height(self, line: Sequence[DayLine]) -> float:
        return max(sum(map(len, self._day_lines(one))) for one in line) * self.sizes.leading + 8

    def _dates_height(self) -> float:
        if not self.dates:
            return 0.0
        return sum(map(self._line_height, self._lines_of_days())) + self.sizes.heading * 1.6 + 6

    def _days(self, leaf: Leaf, days: Sequence[DayLine], y: float) -> float:
        """Days to remember, in columns, in order along the lines."""
        sizes, width = self.sizes, self._column()
        y -= sizes.heading
        leaf.text(SIDE, y, _("Days to remember"), sizes.heading, font=fonts.LIGHT)
        y -= sizes.heading * 0.6
        for start in range(0, len(days), self.columns):
            line = days[start : start + self.columns]
            for n, one in enumerate(line):
                x, (when, what) = SIDE + n * (width + 18), self._day_lines(one)
                leaf.rule(x, y, x + width, y, color=ink.RULE, width=0.5)
                leaf.lines(x, y - sizes.leading, when, sizes.body, sizes.leading, font=fonts.BOLD)
                leaf.lines(x, y - sizes.leading * (1 + len(when)), what, sizes.body, sizes.leading)
            y -= self._line_height(line)
        return y

    def _notes(self, leaf: Leaf, y: float) -> None:
        """Lines to write on in what is left of the sheet."""
        bottom = BOTTOM + self.foot.height(self.width, self.sizes) + 8
        line = _NOTE_LINE * (1.3 if self.plan.large else 1.0)
        count = int((y - bottom - 6) // line)
        for n in range(1, count + 1 if count > 1 else 0):
            leaf.rule(SIDE, y - n * line, SIDE + self.width, y - n * line, color=ink.RULE)
