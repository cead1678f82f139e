"""What every printed sheet shares: paper, margins, type, and a foot that says whose it is and whence."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from io import BytesIO
from typing import Any, cast

from django.utils.formats import date_format
from django.utils.translation import gettext
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate, Paragraph

from schedules.reports import fonts, ink

PAPERS: dict[str, tuple[float, float]] = {"letter": LETTER, "a4": A4}
SIDE, TOP, FOOT = 18 * mm, 16 * mm, 27 * mm
SMALL = 9.5
LARGE = 18.0  # points: no letter of a large sheet is smaller
_LOWEST = 8.0 * mm  # the foot's last line: what most printers can still reach

BODY = ParagraphStyle(
    "body", fontName=fonts.BODY, fontSize=11, leading=15.5, textColor=ink.INK, embeddedHyphenation=1
)
REASON = ParagraphStyle("reason", BODY, fontSize=SMALL, leading=13, textColor=ink.QUIET, spaceAfter=3)
TITLE = ParagraphStyle("title", BODY, fontName=fonts.LIGHT, fontSize=27, leading=31, spaceAfter=2)
LEDE = ParagraphStyle("lede", BODY, spaceAfter=12)
HEADING = ParagraphStyle(
    "heading",
    BODY,
    fontName=fonts.LIGHT,
    fontSize=17,
    leading=21,
    spaceBefore=16,
    spaceAfter=6,
)
_LARGE_TITLE, _LARGE_HEADING = 34.0, 25.0


_FROM_THE_RIGHT = frozenset({"ar", "fa", "he", "ur", "yi"})


def is_from_the_right(language: str) -> bool:
    """Whether the language of this tag is read from the right."""
    return language.split("-")[0] in _FROM_THE_RIGHT


@cache
def enlarged(style: ParagraphStyle) -> ParagraphStyle:
    """The style for a large sheet: 18 points and more, titles and headings above their text still."""
    size = max(LARGE, style.fontSize)
    if style.fontSize >= TITLE.fontSize:
        size = max(_LARGE_TITLE, size)
    elif style.fontSize >= HEADING.fontSize:
        size = max(_LARGE_HEADING, size)
    return ParagraphStyle(
        f"large {style.name}",
        style,
        fontSize=size,
        bulletFontSize=size,
        leading=round(size * 1.3, 1),
        leftIndent=style.leftIndent * size / style.fontSize,
    )


def _wrapping(text: str, style: ParagraphStyle) -> ParagraphStyle:
    """Text without spaces between its words, as in Chinese and Japanese, is broken by rules of its own."""
    return style if fonts.is_plain(text) or not _UNSPACED.search(text) else _unspaced(style)


_UNSPACED = re.compile(r"[\u3041-\u30ff\u3400-\u9fff\uf900-\ufaff、。，]{12,}")


@cache
def _unspaced(style: ParagraphStyle) -> ParagraphStyle:
    return ParagraphStyle(f"unspaced {style.name}", style, wordWrap="CJK")


_SHORT, _NARROWER = 0.5, (0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9)


@cache
def _indented(style: ParagraphStyle, right: float) -> ParagraphStyle:
    return ParagraphStyle(f"{style.name} narrower by {right:g}", style, rightIndent=right)


@dataclass
class Setter:
    """Turns people's words into paragraphs, and remembers the characters that no typeface has."""

    missing: set[str] = field(default_factory=set)
    large: bool = False
    from_right: bool = False  # the language of the sheet

    @property
    def small(self) -> float:
        """Points of the least letters."""
        return LARGE if self.large else SMALL

    def leading(self, style: ParagraphStyle) -> float:
        """Points from line to line."""
        return float((enlarged(style) if self.large else style).leading)

    def line(self, points: float) -> float:
        """How high a line to write on is, where `points` are enough for usual letters."""
        return max(points, 1.6 * LARGE) if self.large else points

    def plain(self, text: str) -> str:
        """Text for a cell or a canvas, which know no markup."""
        return fonts.legible(text, self.missing)

    def paragraph(self, text: str, style: ParagraphStyle = BODY, *, moves: bool = True) -> Flowable:
        """Text that wraps; nothing in it is taken for markup."""
        style = enlarged(style) if self.large else style
        if fonts.has_two_directions(text):
            return TwoWay(fonts.legible(text, self.missing), style, moves=moves)
        return Paragraph(fonts.markup(text, self.missing), _wrapping(text, style))

    def title(self, text: str, style: ParagraphStyle, width: float) -> Flowable:
        """A title in lines as even as they can be, where its last would be short."""
        style = enlarged(style) if self.large else style
        shown = self.plain(text)
        lines = fonts.broken(shown, style.fontSize, width, style.fontName)
        if len(lines) > 1 and fonts.width_of(lines[-1], style.fontSize, style.fontName) < width * _SHORT:
            for share in _NARROWER:
                if len(fonts.broken(shown, style.fontSize, width * share, style.fontName)) == len(lines):
                    style = _indented(style, round(width * (1 - share), 1))
                    break
        return self.paragraph(text, style)

    def beside(self, text: str, style: ParagraphStyle) -> Flowable:
        """Text in a column, whose edge it keeps: a Hebrew name among others stands at the left too."""
        return self.paragraph(text, style, moves=self.from_right)

    def point(self, sign: str, text: str, style: ParagraphStyle) -> Flowable:
        """An item of a list, beside its sign."""
        style = enlarged(style) if self.large else style
        if fonts.has_two_directions(text):
            return TwoWay(fonts.legible(f"{sign} {text}", self.missing), style)
        return Paragraph(fonts.markup(text, self.missing), _wrapping(text, style), bulletText=sign)


class TwoWay(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """A paragraph, wholly or in part of a script read from the right.

    One that begins with such a letter stands at the right, unless it is said not to move, as in a column.

    Lines are broken in the order of reading, then each is turned for itself, as UAX 9 has it.
    """

    def __init__(self, text: str, style: ParagraphStyle, *, moves: bool = True) -> None:
        super().__init__()
        self.text, self.style, self.moves = text, style, moves
        self.from_right = fonts.from_the_right(text)
        self._set: Paragraph | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        style = self.style
        room = width - style.leftIndent - style.rightIndent - 0.1
        lines = fonts.broken(self.text, style.fontSize, room, style.fontName)
        if self.from_right and self.moves:
            style = ParagraphStyle(f"{style.name} from the right", style, alignment=2)
        marked = "<br/>".join(fonts.marked(line, self.from_right) for line in lines)
        self._set = Paragraph(marked, style)
        return cast("tuple[float, float]", self._set.wrap(width, height))

    def split(self, width: float, height: float) -> list[Flowable]:
        self.wrap(width, height)
        return list(self._set.split(width, height)) if self._set is not None else []

    def draw(self) -> None:
        if self._set is not None:
            self._set.canv = self.canv
            self._set.draw()


@dataclass(frozen=True, slots=True)
class Foot:
    """What stands at the foot of every page, in letters of `size` points.

    It is read as the sheet's language is, whatever letters the garden's name begins with.
    """

    garden: str
    title: str
    record: str
    printed_on: date
    size: float = SMALL
    from_right: bool = False

    def height(self, width: float) -> float:
        """Points from the paper's edge to where text may stand, on a page `width` points wide."""
        return float(max(FOOT, self._rule(width) + 6 * mm))

    def draw(self, canvas: Canvas, width: float, number: int, count: int) -> None:
        """The foot of page `number` of `count`."""
        room = width - 2 * SIDE
        rule = self._rule(width)
        canvas.setStrokeColor(ink.INK)
        canvas.setLineWidth(ink.HAIR)
        canvas.line(SIDE, rule, width - SIDE, rule)
        canvas.setFillColor(ink.QUIET)
        page = gettext("page {number} of {count}").format(number=number, count=count)
        printed = gettext("printed {date}").format(date=date_format(self.printed_on, "DATE_FORMAT"))
        y = rule - self.size - 1.4
        if self.size == SMALL:
            right = f"{printed}  ·  {page}"
            beside = room - fonts.width_of(right, self.size) - 12
            left = fonts.shortened(fonts.legible(self._whose()), self.size, beside)
        else:
            left, right = printed, page
            for line in self._named(room):
                fonts.draw(canvas, SIDE, y, line, self.size, from_right=self.from_right)
                y -= self.size + 2.5
        fonts.draw(canvas, SIDE, y, left, self.size, from_right=self.from_right)
        fonts.draw(canvas, width - SIDE, y, right, self.size, anchor="end")
        for line in fonts.broken(fonts.legible(self.record), self.size, room) if self.record else ():
            y -= self.size + 2.5
            fonts.draw(canvas, SIDE, y, line, self.size, from_right=self.from_right)

    def _whose(self) -> str:
        return f"{self.garden}  ·  {self.title}"

    def _named(self, room: float) -> list[str]:
        """Whose sheet it is, in large letters, which have no room for it beside the date."""
        return [] if self.size == SMALL else fonts.broken(fonts.legible(self._whose()), self.size, room)

    def _rule(self, width: float) -> float:
        """How high the line above the foot stands."""
        room = width - 2 * SIDE
        told = len(fonts.broken(fonts.legible(self.record), self.size, room)) if self.record else 0
        lines = 1 + len(self._named(room)) + told
        return float(max(21 * mm, _LOWEST + lines * (self.size + 2.5)))


class _CountedCanvas(Canvas):  # type: ignore[misc]
    """Keeps its pages until the last, so that each foot can say how many there are."""

    foot: Foot

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._kept: list[dict[str, Any]] = []
        self._begun: list[tuple[int, str]] = []

    def begin_sheet(self, title: str) -> None:
        """Names the page being drawn in the outline."""
        self._begun.append((len(self._kept), title))

    def showPage(self) -> None:  # noqa: N802  reportlab's name
        self._kept.append(dict(self.__dict__))
        self._startPage()

    def save(self) -> None:
        begun, kept = self._begun, self._kept
        for index, page in enumerate(kept):
            self.__dict__.update(page)
            for n, (where, title) in enumerate(begun):
                if where == index:
                    self.bookmarkPage(f"sheet{n}")
                    self.addOutlineEntry(title, f"sheet{n}")
            self.foot.draw(self, self._pagesize[0], index + 1, len(kept))
            super().showPage()
        super().save()


class Beginning(Flowable):  # type: ignore[misc]
    """Takes no room; the page that it comes to lie on is named in the file's outline."""

    def __init__(self, title: str) -> None:
        super().__init__()
        self.title = " ".join(title.split())

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        return 0.0, 0.0

    def draw(self) -> None:
        self.canv.begin_sheet(self.title)


def room_on(paper: str, *, across: bool = False, foot: Foot | None = None) -> tuple[float, float]:
    """Width and height in points between the margins of a page, upright or laid across."""
    width, height = _page(paper, across)
    return width - 2 * SIDE, height - TOP - (foot.height(width) if foot else FOOT)


def _page(paper: str, across: bool) -> tuple[float, float]:
    width, height = PAPERS[paper]
    return (height, width) if across else (width, height)


def to_pdf(
    story: Sequence[Flowable], *, paper: str, language: str, foot: Foot, across: bool = False
) -> bytes:
    """The story set on as many pages as it needs, with title, author and language in the file."""
    fonts.register()
    width, height = room_on(paper, across=across, foot=foot)
    canvas = type("SheetCanvas", (_CountedCanvas,), {"foot": foot})
    out = BytesIO()
    pagesize = _page(paper, across)
    document = BaseDocTemplate(
        out,
        pagesize=pagesize,
        title=foot.title,
        author=foot.garden,
        subject=foot.record,
        creator="Trugbook",
        lang=language,
        displayDocTitle=1,
        initialFontName=fonts.BODY,
        invariant=1,
    )
    bottom = foot.height(pagesize[0])
    frame = Frame(SIDE, bottom, width, height, leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0)
    document.addPageTemplates(PageTemplate("sheet", [frame]))
    document.build(list(story), canvasmaker=canvas)
    return out.getvalue()
