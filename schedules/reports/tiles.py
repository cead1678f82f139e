"""A drawing to scale that is larger than its paper, parted onto sheets to be put together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from reportlab.graphics import renderPDF
from reportlab.graphics.shapes import Drawing, Group, String
from reportlab.platypus import Flowable

from schedules.reports import ink

Span = tuple[float, float]


def tiles(drawing: Drawing, width: float, height: float) -> list[list[Flowable]]:
    """The parts of a drawing, none larger than the given points, in rows from the upper left.

    They are parted beside their lettering wherever that can be.
    """
    boxes = [shape.getBounds() for shape in drawing.contents if isinstance(shape, Group | String)]
    across = cuts([(left, right) for left, _bottom, right, _top in boxes], drawing.width, width)
    up = cuts([(bottom, top) for _left, bottom, _right, top in boxes], drawing.height, height)
    rows = list(pairwise(up))[::-1]
    return [[_Tile(drawing, left, right, *row) for left, right in pairwise(across)] for row in rows]


def cuts(kept: Sequence[Span], length: float, room: float) -> list[float]:
    """Where a length is parted into as few and as even pieces as fit into `room`, ends included.

    No span of `kept` is parted where that can be helped.

    >>> cuts([(45, 60)], 100, 70)
    [0.0, 45, 100]
    """
    left = max(1, int(-(-length // room)))
    found = [0.0]
    while left > 1:
        begun = found[-1]
        even = begun + (length - begun) / left
        lowest, highest = max(begun, length - (left - 1) * room), begun + room
        places = (even, *(end for span in kept for end in span if lowest <= end <= highest))
        free = [place for place in places if not any(low < place < high for low, high in kept)]
        found.append(min(free, key=lambda place: abs(place - even), default=even))
        left -= 1
    return [*found, length]


@dataclass
class _Tile(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """What lies between these edges of a drawing, with a line about it to cut along."""

    drawing: Drawing
    left: float
    right: float
    bottom: float
    top: float

    def __post_init__(self) -> None:
        super().__init__()
        self.width, self.height = self.right - self.left, self.top - self.bottom

    def draw(self) -> None:
        path = self.canv.beginPath()
        path.rect(0, 0, self.width, self.height)
        self.canv.saveState()
        self.canv.clipPath(path, stroke=0, fill=0)
        renderPDF.draw(self.drawing, self.canv, -self.left, -self.bottom)
        self.canv.restoreState()
        self.canv.setStrokeColor(ink.QUIET)
        self.canv.setLineWidth(ink.HAIR)
        self.canv.setDash(3, 4)
        self.canv.rect(0, 0, self.width, self.height)
