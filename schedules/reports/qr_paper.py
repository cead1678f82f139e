"""A QR code on paper, as one path."""

from __future__ import annotations

from reportlab.graphics.shapes import Drawing, Path

from plots.qr import QUIET_ZONE, dark_runs
from schedules.reports import ink


def qr_drawing(text: str, size: float) -> Drawing:
    """The code with its quiet zone, `size` points on a side."""
    side, runs = dark_runs(text)
    module = size / (side + 2 * QUIET_ZONE)
    path = Path(fillColor=ink.INK, strokeColor=None, strokeWidth=0)
    for row, column, length in runs:
        left, top = (column + QUIET_ZONE) * module, size - (row + QUIET_ZONE) * module
        right, bottom = left + length * module, top - module
        path.moveTo(left, top)
        for corner in ((right, top), (right, bottom), (left, bottom)):
            path.lineTo(*corner)
        path.closePath()
    drawing = Drawing(size, size)
    drawing.add(path)
    return drawing
