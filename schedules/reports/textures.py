"""What soil, compost, straw, grass and cardboard look like in a drawing, and numbers that point at things.

A sheet is the same whenever it is printed, for the marks do not lie by chance; no colour tells anything.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sin, sqrt

from reportlab.graphics.shapes import Path, Shape

from schedules.reports import ink
from schedules.reports.ruler import TEXT

Box = tuple[float, float, float, float]  # left, bottom, right, top
TAG = 11.0


def soil(box: Box) -> list[Shape]:
    """Loose dots, few of them."""
    return [_strokes([[(x, y), (x + 1.6, y)] for x, y in _spread(box, 150)], 1.4)]


def compost(box: Box) -> list[Shape]:
    """Many dots, dark."""
    return [_strokes([[(x, y), (x + 1.8, y + 0.6)] for x, y in _spread(box, 34)], 2.2)]


def straw(box: Box) -> list[Shape]:
    """Short strokes lying this way and that."""
    pieces = []
    for n, (x, y) in enumerate(_spread((box[0], box[1], box[2] - 14, box[3] - 4), 60)):
        rise = (-3.5, 1.0, 4.0)[n % 3]
        pieces.append([(x, y), (x + 14, min(max(y + rise, box[1] + 1), box[3] - 1))])
    return [_strokes(pieces, 0.9)]


def grass(left: float, right: float, ground: float, height: float = 12.0) -> list[Shape]:
    """Blades that stand on the ground."""
    count = max(2, round((right - left) / 9))
    pieces = []
    for n in range(count):
        x = left + (n + 0.5) * (right - left) / count
        lean = (-3.0, 1.5, 3.5)[n % 3]
        pieces.append([(x, ground), (x + lean, ground + height * (0.7, 1.0, 0.85)[n % 3])])
    return [_strokes(pieces, 1.0)]


def hatched(box: Box, pitch: float = 9.0) -> list[Shape]:
    """Slanting lines: what is hard."""
    left, bottom, right, top = box
    height = top - bottom
    pieces = []
    x = left - height
    while x < right:
        start = (max(x, left), bottom + max(0.0, left - x))
        end = (min(x + height, right), top - max(0.0, x + height - right))
        if end[0] > start[0]:
            pieces.append([start, end])
        x += pitch
    return [_strokes(pieces, 0.7)]


def tag(x: float, y: float, number: int) -> list[Shape]:
    """A number in a ring, which the words beside the drawing explain."""
    return [
        ink.dot(x, y, TAG, ink.PAPER, ink.INK),
        ink.words(x, y - TEXT * 0.35, str(number), TEXT, anchor="middle"),
    ]


def pointed(tag_at: tuple[float, float], thing: tuple[float, float], number: int) -> list[Shape]:
    """A number, with a line from it to what it means."""
    return [ink.line(tag_at, thing, ink.QUIET, 0.8), *tag(*tag_at, number)]


def _strokes(pieces: list[list[tuple[float, float]]], width: float) -> Path:
    return ink.strokes(pieces, width=width)


def _spread(box: Box, each: float) -> Iterator[tuple[float, float]]:
    """Points over a box, one to about so many square units, each somewhere in a cell of its own."""
    left, bottom, right, top = box
    side = sqrt(each)
    columns, rows = max(1, round((right - left) / side)), max(1, round((top - bottom) / side))
    wide, high = max(right - left, 0.0) / columns, max(top - bottom, 0.0) / rows
    for n in range(columns * rows):
        row, column = divmod(n, columns)
        yield left + (column + _anywhere(n)) * wide, bottom + (row + _anywhere(n + 0.5)) * high


def _anywhere(n: float) -> float:
    """A number between 0.1 and 0.9 that follows no pattern to the eye, always the same for an `n`."""
    return 0.1 + 0.8 * (sin(n * 12.9898 + 1) * 43758.5453 % 1)
