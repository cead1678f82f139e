"""Sets a document: as a PDF on its paper, and its tables as CSV.

Every kind of block of `document.py` is set by one function here, for sheets of usual and of large letters.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from io import BytesIO
from itertools import zip_longest
from typing import cast

from django.utils.translation import gettext, override
from reportlab.graphics.shapes import Drawing, Group, String
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.platypus import (
    CondPageBreak,
    Flowable,
    HRFlowable,
    Image,
    KeepTogether,
    PageBreak,
    Spacer,
    Table,
)

from plots.csv_out import BOM, csv_text
from schedules.reports import document as blocks
from schedules.reports import fonts, ink, sheet
from schedules.reports.document import ROOM, WRITING_LINE, Document
from schedules.reports.qr_paper import qr_drawing

# A longer cell goes on in a row of its own below, so that it can be broken over a page.
LONGEST_CELL = 450
ABOVE, BELOW = 2.5, 4.0  # points of a cell about its text
DRAWN = 9.5  # points: the least lettering of drawings, whatever they were drawn with
HIGHEST_PICTURE = 0.45  # of a page
CODE = 30 * mm
MORE_ROOM = 1.4  # times as much under a heading of a large sheet
LEAST_LINES = 5  # to write on, or they stand on the next page
CARD_COLUMNS = 2
CARD_CODE = 96.0  # points: 34 mm, read from a hand's breadth away
CARD_HEIGHT = 150.0  # four rows on Letter, title and all
LONG_NAME = 30  # characters that the larger letters hold in two lines

SMALL = ParagraphStyle("small", sheet.BODY, fontSize=sheet.SMALL, leading=13)
NUMBER = ParagraphStyle("number", SMALL, alignment=2)
TITLES = ParagraphStyle("titles", SMALL, textColor=ink.QUIET)
NUMBER_TITLES = ParagraphStyle("number titles", TITLES, alignment=2)
STRONG = ParagraphStyle("strong", SMALL, fontName=fonts.BOLD)
QUIET = ParagraphStyle("quiet", SMALL, textColor=ink.QUIET, spaceAfter=4)
PARAGRAPH = ParagraphStyle("paragraph", sheet.BODY, spaceAfter=8)
POINT = ParagraphStyle(
    "point",
    sheet.BODY,
    leftIndent=18,
    spaceAfter=3,
    bulletFontName=fonts.BODY,
    bulletFontSize=sheet.BODY.fontSize,
)
LOUD = ParagraphStyle("loud", sheet.BODY, fontSize=24, leading=34, spaceAfter=16)
CARD_NAME = ParagraphStyle("card name", sheet.BODY, fontName=fonts.BOLD, fontSize=13, leading=16)
LONG_CARD_NAME = ParagraphStyle("long card name", CARD_NAME, fontSize=10.5, leading=13)
ADDRESS = ParagraphStyle("address", SMALL, wordWrap="CJK", textColor=ink.QUIET)
WARNED = ParagraphStyle("warned", sheet.BODY, fontName=fonts.BOLD)

_FROM_THE_RIGHT = frozenset({"ar", "fa", "he", "ur", "yi"})

_BREAKS = re.compile(r"[\s-]+")

Style = list[tuple[object, ...]]


def to_pdf(document: Document) -> bytes:
    """The document on its paper: title, language and an outline of its sheets in the file."""
    with override(document.head.language):
        return Setting(document).pdf()


class Setting:
    """The blocks of one document as flowables, and what setting them needs to know."""

    def __init__(self, document: Document) -> None:
        fonts.register()
        self.document, self.head = document, document.head
        self.large = document.head.large
        self.across = document.across or (self.large and any(map(_wants_width, document.blocks)))
        self.setter = sheet.Setter(large=self.large)
        head = self.head
        size = sheet.LARGE if self.large else sheet.SMALL
        self.foot = sheet.Foot(head.garden, head.title, head.note, head.printed_on, size)
        self.width, self.height = sheet.room_on(head.paper, across=self.across, foot=self.foot)
        self.from_right = head.language.split("-")[0] in _FROM_THE_RIGHT
        self._story: list[Flowable] = []

    def pdf(self) -> bytes:
        for block in self.document.blocks:
            self._set(block)
        story = list(self._story)
        if self.setter.missing:
            story += [Spacer(0, 10), self.setter.paragraph(bracketed(), sheet.REASON)]
        head = self.head
        return sheet.to_pdf(
            story, paper=head.paper, language=head.language, foot=self.foot, across=self.across
        )

    def _set(self, block: blocks.Block) -> None:
        match block:
            case blocks.Title(text, subtitle, code):
                self._title(text, subtitle, code)
            case blocks.Heading(text, room):
                wanted = (room or ROOM) * (MORE_ROOM if self.large else 1)
                self._story += [
                    CondPageBreak(min(wanted, self.height)),
                    self.setter.paragraph(text, sheet.HEADING),
                ]
            case blocks.Text(text):
                self._story += self._paragraphs(text, PARAGRAPH)
            case blocks.Loud(text):
                self._story += self._paragraphs(text, LOUD)
            case blocks.Quiet(text):
                self._story += self._paragraphs(text, QUIET)
            case blocks.Points(items, numbered):
                self._points(items, numbered=numbered)
            case blocks.Caution(text):
                self._caution(text)
            case blocks.Facts():
                self._table(block.grid)
            case blocks.Grid():
                if block.rows:
                    self._table(block)
                if block.to_the_end:
                    self._story.append(self._to_the_end(block))
            case blocks.Lines(count):
                self._lines(count)
            case blocks.Signature(labels):
                self._signature(labels)
            case blocks.Chart():
                self._chart(block)
            case blocks.Key(entries, columns):
                self._key(entries, columns)
            case blocks.Cards(cards):
                self._cards(cards)
            case blocks.Picture(jpeg, _alt, caption):
                self._picture(jpeg, caption)
            case blocks.Sources(items):
                self._sources(items)
            case blocks.Gap(points):
                self._story.append(Spacer(0, points))
            case blocks.Break():
                self._story.append(PageBreak())

    def _leading(self, style: ParagraphStyle) -> float:
        return float((sheet.enlarged(style) if self.large else style).leading)

    def _paragraphs(self, text: str, style: ParagraphStyle) -> list[Flowable]:
        return [self.setter.paragraph(part, style) for part in text.splitlines() if part.strip()]

    def _beside(self, text: str, style: ParagraphStyle) -> Flowable:
        """Text in a column, whose edge it keeps: a Hebrew name among others stands at the left too."""
        return self.setter.paragraph(text, style, moves=self.from_right)

    def _title(self, text: str, subtitle: str, code: str) -> None:
        if self._story and not isinstance(self._story[-1], PageBreak):
            self._story.append(PageBreak())
        self._story.append(sheet.Beginning(text))
        words = [self.setter.paragraph(text, sheet.TITLE)]
        if subtitle:
            words.append(self.setter.paragraph(subtitle, sheet.LEDE, moves=fonts.from_the_right(text)))
        if code:
            style = [*_cells(), ("VALIGN", (0, 0), (-1, -1), "MIDDLE")]
            columns = [self.width - CODE, CODE]
            self._story.append(Table([[words, qr_drawing(code, CODE)]], colWidths=columns, style=style))
        else:
            self._story += words

    def _points(self, items: Sequence[str], *, numbered: bool) -> None:
        for n, item in enumerate(items, start=1):
            self._story.append(self.setter.point(f"{n}." if numbered else "•", item, POINT))
        self._story.append(Spacer(0, 5))

    def _caution(self, text: str) -> None:
        """A heavy rule all the way down beside it, and a bold word above: told apart without any colour."""
        words = [piece for line in text.splitlines() if line.strip() for piece in pieces(line)]
        lines = [[self.setter.paragraph(gettext("Caution"), WARNED)]]
        lines += [[self.setter.paragraph(piece)] for piece in words]
        style = _cells(left=12, above=1, below=1)
        style += [("LINEBEFORE", (0, 0), (0, -1), 4, ink.INK, "butt"), ("NOSPLIT", (0, 0), (0, 1))]
        table = Table(lines, colWidths=[self.width], style=style, hAlign="LEFT", spaceBefore=6)
        self._story += [table, Spacer(0, 10)]

    # --- Tables ---

    def _table(self, grid: blocks.Grid) -> None:
        widths = self._widths(grid)
        if widths is None:
            self._stacked(grid)
            return
        titles = [
            self.setter.paragraph(title, NUMBER_TITLES if n in grid.numbers else TITLES)
            for n, title in enumerate(grid.titles)
        ]
        lines: list[list[Flowable]] = [titles] if titles else []
        style = _ruled(parted=grid.parted)
        if titles:
            style.append(("LINEBELOW", (0, 0), (-1, 0), 0.8, ink.INK))
        for row in grid.rows:
            first = len(lines)
            parts = self._parts(row, widths)
            lines += [[self._cell(cell, n, grid) for n, cell in enumerate(part)] for part in parts]
            for at in range(first + 1, len(lines)):  # what goes on stands close to what it follows
                style += [("BOTTOMPADDING", (0, at - 1), (-1, at - 1), 0)]
                style += [("TOPPADDING", (0, at), (-1, at), 0)]
            if grid.row_height and not row[-1]:
                lines[-1][-1] = Spacer(0, self._row_height(grid.row_height) - ABOVE - BELOW)
            style.append(("LINEBELOW", (0, len(lines) - 1), (-1, len(lines) - 1), 0.5, ink.RULE))
        repeated = 1 if titles else 0
        table = Table(lines, colWidths=widths, style=style, hAlign="LEFT", repeatRows=repeated)
        self._keep_to_heading(table, repeated + 1)
        self._story += [table, Spacer(0, 10)]

    def _to_the_end(self, grid: blocks.Grid) -> Flowable:
        """Empty rows, under titles where no other rows have them above."""
        titles = [] if grid.rows else [self.setter.paragraph(title, TITLES) for title in grid.titles]
        widths = self._widths(grid) or [self.width * share / sum(grid.shares) for share in grid.shares]
        return _ToTheEnd(titles, widths, self._row_height(grid.row_height or WRITING_LINE))

    def _parts(self, row: Sequence[str], widths: Sequence[float]) -> Iterator[tuple[str, ...]]:
        """The row, and below it rows for what is left of its longest cells, each under half a page high."""
        lines = self.height / 2 / self._leading(SMALL)
        wide = sheet.LARGE if self.large else sheet.SMALL
        longest = [min(LONGEST_CELL, max(40, int(width / (wide * 0.6) * lines))) for width in widths]
        yield from zip_longest(*map(pieces, row, longest), fillvalue="")

    def _row_height(self, points: float) -> float:
        return max(points, 1.6 * sheet.LARGE) if self.large else points

    def _cell(self, text: str, column: int, grid: blocks.Grid) -> Flowable:
        style = NUMBER if column in grid.numbers else SMALL
        return self._beside(text, style)

    def _widths(self, grid: blocks.Grid) -> list[float] | None:
        """Each column as wide as its share, and at least as its longest word; `None` where that cannot be.

        Sheets to write into keep their columns, whatever happens to a word.
        """
        whole = sum(grid.shares)
        widths = [self.width * share / whole for share in grid.shares]
        padding = 10.0 if grid.parted else 8.0
        size = sheet.LARGE if self.large else sheet.SMALL
        rows = [grid.titles, *grid.rows] if grid.titles else list(grid.rows)
        needed = []
        for n in range(len(widths)):
            words = sorted({word for row in rows for word in _BREAKS.split(row[n])}, key=len)[-4:]
            # A word wider than half of the page is broken anyhow.
            widest = max((fonts.width_of(self.setter.plain(word), size) for word in words), default=0.0)
            needed.append(min(widest + padding + 0.5, self.width / 2))
        if self.large and not _to_write_into(grid) and len(widths) > 1:
            comfortable = sum(max(need, 5.5 * size) for need in needed)
            if comfortable > self.width:
                return None
        return _shared(widths, needed)

    def _stacked(self, grid: blocks.Grid) -> None:
        """A table too wide for its letters: each row as a list, its first cell above, the others named."""
        for row in grid.rows:
            lines: list[Flowable] = []
            for n, cell in enumerate(row):
                if not cell:
                    continue
                title = grid.titles[n] if grid.titles and n else ""
                text = gettext("{title}: {value}").format(title=title, value=cell) if title else cell
                style = STRONG if not n else SMALL
                lines += [self._beside(piece, style) for piece in pieces(text)]
            style = _cells(above=1, below=1)
            style += [
                ("TOPPADDING", (0, 0), (-1, 0), 6),
                ("BOTTOMPADDING", (0, -1), (-1, -1), 6),
                ("LINEBELOW", (0, -1), (-1, -1), 0.5, ink.RULE),
                ("NOSPLIT", (0, 0), (0, min(2, max(0, len(lines) - 1)))),
            ]
            if lines:
                table = Table([[line] for line in lines], colWidths=[self.width], style=style, hAlign="LEFT")
                self._keep_to_heading(table, 2)
                self._story.append(table)
        self._story.append(Spacer(0, 10))

    def _keep_to_heading(self, table: Table, lines: int) -> None:
        """Moves a heading to the next page if the table's first lines do not fit below it."""
        if len(self._story) < 2 or not isinstance(self._story[-2], CondPageBreak):
            return
        begins = Table(table._cellvalues[:lines], colWidths=table._argW, style=_ruled(parted=False))
        heading = 2 * self._leading(sheet.HEADING) + sheet.HEADING.spaceBefore
        needed = begins.wrap(self.width, self.height)[1] + heading
        self._story[-2].height = min(max(self._story[-2].height, needed), self.height)

    # --- Room for a pen ---

    def _lines(self, count: int) -> None:
        for _line in range(count):
            self._story.append(
                HRFlowable(
                    width="100%",
                    thickness=0.6,
                    color=ink.RULE,
                    spaceBefore=self._row_height(WRITING_LINE),
                    spaceAfter=0,
                )
            )

    def _signature(self, labels: Sequence[str]) -> None:
        """The lines stay on one page with their words."""
        share = self.width / len(labels)
        line = Table(
            [[""] * len(labels), [self._beside(label, TITLES) for label in labels]],
            colWidths=[share] * len(labels),
            rowHeights=[32, None],
            style=[
                *_cells(right=14, above=3),
                *[("LINEABOVE", (n, 1), (n, 1), 0.8, ink.INK) for n in range(len(labels))],
            ],
            hAlign="LEFT",
        )
        self._story.append(KeepTogether(line))

    # --- Drawings and pictures ---

    def _chart(self, chart: blocks.Chart) -> None:
        """Drawn in units of its own and scaled, so that its least letters can be read."""
        drawing = chart.draw(self.width)
        if chart.to_scale:
            self._story += [drawing, Spacer(0, 8)]
            return
        least = min(_sizes(drawing), default=0.0)
        wanted = sheet.LARGE if self.large else DRAWN
        scale = wanted / least if least else 1.0
        if self.large or scale < 1:
            drawing = chart.draw(self.width / scale)
        else:
            scale = 1.0
        scale = min(scale, self.width / drawing.width, self.height / drawing.height)
        drawing.renderScale = scale
        self._story += [drawing, Spacer(0, 8)]

    def _key(self, entries: Sequence[tuple[Drawing, str]], columns: int) -> None:
        if self.large:
            columns = max(1, columns - 1)
        scale = sheet.LARGE / sheet.BODY.fontSize if self.large else 1.0
        cells: list[Flowable | str] = []
        for drawing, word in entries:
            drawing.renderScale = scale
            cells += [drawing, self._beside(word, sheet.REASON)]
        cells += [""] * (-len(cells) % (2 * columns))
        lines = [cells[n : n + 2 * columns] for n in range(0, len(cells), 2 * columns)]
        mark = max(drawing.width for drawing, _word in entries) * scale + 8
        style = [*_cells(right=6, above=1, below=1), ("VALIGN", (0, 0), (-1, -1), "MIDDLE")]
        widths = [mark, self.width / columns - mark] * columns
        self._story += [Table(lines, colWidths=widths, style=style, hAlign="LEFT"), Spacer(0, 6)]

    def _cards(self, cards: Sequence[blocks.Card]) -> None:
        """All alike, unless a long name or address needs more room."""
        columns = 1 if self.large else CARD_COLUMNS
        width = self.width / columns
        cells = [self._card(card, width - 24) for card in cards]
        rows = [cells[n : n + columns] for n in range(0, len(cells), columns)]
        heights = [max(CARD_HEIGHT, *(cell.wrap(0, 0)[1] + 12 for cell in row)) for row in rows]
        rows[-1] = [*rows[-1], *[""] * (columns - len(rows[-1]))]
        style = [
            *_cells(left=12, right=12, above=6, below=6),
            ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
            ("GRID", (0, 0), (-1, -1), 0.5, ink.RULE),
        ]
        table = Table(rows, colWidths=[width] * columns, rowHeights=heights, style=style, hAlign="LEFT")
        self._story.append(table)

    def _card(self, card: blocks.Card, width: float) -> Table:
        name = CARD_NAME if len(card.name) <= LONG_NAME else LONG_CARD_NAME
        words = [self._beside(card.name, name)]
        for line in card.lines:
            words += [Spacer(0, 4), self._beside(line, SMALL)]
        if not card.code:
            return Table([[words]], colWidths=[width], style=_cells())
        style = [*_cells(), ("RIGHTPADDING", (0, 0), (0, 0), 8), ("SPAN", (0, 1), (-1, 1))]
        rows = [[words, qr_drawing(card.code, CARD_CODE)], [self.setter.paragraph(card.code, ADDRESS), ""]]
        return Table(rows, colWidths=[width - CARD_CODE, CARD_CODE], style=style)

    def _picture(self, jpeg: bytes, caption: str) -> None:
        width, height = ImageReader(BytesIO(jpeg)).getSize()
        scale = min(self.width / width, HIGHEST_PICTURE * self.height / height, 1.0)
        image = Image(BytesIO(jpeg), width * scale, height * scale, hAlign="LEFT")
        words = self._paragraphs(caption, QUIET)
        self._story.append(KeepTogether([image, Spacer(0, 3), *words, Spacer(0, 8)]))

    def _sources(self, items: Sequence[str]) -> None:
        self._story.append(Spacer(0, 4))
        self._story += self._paragraphs(gettext("Sources"), STRONG)
        for item in items:
            self._story += self._paragraphs(item, sheet.REASON)


class _ToTheEnd(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """Empty rows as far as the page reaches, on the next one where only a few would fit."""

    def __init__(self, titles: Sequence[Flowable], widths: Sequence[float], line: float) -> None:
        super().__init__()
        self.titles, self.widths, self.line = list(titles), list(widths), line
        self._table: Table | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        padding = 2 * 3.0
        pairs = zip(self.titles, self.widths, strict=False)
        head = max((title.wrap(column - padding, height)[1] for title, column in pairs), default=-5.0) + 5
        count = int((height - head - 1) // self.line)
        if count < LEAST_LINES:
            return width, height + 1
        empty = [""] * len(self.widths)
        rules: Style = [("LINEBELOW", (0, 0), (-1, -1), 0.5, ink.RULE)]
        if self.titles:
            rules.append(("LINEBELOW", (0, 0), (-1, 0), 0.8, ink.INK))
        self._table = Table(
            [*([self.titles] if self.titles else []), *[empty] * count],
            colWidths=self.widths,
            rowHeights=[*([head] if self.titles else []), *[self.line] * count],
            style=[
                *_cells(left=3, right=3, below=3),
                ("VALIGN", (0, 0), (-1, -1), "BOTTOM"),
                ("INNERGRID", (0, 0), (-1, -1), 0.5, ink.RULE),
                *rules,
            ],
        )
        return cast("tuple[float, float]", self._table.wrap(width, height))

    def draw(self) -> None:
        if self._table is not None:
            self._table.drawOn(self.canv, 0, 0)


def _to_write_into(grid: blocks.Grid) -> bool:
    return grid.parted or grid.row_height is not None


def _wants_width(block: blocks.Block) -> bool:
    """Whether large letters need the paper laid on its side: many columns to write into."""
    return isinstance(block, blocks.Grid) and _to_write_into(block) and len(block.shares) > 4


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


def _sizes(group: Drawing | Group) -> Iterator[float]:
    """The sizes of all lettering in a drawing."""
    for shape in group.contents:
        if isinstance(shape, Group):
            scale = abs(shape.transform[0]) + abs(shape.transform[1])
            yield from (size * scale for size in _sizes(shape))
        elif isinstance(shape, String):
            yield shape.fontSize


def _cells(*, left: float = 0, right: float = 0, above: float = 0, below: float = 0) -> Style:
    """Room about the text of every cell; the font is for empty ones, lest one be named and not embedded."""
    return [
        ("FONTNAME", (0, 0), (-1, -1), fonts.BODY),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), left),
        ("RIGHTPADDING", (0, 0), (-1, -1), right),
        ("TOPPADDING", (0, 0), (-1, -1), above),
        ("BOTTOMPADDING", (0, 0), (-1, -1), below),
    ]


def _ruled(*, parted: bool) -> Style:
    style = _cells(left=5 if parted else 0, right=5 if parted else 8, above=ABOVE, below=BELOW)
    return [*style, ("INNERGRID", (0, 0), (-1, -1), 0.5, ink.RULE)] if parted else style


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


def bracketed() -> str:
    return gettext(
        "Words in square brackets stand for letters this sheet cannot print; the page on screen shows them."
    )


def to_csv(document: Document) -> str:
    """The document's tables for a spreadsheet, each under its name where there are several."""
    tables = document.tables
    texts = []
    for name, grid in tables:
        text = csv_text(grid.titles, grid.rows).removeprefix(BOM)
        if not grid.titles:
            text = text.partition("\r\n")[2]
        if len(tables) > 1 and name:
            text = csv_text([name], []).removeprefix(BOM) + text
        texts.append(text)
    return BOM + "\r\n".join(texts)
