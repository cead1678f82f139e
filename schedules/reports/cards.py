"""Cards that bring members in without email: a name, a code to scan, and the same address to type."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Spacer, Table

from schedules.reports import fonts, ink, sheet
from schedules.reports.frame import SMALL, Head, Page
from schedules.reports.qr_paper import qr_drawing

COLUMNS = 2
CODE = 96.0  # points: 34 mm, read from a hand's breadth away
CARD_HEIGHT = 150.0  # four rows on Letter, title and all

NAME = ParagraphStyle("name", sheet.BODY, fontName=fonts.BOLD, fontSize=13, leading=16)
SMALLER = ParagraphStyle("smaller name", NAME, fontSize=10.5, leading=13)
LONG_NAME = 30  # characters that the larger letters hold in two lines
ADDRESS = ParagraphStyle("address", SMALL, wordWrap="CJK", textColor=ink.QUIET)


@dataclass(frozen=True, slots=True)
class Card:
    """Whom it brings in, by which address, and until when."""

    name: str
    link: str
    until: date


def cards_pdf(head: Head, cards: Sequence[Card]) -> bytes:
    """Two cards side by side, to be cut apart at the lines and handed over in person."""
    page = Page(head)
    page.quiet(
        gettext("Each card lets one person in: hand it to nobody else, and destroy what is left over.")
    )
    if not cards:
        page.text(gettext("Everybody has signed in already: there is no card to print."))
        return page.pdf()
    width = page.width / COLUMNS
    cells: list[object] = [_card(card, head.garden, page, width - 24) for card in cards]
    cells += [""] * (-len(cells) % COLUMNS)
    rows = [cells[n : n + COLUMNS] for n in range(0, len(cells), COLUMNS)]
    style = [
        ("GRID", (0, 0), (-1, -1), 0.5, ink.RULE),
        ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
        ("LEFTPADDING", (0, 0), (-1, -1), 12),
        ("RIGHTPADDING", (0, 0), (-1, -1), 12),
        ("TOPPADDING", (0, 0), (-1, -1), 6),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 6),
    ]
    page.add(Table(rows, colWidths=[width] * COLUMNS, rowHeights=_heights(rows), style=style, hAlign="LEFT"))
    return page.pdf()


def _heights(rows: Sequence[Sequence[object]]) -> list[float]:
    """All cards alike, unless a long name or address needs more."""
    return [
        max(CARD_HEIGHT, *(cell.wrap(0, 0)[1] + 12 for cell in row if isinstance(cell, Table)))
        for row in rows
    ]


def _card(card: Card, garden: str, page: Page, width: float) -> Flowable:
    setter = page.setter
    words: list[Flowable] = [
        setter.paragraph(fonts.shortened(garden, sheet.SMALL, width - CODE - 8), SMALL),
        setter.paragraph(card.name, NAME if len(card.name) <= LONG_NAME else SMALLER),
        Spacer(0, 4),
        setter.paragraph(gettext("Scan the code, or type the address. Then press “Sign in”."), SMALL),
        Spacer(0, 4),
        setter.paragraph(
            gettext("Works once, until {day}.").format(day=date_format(card.until, "DATE_FORMAT")), SMALL
        ),
    ]
    style = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (0, 0), 8),
        ("SPAN", (0, 1), (-1, 1)),
    ]
    address = setter.paragraph(card.link, ADDRESS)
    rows = [[words, qr_drawing(card.link, CODE)], [address, ""]]
    return Table(rows, colWidths=[width - CODE, CODE], style=style)
