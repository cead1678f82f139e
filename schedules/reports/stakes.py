"""Labels for the stakes of plots: a number to read from afar and a code to scan, nobody's name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO

from django.utils.translation import gettext
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from schedules.reports import fonts, ink, sheet
from schedules.reports.label_sheets import Labels, placed
from schedules.reports.qr_paper import draw_qr

CHECK_MM = 50
INSET = 3.0 * mm  # what a printer may be out by, and room for a knife
QR_LARGEST = 58 * mm
NUMBER_LARGEST, NUMBER_SMALLEST, SMALL, SMALLEST = 150.0, 5.0, 11.0, 5.5
_WIDE = 1.35  # from this ratio of sides on the code stands beside the number, else below it


@dataclass(frozen=True, slots=True)
class Stake:
    """A plot's label, and the address that its code opens."""

    label: str
    address: str


@dataclass(frozen=True, slots=True)
class StakePrint:
    """What is printed: `first` is the first unused label of the first sheet, counted from 1.

    With `backs` each page is followed by its other side; with `outlines` the labels' edges are drawn, to try
    it on plain paper.
    """

    garden: str
    language: str
    labels: Labels
    stakes: Sequence[Stake]
    first: int = 1
    backs: bool = False
    outlines: bool = False


@dataclass(frozen=True, slots=True)
class _Box:
    """A part of a label in points, from its lower left corner."""

    x: float
    y: float
    width: float
    height: float


def stakes_pdf(made: StakePrint) -> bytes:
    """The sheets, one after another; cut lines and places are the same on all of them."""
    fonts.register()
    labels = made.labels
    width, height = sheet.PAPERS[labels.paper]
    out = BytesIO()
    canvas = Canvas(
        out, pagesize=(width, height), lang=made.language, initialFontName=fonts.BODY, invariant=1
    )
    canvas.setTitle(gettext("Stakes"))
    canvas.setAuthor(made.garden)
    canvas.setCreator("Trugbook")
    for page in placed(len(made.stakes), labels, first=made.first):
        for back in (False, True) if made.backs else (False,):
            for number, place in page:
                left, top = labels.corner(place, back=back)
                box = _Box(
                    left * mm, height - (top + labels.height) * mm, labels.width * mm, labels.height * mm
                )
                _draw_label(canvas, box, made.stakes[number], made.garden)
            if labels.cut:
                draw_cuts(canvas, labels, width, height)
            elif made.outlines:
                _draw_outlines(canvas, labels, height)
            _draw_check(canvas, labels, width)
            canvas.showPage()
    canvas.save()
    return out.getvalue()


def _draw_label(canvas: Canvas, box: _Box, stake: Stake, garden: str) -> None:
    inner = _Box(box.x + INSET, box.y + INSET, box.width - 2 * INSET, box.height - 2 * INSET)
    beside = inner.width / inner.height >= _WIDE
    if beside:
        side = min(inner.height, inner.width * 0.45, QR_LARGEST)
        code = _Box(inner.x, inner.y + (inner.height - side) / 2, side, side)
        words = _Box(inner.x + side + INSET, inner.y, inner.width - side - INSET, inner.height)
    else:
        side = min(inner.height * 0.5, inner.width, QR_LARGEST)
        small = 2 * SMALL * 1.5
        code = _Box(inner.x + (inner.width - side) / 2, inner.y + small, side, side)
        words = inner
    draw_qr(canvas, stake.address, code.x, code.y, side)
    setter = sheet.Setter()
    foot = _draw_foot(canvas, words, setter.plain(garden), setter.plain(_bare(stake.address)))
    floor = words.y + foot if beside else code.y + side
    number = _Box(words.x, floor, words.width, words.y + words.height - floor)
    _draw_number(canvas, number, setter.plain(stake.label))


def _bare(address: str) -> str:
    """As people type it."""
    return address.partition("://")[2].rstrip("/") or address


def _draw_foot(canvas: Canvas, box: _Box, garden: str, address: str) -> float:
    """The garden's name and the address, small; the height in points that they take."""
    size = max(SMALLEST, min(SMALL, box.height / 11))
    canvas.setFillColor(ink.INK)
    y = box.y + size * 0.3
    for text in (address, garden):
        fitting = min(size, size * box.width / max(1.0, fonts.width_of(text, size)))
        if text == address and fitting < SMALLEST:  # cut off, it would lead nowhere
            continue
        fitting = max(SMALLEST, fitting)
        shown = fonts.shortened(text, fitting, box.width + 0.1)
        fonts.draw(canvas, box.x + box.width / 2, y, shown, fitting, anchor="middle")
        y += size * 1.3
    return y - box.y


def _draw_number(canvas: Canvas, box: _Box, label: str) -> None:
    """As large as it fits, on as many lines as make it largest."""
    size, lines = largest(label, box.width, box.height)
    canvas.setFillColor(ink.INK)
    y = box.y + (box.height + len(lines) * size) / 2 - size * 0.84
    for line in lines:
        fonts.draw(canvas, box.x + box.width / 2, y, line, size, fonts.BOLD, anchor="middle")
        y -= size


def largest(label: str, width: float, height: float) -> tuple[float, list[str]]:
    """The largest size in points at which `label` fits into the box, and its lines.

    Lines stand their size apart, which is enough for figures and capitals; a word is parted only where it
    would otherwise be set smaller than can be read.
    """
    low, high = NUMBER_SMALLEST, NUMBER_LARGEST
    found = (low, fonts.wrapped(label, low, width, max(1, int(height // low)), fonts.BOLD))
    while high - low > 0.5:
        size = (low + high) / 2
        lines = fonts.wrapped(label, size, width, max(1, int(height // size)), fonts.BOLD)
        if size <= height and " ".join(lines) == " ".join(label.split()):
            low, found = size, (size, lines)
        else:
            high = size
    return found


def draw_cuts(canvas: Canvas, labels: Labels, width: float, height: float) -> None:
    """Lines from edge to edge of the paper, so that a stack of sheets can be cut at once."""
    canvas.setStrokeColor(ink.QUIET)
    canvas.setLineWidth(0.3)
    canvas.setDash(3, 3)
    for column in range(labels.columns + 1):
        x = (labels.left + column * labels.width) * mm
        canvas.line(x, 0, x, height)
    for row in range(labels.rows + 1):
        y = height - (labels.top + row * labels.height) * mm
        canvas.line(0, y, width, y)
    canvas.setDash()


def _draw_outlines(canvas: Canvas, labels: Labels, height: float) -> None:
    canvas.setStrokeColor(ink.QUIET)
    canvas.setLineWidth(0.3)
    for place in range(labels.count):
        left, top = labels.corner(place)
        canvas.rect(left * mm, height - (top + labels.height) * mm, labels.width * mm, labels.height * mm)


def _draw_check(canvas: Canvas, labels: Labels, width: float) -> None:
    """A line of known length in the margin below: paper printed at another scale fits no label."""
    y = min(8.0, labels.top * 0.6) * mm
    left = (width - CHECK_MM * mm) / 2
    canvas.setStrokeColor(ink.INK)
    canvas.setLineWidth(0.6)
    canvas.line(left, y, left + CHECK_MM * mm, y)
    for x in (left, left + CHECK_MM * mm):
        canvas.line(x, y - 2, x, y + 2)
    words = gettext("This line is {length} mm long. If not, print at 100 %.").format(length=CHECK_MM)
    canvas.setFillColor(ink.QUIET)
    fonts.draw(canvas, width / 2, y - 8.5, fonts.legible(words), 6.5, anchor="middle")
