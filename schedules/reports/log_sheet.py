"""Blank sheets to write logs on by hand, one for each plot, for people who log without a phone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer, Table

from schedules.reports import fonts, ink, sheet
from schedules.reports.frame import Head, Page
from schedules.reports.qr_paper import qr_drawing

CODE = 30 * mm
LEAST_LINES = 5
_SHARES = (11, 17, 25, 15, 14, 18)


@dataclass(frozen=True, slots=True)
class LogSheet:
    """A plot's sheet: what grows there in words, and the address that its code opens."""

    label: str
    address: str
    growing: Sequence[str]


@dataclass(frozen=True, slots=True)
class LogKey:
    """What may be written: kinds of work, and units by what they count."""

    works: Sequence[str]
    units: Sequence[tuple[str, Sequence[str]]]


@dataclass(frozen=True, slots=True)
class _Print:
    """Points: the size of the text, and of a line to write on."""

    text: float
    line: float

    @property
    def style(self) -> ParagraphStyle:
        return ParagraphStyle(
            "log sheet", sheet.BODY, fontSize=self.text, leading=self.text * 1.35, spaceAfter=3
        )


_USUAL, _LARGE = _Print(10, 24), _Print(15, 36)


def log_sheets_pdf(head: Head, sheets: Sequence[LogSheet], key: LogKey, *, large: bool = False) -> bytes:
    """A page for each plot, in the given order, ruled as far as it reaches."""
    page = Page(head, titled=False)
    size = _LARGE if large else _USUAL
    for number, one in enumerate(sheets):
        if number:
            page.new_page()
        above = [_title(page, one, head.garden), *_words(page, one, key, size), Spacer(0, 6)]
        for flowable in above:
            page.add(flowable)
        room = page.height - sum(_height(flowable, page) for flowable in above)
        if room < (LEAST_LINES + 2) * size.line:  # so much grows here that the lines want a page
            page.new_page()
            room = page.height
        page.add(_lines(page, room, size))
    return page.pdf()


def _title(page: Page, one: LogSheet, garden: str) -> Flowable:
    """The plot and its code; scanned, it opens the same on a phone."""
    width = page.width - CODE
    title = gettext("Plot {label}").format(label=one.label)
    words = [
        page.setter.paragraph(title, sheet.TITLE),
        page.setter.paragraph(fonts.shortened(garden, sheet.BODY.fontSize, width), sheet.BODY),
    ]
    style = [
        ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
        *[(f"{side}PADDING", (0, 0), (-1, -1), 0) for side in ("LEFT", "RIGHT", "TOP", "BOTTOM")],
    ]
    return Table([[words, qr_drawing(one.address, CODE)]], colWidths=[width, CODE], style=style)


def _words(page: Page, one: LogSheet, key: LogKey, size: _Print) -> list[Flowable]:
    comma = ", "
    growing = "; ".join(one.growing) or gettext("nothing planned")
    lines = [
        gettext("Growing here: {plantings}.").format(plantings=growing),
        gettext("What was done: {works}.").format(works=comma.join(key.works)),
        *(
            gettext("How much {what}: {units}.").format(what=what, units=comma.join(units))
            for what, units in key.units
        ),
    ]
    return [page.setter.paragraph(line, size.style) for line in lines]


def _lines(page: Page, room: float, size: _Print) -> Flowable:
    """As many empty lines as there is room for, in points, under their titles."""
    titles = (
        gettext("Day"), gettext("What was done"), gettext("On what"), gettext("How much"), gettext("Who"),
        gettext("Note"),
    )  # fmt: skip
    style = ParagraphStyle("log titles", size.style, textColor=ink.QUIET, spaceAfter=0)
    head = [page.setter.paragraph(title, style) for title in titles]
    widths = [page.width * share / sum(_SHARES) for share in _SHARES]
    title_height = max(cell.wrap(width - 6, room)[1] for cell, width in zip(head, widths, strict=True))
    count = int((room - title_height - 6) // size.line)
    return Table(
        [head, *([""] * len(titles) for _line in range(count))],
        colWidths=widths,
        rowHeights=[title_height + 5, *[size.line] * count],
        hAlign="LEFT",
        style=[
            ("VALIGN", (0, 0), (-1, -1), "BOTTOM"),
            *[(f"{side}PADDING", (0, 0), (-1, -1), 3) for side in ("LEFT", "RIGHT", "BOTTOM")],
            ("TOPPADDING", (0, 0), (-1, -1), 0),
            ("INNERGRID", (0, 0), (-1, -1), 0.5, ink.RULE),
            ("LINEBELOW", (0, 0), (-1, 0), 0.8, ink.INK),
            ("LINEBELOW", (0, 1), (-1, -1), 0.5, ink.RULE),
        ],
    )


def _height(flowable: Flowable, page: Page) -> float:
    return float(flowable.wrap(page.width, page.height)[1] + flowable.getSpaceAfter())
