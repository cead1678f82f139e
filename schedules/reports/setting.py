"""Sets a document as a PDF on its paper.

Every kind of block of `document.py` is set by one function here, for sheets of usual and of large letters.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from itertools import groupby

from django.utils.translation import gettext, override
from reportlab.graphics.shapes import Drawing
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
    Paragraph,
    Spacer,
    Table,
)

from schedules.reports import document as blocks
from schedules.reports import fonts, ink, notice_type, sheet
from schedules.reports.document import ROOM, WRITING_LINE, Document
from schedules.reports.qr_paper import qr_drawing
from schedules.reports.ruled_table import TOGETHER
from schedules.reports.scaled import over_pages, scaled
from schedules.reports.tables import (
    SMALL,
    STRONG,
    TITLES,
    RoomToWrite,
    Tables,
    cells,
    pieces,
    ruled,
    to_write_into,
)
from schedules.reports.tiles import tiles

DRAWN = 9.5  # points: the least lettering of drawings, whatever they were drawn with
HIGHEST_PICTURE = 0.45  # of a page
PICTURES_BESIDE, BESIDE = 2, 12.0  # in a row, and points between them
ABOVE_SOURCES = 4.0  # points
WHOLE_CAUTION = 0.4  # of a page, up to which a caution is not parted
CODE = 30 * mm
MORE_ROOM = 1.4  # times as much under a heading of a large sheet
LEADS_IN = 3  # paragraphs, a heading among them, that stay with the table or drawing below
SIGNED_APART = 16.0  # points between two lines to sign on
CARD_COLUMNS = 2
CARD_CODE = 96.0  # points: 34 mm, read from a hand's breadth away
CARD_HEIGHT = 150.0  # four rows on Letter, title and all
LONG_NAME = 30  # characters that the larger letters hold in two lines

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
CARD_NAME = ParagraphStyle("card name", sheet.BODY, fontName=fonts.BOLD, fontSize=13, leading=16)
LONG_CARD_NAME = ParagraphStyle("long card name", CARD_NAME, fontSize=10.5, leading=13)
ADDRESS = ParagraphStyle("address", SMALL, wordWrap="CJK", textColor=ink.QUIET)
WARNED = ParagraphStyle("warned", sheet.BODY, fontName=fonts.BOLD)
Text = (Paragraph, sheet.TwoWay)
_NOTICE = (blocks.Title, blocks.Loud, blocks.Quiet)


def to_pdf(document: Document) -> bytes:
    """The document on its paper: title, language and an outline of its sheets in the file."""
    with override(document.head.language):
        return Setting(document).pdf()


class Setting:
    """The blocks of one document as flowables, and what setting them needs to know."""

    def __init__(self, document: Document, *, told: bool = False) -> None:
        """With `told`, the foot of every page says what its brackets stand for."""
        fonts.register()
        self.document, self.head, self.told = document, document.head, told
        self.large = document.head.large
        self.across = document.across or (self.large and any(map(_wants_width, document.blocks)))
        head = self.head
        from_right = sheet.is_from_the_right(head.language)
        self.setter = sheet.Setter(large=self.large, from_right=from_right)
        record = bracketed(head.note) if told else head.note
        self.foot = sheet.Foot(
            head.garden, head.title, record, head.printed_on, self.setter.small, from_right
        )
        self.width, self.height = sheet.room_on(head.paper, across=self.across, foot=self.foot)
        self.tables = Tables(self.setter, self.width, self.height)
        self._story: list[Flowable] = []
        self._loud = notice_type.SMALLEST

    def pdf(self) -> bytes:
        self._compose()
        if all(isinstance(block, _NOTICE) for block in self.document.blocks):
            self._grow()
        if self.setter.missing and not self.told:
            return Setting(self.document, told=True).pdf()
        self._drop_room_below()
        story, head = list(self._story), self.head
        return sheet.to_pdf(
            story, paper=head.paper, language=head.language, foot=self.foot, across=self.across
        )

    def _compose(self) -> None:
        self._story = []
        for _kind, alike in groupby(self.document.blocks, type):
            self._set_all(list(alike))

    def _grow(self) -> None:
        """A notice in the largest letters with which it stands on one page."""
        texts = (block.text for block in self.document.blocks if isinstance(block, _NOTICE))
        words = [word for text in texts for word in self.setter.plain(text).split()]
        for self._loud in notice_type.SIZES:
            self._compose()
            if notice_type.fits(self._story, words, self._loud, self.width, self.height):
                return

    def _set_all(self, alike: Sequence[blocks.Block]) -> None:
        """Blocks of one kind that follow each other; only pictures stand side by side."""
        pictures = [one for one in alike if isinstance(one, blocks.Picture)]
        for at in range(0, len(pictures), PICTURES_BESIDE):
            self._pictures(pictures[at : at + PICTURES_BESIDE], alone=len(pictures) == 1)
        for block in alike:
            self._set(block)

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
                self._story += self._paragraphs(text, notice_type.loud(self._loud))
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
                    self._story.append(self.tables.to_the_end(block))
            case blocks.Lines(count):
                self._lines(count)
            case blocks.Notes(text, titles, shares):
                heading = self.setter.paragraph(text, sheet.HEADING)
                self._story.append(self.tables.notes(heading, titles, shares))
            case blocks.Signature(labels):
                self._signature(labels)
            case blocks.Chart():
                self._chart(block)
            case blocks.Key(entries, columns):
                self._key(entries, columns)
            case blocks.Cards(cards):
                self._cards(cards)
            case blocks.Picture():
                pass  # `_set_all` has set it beside its neighbour
            case blocks.Sources(items):
                self._sources(items)
            case blocks.Gap(points):
                self._story.append(Spacer(0, points))
            case blocks.Break():
                self._end_page()

    def _end_page(self) -> None:
        self._drop_room_below()
        self._story.append(PageBreak())

    def _drop_room_below(self) -> None:
        """Room below the last of a page might go on on an empty one."""
        while self._story and isinstance(self._story[-1], Spacer):
            self._story.pop()

    def _paragraphs(self, text: str, style: ParagraphStyle) -> list[Flowable]:
        return [self.setter.paragraph(part, style) for part in text.splitlines() if part.strip()]

    def _title(self, text: str, subtitle: str, code: str) -> None:
        if self._story and not isinstance(self._story[-1], PageBreak):
            self._end_page()
        self._story.append(sheet.Beginning(text))
        words = [self.setter.title(text, notice_type.title(self._loud), self.width - (CODE if code else 0))]
        if subtitle:
            words.append(self.setter.paragraph(subtitle, sheet.LEDE, moves=fonts.from_the_right(text)))
        if code:
            style = [*cells(), ("VALIGN", (0, 0), (-1, -1), "MIDDLE")]
            columns = [self.width - CODE, CODE]
            self._story.append(Table([[words, qr_drawing(code, CODE)]], colWidths=columns, style=style))
        else:
            self._story += words

    def _points(self, items: Sequence[str], *, numbered: bool) -> None:
        marks = [f"{n}." if numbered else "•" for n in range(1, len(items) + 1)]
        set_ones = [self.setter.point(*pair, POINT) for pair in zip(marks, items, strict=True)]
        if len(set_ones) > 2:  # the last one does not stand on a page of its own
            set_ones[-2:] = [KeepTogether(set_ones[-2:])]
        self._story += [*set_ones, Spacer(0, 5)]

    def _caution(self, text: str) -> None:
        """A heavy rule all the way down beside it, and a bold word above: told apart without any colour."""
        words = [piece for line in text.splitlines() if line.strip() for piece in pieces(line)]
        lines = [[self.setter.paragraph(gettext("Caution"), WARNED)]]
        lines += [[self.setter.paragraph(piece)] for piece in words]
        style = cells(left=12, above=1, below=1)
        style += [("LINEBEFORE", (0, 0), (0, -1), 4, ink.INK, "butt"), ("NOSPLIT", (0, 0), (0, 1))]
        table = Table(lines, colWidths=[self.width], style=style, hAlign="LEFT", spaceBefore=6)
        if table.wrap(self.width, self.height)[1] <= WHOLE_CAUTION * self.height:
            self._story.append(CondPageBreak(table.wrap(self.width, self.height)[1] + 6))
        self._story += [table, Spacer(0, 10)]

    def _table(self, grid: blocks.Grid) -> None:
        made = self.tables.set(grid)
        self._keep_to_heading(sum(self._beginning(one) for one in made[:2]))
        self._story += [*made, Spacer(0, 10)]

    def _beginning(self, table: Table) -> float:
        """How high the lines are that a table begins with and never parts."""
        count = table.repeatRows + TOGETHER
        begins = Table(table._cellvalues[:count], colWidths=table._argW, style=ruled(parted=False, apart=0))
        return float(begins.wrap(self.width, self.height)[1])

    def _keep_to_heading(self, height: float) -> None:
        """Moves a heading to the next page if so much does not fit below it and what leads in."""
        at = len(self._story) - 1
        while at > 0 and len(self._story) - at <= LEADS_IN and isinstance(self._story[at], Text):
            if isinstance(self._story[at - 1], CondPageBreak):
                led = (one.wrap(self.width, self.height)[1] + one.getSpaceAfter() for one in self._story[at:])
                needed = height + sum(led) + self.setter.leading(sheet.HEADING) + sheet.HEADING.spaceBefore
                self._story[at - 1].height = min(max(self._story[at - 1].height, needed), self.height)
                return
            at -= 1

    # --- Room for a pen ---

    def _lines(self, count: int) -> None:
        for _line in range(count):
            self._story.append(
                HRFlowable(
                    width="100%",
                    thickness=0.6,
                    color=ink.RULE,
                    spaceBefore=self.setter.line(WRITING_LINE),
                    spaceAfter=0,
                )
            )

    def _signature(self, labels: Sequence[str]) -> None:
        """The lines stay on one page with their words."""
        share = (self.width - SIGNED_APART * (len(labels) - 1)) / len(labels)
        words: list[Flowable | str] = [""] * (2 * len(labels) - 1)
        words[::2] = [self.setter.beside(label, TITLES) for label in labels]
        line = Table(
            [[""] * len(words), words],
            colWidths=[SIGNED_APART if n % 2 else share for n in range(len(words))],
            rowHeights=[32, None],
            style=[
                *cells(above=3),
                *[("LINEABOVE", (n, 1), (n, 1), 0.8, ink.INK) for n in range(0, len(words), 2)],
            ],
            hAlign="LEFT",
        )
        self._story.append(KeepTogether(line))

    # --- Drawings and pictures ---

    def _chart(self, chart: blocks.Chart) -> None:
        if chart.to_scale:
            self._to_scale(chart.draw(self.width))
            return
        least = sheet.LARGE if self.large else DRAWN
        drawing = scaled(chart.draw, least, self.width, enlarged=self.large)
        height = drawing.height * drawing.renderScale
        self._keep_to_heading(height if height <= self.height else self.height / 2)
        heading = self.setter.leading(sheet.HEADING) + 2 * sheet.HEADING.spaceBefore
        self._story += [*over_pages(drawing, self.height - heading, self.height), Spacer(0, 8)]

    def _to_scale(self, drawing: Drawing) -> None:
        """As it is, and if it is larger than its page on pages of its own to be put together."""
        if drawing.width <= self.width and drawing.height <= self.height:
            self._story += [drawing, Spacer(0, 8)]
            return
        told = self.setter.leading(sheet.BODY) + PARAGRAPH.spaceAfter
        rows = tiles(drawing, self.width, self.height - told - 1)
        placed = [(at, n, part) for at, row in enumerate(rows, 1) for n, part in enumerate(row, 1)]
        for number, (at, n, part) in enumerate(placed, start=1):
            words = gettext("Part {number} of {count}: row {row}, number {place} from the left")
            told_of = words.format(number=number, count=len(placed), row=at, place=n)
            self._end_page()
            self._story += [self.setter.paragraph(told_of, PARAGRAPH), part]

    def _key(self, entries: Sequence[tuple[Drawing, str]], columns: int) -> None:
        if self.large:
            columns = max(1, columns - 1)
        scale = sheet.LARGE / sheet.BODY.fontSize if self.large else 1.0
        shown: list[Flowable | str] = []
        for drawing, word in entries:
            drawing.renderScale = scale
            shown += [drawing, self.setter.beside(word, sheet.REASON)]
        shown += [""] * (-len(shown) % (2 * columns))
        lines = [shown[n : n + 2 * columns] for n in range(0, len(shown), 2 * columns)]
        mark = max(drawing.width for drawing, _word in entries) * scale + 8
        style = [*cells(right=6, above=1, below=1), ("VALIGN", (0, 0), (-1, -1), "MIDDLE")]
        widths = [mark, self.width / columns - mark] * columns
        self._story += [Table(lines, colWidths=widths, style=style, hAlign="LEFT"), Spacer(0, 6)]

    def _cards(self, cards: Sequence[blocks.Card]) -> None:
        """All alike, unless a long name or address needs more room."""
        columns = 1 if self.large else CARD_COLUMNS
        width = self.width / columns
        set_ones = [self._card(card, width - 24) for card in cards]
        rows = [set_ones[n : n + columns] for n in range(0, len(set_ones), columns)]
        heights = [max(CARD_HEIGHT, *(cell.wrap(0, 0)[1] + 12 for cell in row)) for row in rows]
        rows[-1] = [*rows[-1], *[""] * (columns - len(rows[-1]))]
        style = [
            *cells(left=12, right=12, above=6, below=6),
            ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
            ("GRID", (0, 0), (-1, -1), 0.5, ink.RULE),
        ]
        table = Table(rows, colWidths=[width] * columns, rowHeights=heights, style=style, hAlign="LEFT")
        self._story.append(table)

    def _card(self, card: blocks.Card, width: float) -> Table:
        name = CARD_NAME if len(card.name) <= LONG_NAME else LONG_CARD_NAME
        words = [self.setter.beside(card.name, name)]
        for line in card.lines:
            words += [Spacer(0, 4), self.setter.beside(line, SMALL)]
        if not card.code:
            return Table([[words]], colWidths=[width], style=cells())
        style = [*cells(), ("RIGHTPADDING", (0, 0), (0, 0), 8), ("SPAN", (0, 1), (-1, 1))]
        rows = [[words, qr_drawing(card.code, CARD_CODE)], [self.setter.paragraph(card.code, ADDRESS), ""]]
        return Table(rows, colWidths=[width - CARD_CODE, CARD_CODE], style=style)

    def _pictures(self, beside: Sequence[blocks.Picture], *, alone: bool) -> None:
        """A row of pictures, or one across the page."""
        column = self.width if alone else self.width / PICTURES_BESIDE
        between = 0 if alone else BESIDE
        row = [self._picture(one, column - between) for one in beside]
        row += [[] for _place in range(0 if alone else PICTURES_BESIDE - len(row))]
        style = cells(right=between, below=8)
        self._story.append(Table([row], [column] * len(row), style=style, hAlign="LEFT"))

    def _picture(self, picture: blocks.Picture, room: float) -> list[Flowable]:
        width, height = ImageReader(BytesIO(picture.jpeg)).getSize()
        scale = min(room / width, HIGHEST_PICTURE * self.height / height, 1.0)
        image = Image(BytesIO(picture.jpeg), width * scale, height * scale, hAlign="LEFT")
        return [image, Spacer(0, 3), *self._paragraphs(picture.caption, QUIET)]

    def _sources(self, items: Sequence[str]) -> None:
        first, *others = [part for item in items for part in self._paragraphs(item, sheet.REASON)]
        headed = [*self._paragraphs(gettext("Sources"), STRONG), first]
        if self._story and isinstance(self._story[-1], RoomToWrite):
            heights = [
                part.wrap(self.width, self.height)[1] + part.getSpaceAfter() for part in headed + others
            ]
            self._story[-1].below = sum(heights) + ABOVE_SOURCES
        self._story += [Spacer(0, ABOVE_SOURCES), KeepTogether(headed), *others]


def _wants_width(block: blocks.Block) -> bool:
    """Whether large letters need the paper laid on its side: many columns to write into."""
    return isinstance(block, blocks.Grid) and to_write_into(block) and len(block.shares) > 4


def bracketed(record: str) -> str:
    """What the foot of a sheet says, `record` and all, that has words in brackets for letters."""
    told = gettext(
        "Words in square brackets stand for letters this sheet cannot print; the page on screen shows them."
    )
    ended = f"{record}." if record and record[-1] not in ".!?" else record
    return f"{ended} {told}".strip()
