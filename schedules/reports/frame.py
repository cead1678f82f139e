"""The frame of the year's sheets: a head, then headings, text, ruled tables and lines to write on.

A sheet is a function of plain rows in a module of its own here: it makes a `Page`, adds to it from above,
and returns `page.pdf()`. Foot, page numbers, paper and the note on letters that cannot be printed come by
themselves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import zip_longest

from django.utils.translation import gettext
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import CondPageBreak, Flowable, HRFlowable, KeepTogether, PageBreak, Spacer, Table

from schedules.reports import fonts, ink, sheet

WRITING_LINE = 26.0  # points between lines to write on by hand
# A longer cell goes on in a row of its own below, so that it can be broken over a page.
LONGEST_CELL = 450
ROOM = 110.0  # points on its page for a heading and the beginning of what it heads
ABOVE, BELOW = 2.5, 4.0  # points of a cell about its text

SMALL = ParagraphStyle("small", sheet.BODY, fontSize=sheet.SMALL, leading=13)
TITLES = ParagraphStyle("titles", SMALL, textColor=ink.QUIET)
QUIET = ParagraphStyle("quiet", SMALL, textColor=ink.QUIET, spaceAfter=4)
PARAGRAPH = ParagraphStyle("paragraph", sheet.BODY, spaceAfter=8)


@dataclass(frozen=True, slots=True)
class Head:
    """Whose sheet it is: `paper` is "letter" or "a4", `language` a tag; `note` stands small at every foot."""

    garden: str
    title: str
    paper: str
    language: str
    printed_on: date
    subtitle: str = ""
    note: str = ""


class Page:
    """A sheet in the making; everything added flows over as many pages as it needs."""

    def __init__(self, head: Head, *, across: bool = False, titled: bool = True) -> None:
        fonts.register()
        self.head, self.across = head, across
        self.setter = sheet.Setter()
        self.width, self.height = sheet.room_on(head.paper, across=across)
        self._story: list[Flowable] = []
        if titled:
            self.next_sheet(head.title, head.subtitle)

    def next_sheet(self, title: str, subtitle: str = "") -> None:
        """A page that begins with a title: of an untitled `Page` the first too, then one for each person."""
        if self._story:
            self.new_page()
        self.add(self.setter.paragraph(title, sheet.TITLE))
        if subtitle:
            self.add(self.setter.paragraph(subtitle, sheet.LEDE))

    def heading(self, text: str, *, room: float = ROOM) -> None:
        """A heading, with `room` points on its page for it and the beginning of what it heads."""
        self._story += [CondPageBreak(room), self.setter.paragraph(text, sheet.HEADING)]

    def _keep_to_heading(self, table: Table, lines: int) -> None:
        """Moves a heading to the next page if the table's first lines do not fit below it."""
        if len(self._story) < 2 or not isinstance(self._story[-2], CondPageBreak):
            return
        begins = Table(table._cellvalues[:lines], colWidths=table._argW, style=_style(grid=False))
        heading = 2 * sheet.HEADING.leading + sheet.HEADING.spaceBefore
        needed = begins.wrap(self.width, self.height)[1] + heading
        self._story[-2].height = min(max(self._story[-2].height, needed), self.height)

    def text(self, text: str) -> None:
        """Text as people wrote it, paragraph by paragraph."""
        for part in text.splitlines():
            if part.strip():
                self._story.append(self.setter.paragraph(part, PARAGRAPH))

    def quiet(self, text: str) -> None:
        self._story.append(self.setter.paragraph(text, QUIET))

    def facts(self, pairs: Iterable[tuple[str, str]], *, label_share: float = 0.3) -> None:
        """Words on the left, what they are on the right; pairs without a right side are left out."""
        rows = [(label, value) for label, value in pairs if value]
        if rows:
            self.table(rows, shares=(label_share, 1 - label_share))

    def table(
        self,
        rows: Sequence[Sequence[str]],
        *,
        titles: Sequence[str] = (),
        shares: Sequence[float],
        row_height: float | None = None,
        grid: bool = False,
    ) -> None:
        """A ruled table over the page's width, parted by `shares`; its titles come again on each page.

        With `row_height` (points) no row is lower, for writing into; with `grid`, cells are parted.
        """
        lines: list[list[Flowable]] = [[self._cell(title, TITLES) for title in titles]] if titles else []
        style = _style(grid=grid)
        if titles:
            style.append(("LINEBELOW", (0, 0), (-1, 0), 0.8, ink.INK))
        for row in rows:
            first = len(lines)
            lines += [[self._cell(cell) for cell in part] for part in _parts(row)]
            for at in range(first + 1, len(lines)):  # what goes on stands close to what it follows
                style += [("BOTTOMPADDING", (0, at - 1), (-1, at - 1), 0)]
                style += [("TOPPADDING", (0, at), (-1, at), 0)]
            if row_height:
                lines[-1][-1] = Spacer(0, row_height - ABOVE - BELOW)
            style.append(("LINEBELOW", (0, len(lines) - 1), (-1, len(lines) - 1), 0.5, ink.RULE))
        if not lines:
            return
        whole = sum(shares)
        widths = [self.width * share / whole for share in shares]
        repeated = 1 if titles else 0
        table = Table(lines, colWidths=widths, style=style, hAlign="LEFT", repeatRows=repeated)
        self._keep_to_heading(table, repeated + 1)
        self._story += [table, Spacer(0, 10)]

    def writing_lines(self, count: int) -> None:
        """Empty lines to write on."""
        for _line in range(count):
            self._story.append(
                HRFlowable(
                    width="100%", thickness=0.6, color=ink.RULE, spaceBefore=WRITING_LINE, spaceAfter=0
                )
            )

    def signature(self, *labels: str) -> None:
        """Lines to sign on, side by side, each over its words; they stay on one page."""
        share = self.width / len(labels)
        line = Table(
            [[""] * len(labels), [self._cell(label, TITLES) for label in labels]],
            colWidths=[share] * len(labels),
            rowHeights=[32, None],
            style=[
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 14),
                *[("LINEABOVE", (n, 1), (n, 1), 0.8, ink.INK) for n in range(len(labels))],
            ],
            hAlign="LEFT",
        )
        self._story.append(KeepTogether(line))

    def gap(self, points: float = 10) -> None:
        self._story.append(Spacer(0, points))

    def new_page(self) -> None:
        self._story.append(PageBreak())

    def add(self, flowable: Flowable) -> None:
        """A drawing, or whatever a sheet makes for itself."""
        self._story.append(flowable)

    def pdf(self) -> bytes:
        """The finished sheet."""
        story = list(self._story)
        if self.setter.missing:
            story += [Spacer(0, 10), self.setter.paragraph(_bracketed(), sheet.REASON)]
        foot = sheet.Foot(self.head.garden, self.head.title, self.head.note, self.head.printed_on)
        return sheet.to_pdf(
            story, paper=self.head.paper, language=self.head.language, foot=foot, across=self.across
        )

    def _cell(self, text: str, style: ParagraphStyle = SMALL) -> Flowable:
        return self.setter.paragraph(text, style)


def _style(*, grid: bool) -> list[tuple[object, ...]]:
    style: list[tuple[object, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 5 if grid else 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 5 if grid else 8),
        ("TOPPADDING", (0, 0), (-1, -1), ABOVE),
        ("BOTTOMPADDING", (0, 0), (-1, -1), BELOW),
    ]
    return [*style, ("INNERGRID", (0, 0), (-1, -1), 0.5, ink.RULE)] if grid else style


def _parts(row: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """The row, and below it rows for what is left of its longest cells."""
    yield from zip_longest(*(pieces(cell) for cell in row), fillvalue="")


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


def _bracketed() -> str:
    return gettext(
        "Words in square brackets stand for letters this sheet cannot print; the page on screen shows them."
    )
