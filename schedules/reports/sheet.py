"""What every printed sheet shares: paper, margins, type, and a foot that says whose it is and whence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from io import BytesIO
from typing import Any

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

BODY = ParagraphStyle("body", fontName=fonts.BODY, fontSize=11, leading=15.5, textColor=ink.INK)
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
LABEL = ParagraphStyle("label", BODY, fontName=fonts.BOLD)


@dataclass
class Setter:
    """Turns people's words into paragraphs, and remembers the characters that the typeface lacks."""

    missing: set[str] = field(default_factory=set)

    def plain(self, text: str) -> str:
        """Text for a cell or a canvas, which know no markup."""
        return fonts.legible(text, self.missing)

    def paragraph(self, text: str, style: ParagraphStyle = BODY) -> Paragraph:
        """Text that wraps; nothing in it is taken for markup."""
        return Paragraph(fonts.markup(text, self.missing), style)


@dataclass(frozen=True, slots=True)
class Foot:
    """What stands at the foot of every page."""

    garden: str
    title: str
    record: str
    printed_on: date


class _CountedCanvas(Canvas):  # type: ignore[misc]  # reportlab carries no types
    """Keeps its pages until the last, so that each foot can say how many there are."""

    foot: Foot

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._kept: list[dict[str, Any]] = []

    def showPage(self) -> None:  # noqa: N802  reportlab's name
        self._kept.append(dict(self.__dict__))
        self._startPage()

    def save(self) -> None:
        for number, page in enumerate(self._kept, start=1):
            self.__dict__.update(page)
            self._draw_foot(number, len(self._kept))
            super().showPage()
        super().save()

    def _draw_foot(self, number: int, count: int) -> None:
        width = self._pagesize[0]
        room = width - 2 * SIDE
        setter = Setter()
        page = gettext("page {number} of {count}").format(number=number, count=count)
        printed = gettext("printed {date}").format(date=date_format(self.foot.printed_on, "DATE_FORMAT"))
        right = f"{printed}  ·  {page}"
        left_room = room - fonts.width_of(right, SMALL) - 12
        left = setter.plain(f"{self.foot.garden}  ·  {self.foot.title}")
        self.setStrokeColor(ink.INK)
        self.setLineWidth(ink.HAIR)
        self.line(SIDE, 21 * mm, width - SIDE, 21 * mm)
        self.setFillColor(ink.QUIET)
        self.setFont(fonts.BODY, SMALL)
        self.drawString(SIDE, 17 * mm, fonts.shortened(left, SMALL, left_room))
        self.drawRightString(width - SIDE, 17 * mm, right)
        for n, line in enumerate(fonts.wrapped(setter.plain(self.foot.record), SMALL, room, 2)):
            self.drawString(SIDE, 12.6 * mm - n * 12, line)


def room_on(paper: str, *, across: bool = False) -> tuple[float, float]:
    """Width and height in points between the margins of a page, upright or laid across."""
    width, height = _page(paper, across)
    return width - 2 * SIDE, height - TOP - FOOT


def _page(paper: str, across: bool) -> tuple[float, float]:
    width, height = PAPERS[paper]
    return (height, width) if across else (width, height)


def to_pdf(
    story: Sequence[Flowable], *, paper: str, language: str, foot: Foot, across: bool = False
) -> bytes:
    """The story set on as many pages as it needs, with title, author and language in the file."""
    fonts.register()
    width, height = room_on(paper, across=across)
    canvas = type("SheetCanvas", (_CountedCanvas,), {"foot": foot})
    out = BytesIO()
    document = BaseDocTemplate(
        out,
        pagesize=_page(paper, across),
        title=foot.title,
        author=foot.garden,
        subject=foot.record,
        creator="Trugbook",
        lang=language,
        initialFontName=fonts.BODY,
        invariant=1,
    )
    frame = Frame(SIDE, FOOT, width, height, leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0)
    document.addPageTemplates(PageTemplate("sheet", [frame]))
    document.build(list(story), canvasmaker=canvas)
    return out.getvalue()
