"""Tables of a document, set in ruled lines; in large letters those too wide for them as lists."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, zip_longest
from typing import cast

from django.utils.translation import gettext
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Spacer, Table

from schedules.reports import fonts, ink, sheet
from schedules.reports.document import WRITING_LINE, Grid
from schedules.reports.ruled_table import TITLE_RULE, Again, RuledTable

# A longer cell goes on in a row of its own below, so that it can be broken over a page.
LONGEST_CELL = 450
ABOVE, BELOW = 2.5, 4.0  # points of a cell about its text
CLOSE_ABOVE, CLOSE_BELOW = 1.0, 2.0  # in a close table
WHOLE_ROW = 8  # lines of a row set as a list that stay on one page
LEAST_LINES = 5  # to write on, or they stand on the next page
APART = 6.0  # points between notes and what follows
LEAST_NOTES = 3  # to write notes on, or they are left out

SMALL = ParagraphStyle("small", sheet.BODY, fontSize=sheet.SMALL, leading=13)
NUMBER = ParagraphStyle("number", SMALL, alignment=2)
TITLES = ParagraphStyle("titles", SMALL, textColor=ink.QUIET)
NUMBER_TITLES = ParagraphStyle("number titles", TITLES, alignment=2)
CLOSE = ParagraphStyle("close", SMALL, leading=12)
CLOSE_NUMBER = ParagraphStyle("close number", CLOSE, alignment=2)
STRONG = ParagraphStyle("strong", SMALL, fontName=fonts.BOLD)

_BREAKS = re.compile(
    r"(?:[^\S\u00a0]|(?<!\d)-|-(?!\d))+"
)  # not in 555-0156, nor at a space that asks not to be

Style = list[tuple[object, ...]]


@dataclass(frozen=True, slots=True)
class Tables:
    """Sets tables on pages with `width` and `height` points between their margins."""

    setter: sheet.Setter
    width: float
    height: float

    def set(self, grid: Grid) -> list[Table]:
        """The table; one too wide for large letters as several, one for each row."""
        widths = self._widths(grid)
        if widths is None:
            above = [self._title(grid.titles[0])] if grid.titles and grid.titles[0] else []
            return above + [self._stacked(grid, row) for row in grid.rows if any(row)]
        titles = [
            self.setter.paragraph(title, NUMBER_TITLES if n in grid.numbers else TITLES)
            for n, title in enumerate(grid.titles)
        ]
        lines: list[list[Flowable]] = [titles] if titles else []
        style = ruled(parted=grid.parted, apart=self._apart(grid), close=grid.close)
        style += self._numbers_apart(grid)
        if titles:
            style += [("LINEBELOW", (0, 0), (-1, 0), *TITLE_RULE), ("VALIGN", (0, 0), (-1, 0), "BOTTOM")]
        for before, row, after in zip((None, *grid.rows), grid.rows, (*grid.rows[1:], None), strict=False):
            first = len(lines)
            parts = self._parts(row, widths)
            lines += [[self._cell(cell, n, grid) for n, cell in enumerate(part)] for part in parts]
            for at in range(first + 1, len(lines)):  # what goes on stands close to what it follows
                style += [("BOTTOMPADDING", (0, at - 1), (-1, at - 1), 0)]
                style += [("TOPPADDING", (0, at), (-1, at), 0)]
            if grid.grouped and before is not None and before[0] == row[0]:
                lines[first][0] = Again(lines[first][0])
            if grid.row_height and not row[-1]:
                lines[-1][-1] = Spacer(0, self.setter.line(grid.row_height) - ABOVE - BELOW)
            goes_on = grid.grouped and after is not None and after[0] == row[0]
            style.append(("LINEBELOW", (int(goes_on), len(lines) - 1), (-1, len(lines) - 1), 0.5, ink.RULE))
        repeated = 1 if titles else 0
        table = RuledTable(lines, colWidths=widths, style=style, hAlign="LEFT", repeatRows=repeated)
        table.keep_rows_together(self.width, self.height)
        return [table]

    def _numbers_apart(self, grid: Grid) -> Style:
        """More room behind a column of numbers before one of words, whose edges would nearly meet."""
        return [
            ("RIGHTPADDING", (n, 0), (n, -1), self._behind(grid, n)) for n in grid.numbers if _ends(grid, n)
        ]

    def _behind(self, grid: Grid, column: int) -> float:
        """Points behind the words of a column."""
        return self._apart(grid) * (2 if _ends(grid, column) else 1)

    def _title(self, text: str) -> Table:
        """The first column's title, above all rows of a table set as lists."""
        style = [*cells(above=ABOVE, below=BELOW), ("LINEBELOW", (0, 0), (-1, -1), *TITLE_RULE)]
        title = Table(
            [[self.setter.beside(text, TITLES)]], colWidths=[self.width], style=style, hAlign="LEFT"
        )
        title.keepWithNext = 1
        return title

    def to_the_end(self, grid: Grid) -> Flowable:
        """Empty rows, under titles where no other rows have them above."""
        titles = [] if grid.rows else [self.setter.paragraph(title, TITLES) for title in grid.titles]
        widths = self._widths(grid) or [self.width * share / sum(grid.shares) for share in grid.shares]
        return _ToTheEnd(titles, widths, self.setter.line(grid.row_height or WRITING_LINE))

    def notes(self, heading: Flowable, titles: Sequence[str], shares: Sequence[float]) -> RoomToWrite:
        """Empty rows under a heading, where there is room for some."""
        widths = [self.width * share / sum(shares) for share in shares]
        set_titles = [self.setter.paragraph(title, TITLES) for title in titles]
        return RoomToWrite(
            heading, _ToTheEnd(set_titles, widths, self.setter.line(WRITING_LINE), LEAST_NOTES)
        )

    def _parts(self, row: Sequence[str], widths: Sequence[float]) -> Iterator[tuple[str, ...]]:
        """The row, and below it rows for what is left of its longest cells, each under half a page high."""
        lines = self.height / 2 / self.setter.leading(SMALL)
        wide = self.setter.small
        longest = [min(LONGEST_CELL, max(40, int(width / (wide * 0.6) * lines))) for width in widths]
        yield from zip_longest(*map(pieces, row, longest), fillvalue="")

    def _cell(self, text: str, column: int, grid: Grid) -> Flowable:
        usual, number = (CLOSE, CLOSE_NUMBER) if grid.close else (SMALL, NUMBER)
        return self.setter.beside(text, number if column in grid.numbers else usual)

    def _apart(self, grid: Grid) -> float:
        """Points between the words of two columns."""
        return 10.0 if grid.parted else 0.85 * self.setter.small

    def _widths(self, grid: Grid) -> list[float] | None:
        """Each column as wide as its share, and at least as its longest word; `None` where that cannot be.

        Sheets to write into keep their columns, whatever happens to a word.
        """
        shares = sum(grid.shares)
        widths = [self.width * share / shares for share in grid.shares]
        size = self.setter.small
        rows = [grid.titles, *grid.rows] if grid.titles else list(grid.rows)
        needed, whole = [], []
        for n in range(len(widths)):
            behind = self._behind(grid, n) + 0.5
            # A word wider than half of the page is broken anyhow.
            widest = self._widest({word for row in rows for word in _BREAKS.split(row[n])}, size)
            needed.append(min(widest + behind, self.width / 2))
            whole.append(
                self._widest({row[n] for row in (grid.rows if n in grid.numbers else rows)}, size) + behind
            )
        if self.setter.large and not to_write_into(grid) and len(widths) > 1:
            most = 5.5 * size
            if sum(map(max, needed, (min(one, most) for one in whole))) > self.width:
                return None
            # Short cells, such as days, stay on one line.
            pairs = zip(needed, whole, strict=True)
            needed = [max(need, one) if one <= most else need for need, one in pairs]
        return _shared(widths, needed)

    def _widest(self, texts: Iterable[str], size: float) -> float:
        """How wide the widest of them runs in points."""
        return max((fonts.width_of(self.setter.plain(text), size) for text in texts), default=0.0)

    def _stacked(self, grid: Grid, row: Sequence[str]) -> Table:
        """A row as a list: its first cell above, the others by name."""
        lines: list[Flowable] = []
        for n, cell in enumerate(row):
            if not cell:
                continue
            title = grid.titles[n] if grid.titles and n else ""
            text = gettext("{title}: {value}").format(title=title, value=cell) if title else cell
            style = STRONG if not n else SMALL
            lines += [self.setter.beside(piece, style) for piece in pieces(text)]
        style = cells(above=1, below=1)
        style += [
            ("TOPPADDING", (0, 0), (-1, 0), 6),
            ("BOTTOMPADDING", (0, -1), (-1, -1), 6),
            ("LINEBELOW", (0, -1), (-1, -1), 0.5, ink.RULE),
            ("NOSPLIT", (0, 0), (0, self._together(lines) - 1)),
        ]
        return Table([[line] for line in lines], colWidths=[self.width], style=style, hAlign="LEFT")

    def _together(self, lines: Sequence[Flowable]) -> int:
        """How many lines of a row set as a list stay on one page: all of a short one, else the first few."""
        ends: list[float] = list(accumulate(line.wrap(self.width, self.height)[1] for line in lines))
        if len(lines) <= WHOLE_ROW and ends[-1] <= self.height / 2:
            return len(lines)
        return max(1, sum(end <= self.height / 3 for end in ends[:3]))


class _ToTheEnd(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """Empty rows as far as the page reaches, on the next one where only a few would fit."""

    def __init__(
        self, titles: Sequence[Flowable], widths: Sequence[float], line: float, least: int = LEAST_LINES
    ) -> None:
        super().__init__()
        self.titles, self.widths, self.line, self.least = list(titles), list(widths), line, least
        self._table: Table | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        padding = 2 * 3.0
        pairs = zip(self.titles, self.widths, strict=False)
        head = max((title.wrap(column - padding, height)[1] for title, column in pairs), default=-5.0) + 5
        count = int((height - head - 1) // self.line)
        if count < self.least:
            return width, height + 1
        empty = [""] * len(self.widths)
        rules: Style = [("LINEBELOW", (0, 0), (-1, -1), 0.5, ink.RULE)]
        if self.titles:
            rules.append(("LINEBELOW", (0, 0), (-1, 0), *TITLE_RULE))
        self._table = Table(
            [*([self.titles] if self.titles else []), *[empty] * count],
            colWidths=self.widths,
            rowHeights=[*([head] if self.titles else []), *[self.line] * count],
            style=[
                *cells(left=3, right=3, below=3),
                ("VALIGN", (0, 0), (-1, -1), "BOTTOM"),
                ("INNERGRID", (0, 0), (-1, -1), 0.5, ink.RULE),
                *rules,
            ],
        )
        return cast("tuple[float, float]", self._table.wrap(width, height))

    def draw(self) -> None:
        if self._table is not None:
            self._table.drawOn(self.canv, 0, 0)


class RoomToWrite(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """Headed rows in what is left of a page above the last lines of its sheet, `below` points high.

    Where few rows fit they are left out; where those last lines do not fit either, both stand on the next
    page.
    """

    def __init__(self, heading: Flowable, rows: _ToTheEnd) -> None:
        super().__init__()
        self.heading, self.rows, self.below = heading, rows, 0.0
        self._shown = False
        self._headed = 0.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        above = self.heading.getSpaceBefore()
        self._headed = above + self.heading.wrap(width, height)[1] + self.heading.getSpaceAfter()
        left = height - self.below - self._headed - APART
        needed = self.rows.wrap(width, left)[1]
        self._shown = needed <= left
        if self._shown:
            self.height = self._headed + needed + APART
        else:
            self.height = 0.0 if self.below <= height else height + 1
        return width, self.height

    def draw(self) -> None:
        if not self._shown:
            return
        self.heading.drawOn(self.canv, 0, self.height - self._headed + self.heading.getSpaceAfter())
        self.rows.drawOn(self.canv, 0, APART)


def _ends(grid: Grid, column: int) -> bool:
    """Whether a column of numbers ends at one of words."""
    return column in grid.numbers and column + 1 < len(grid.shares) and column + 1 not in grid.numbers


def to_write_into(grid: Grid) -> bool:
    """Whether it has room for a pen."""
    return grid.parted or grid.row_height is not None


def _shared(widths: Sequence[float], needed: Sequence[float]) -> list[float]:
    """Columns that lack room take it from those that have some to spare, a third of their width at most."""
    lacking = sum(max(0.0, need - width) for width, need in zip(widths, needed, strict=True))
    spare = [max(0.0, width - max(need, width * 0.67)) for width, need in zip(widths, needed, strict=True)]
    if not lacking or not sum(spare):
        return list(widths)
    taken = min(1.0, sum(spare) / lacking), min(1.0, lacking / sum(spare))
    return [
        width + taken[0] * max(0.0, need - width) - taken[1] * free
        for width, need, free in zip(widths, needed, spare, strict=True)
    ]


def cells(*, left: float = 0, right: float = 0, above: float = 0, below: float = 0) -> Style:
    """Room about the text of every cell; the font is for empty ones, lest one be named and not embedded."""
    return [
        ("FONTNAME", (0, 0), (-1, -1), fonts.BODY),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), left),
        ("RIGHTPADDING", (0, 0), (-1, -1), right),
        ("TOPPADDING", (0, 0), (-1, -1), above),
        ("BOTTOMPADDING", (0, 0), (-1, -1), below),
    ]


def ruled(*, parted: bool, apart: float, close: bool = False) -> Style:
    """Of a table whose lines are ruled one by one, with so many points between the words of two columns."""
    above, below = (CLOSE_ABOVE, CLOSE_BELOW) if close else (ABOVE, BELOW)
    if not parted:
        return cells(right=apart, above=above, below=below)
    style = cells(left=apart / 2, right=apart / 2, above=above, below=below)
    return [*style, ("INNERGRID", (0, 0), (-1, -1), 0.5, ink.RULE)]


def pieces(text: str, longest: int = LONGEST_CELL) -> list[str]:
    """The text in pieces of at most `longest` characters, broken after a sentence or between words.

    >>> pieces("Turn the water off. Empty the pipes.", 24)
    ['Turn the water off.', 'Empty the pipes.']
    """
    found = []
    while len(text) > longest:
        ends = [text.rfind(end, longest // 2, longest) + 1 for end in ("\n", ". ", " ")]
        cut = next((end for end in ends if end), longest)
        found.append(text[:cut].rstrip())
        text = text[cut:].lstrip()
    return [*found, text]
