"""A QR code on paper, as one path."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.graphics.shapes import Drawing, Path
from reportlab.pdfgen.canvas import Canvas

from plots.qr import QUIET_ZONE, dark_runs
from schedules.reports import ink


def qr_drawing(text: str, size: float) -> Drawing:
    """The code with its quiet zone, `size` points on a side."""
    whole, bars = _bars(text)
    module = size / whole
    path = Path(fillColor=ink.INK, strokeColor=None, strokeWidth=0)
    for column, row, length in bars:
        left, right, top, bottom = (n * module for n in (column, column + length, row + 1, row))
        path.moveTo(left, top)
        for corner in ((right, top), (right, bottom), (left, bottom)):
            path.lineTo(*corner)
        path.closePath()
    drawing = Drawing(size, size)
    drawing.add(path)
    return drawing


def draw_qr(canvas: Canvas, text: str, x: float, y: float, size: float) -> None:
    """The same straight onto a page, its lower left corner at (x, y): sheets full of them want it quick."""
    whole, bars = _bars(text)
    path = canvas.beginPath()
    for column, row, length in bars:
        path.rect(column, row, length, 1)
    canvas.saveState()
    canvas.translate(x, y)
    canvas.scale(size / whole, size / whole)
    canvas.setFillColor(ink.INK)
    canvas.drawPath(path, stroke=0, fill=1)
    canvas.restoreState()


def _bars(text: str) -> tuple[int, Iterator[tuple[int, int, int]]]:
    """The modules on a side with the quiet zone; the dark runs as first column, row from below, length."""
    side, runs = dark_runs(text)
    last = side + QUIET_ZONE - 1
    return side + 2 * QUIET_ZONE, ((column + QUIET_ZONE, last - row, n) for row, column, n in runs)
