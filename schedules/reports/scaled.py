"""Drawings set on paper as large as their letters have to be, over several pages where one is too low."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from reportlab.graphics import renderPDF
from reportlab.graphics.shapes import Drawing, Group, Shape, String
from reportlab.platypus import Flowable


def scaled(draw: Callable[[float], Drawing], least: float, width: float, *, enlarged: bool) -> Drawing:
    """The drawing as wide as the page, its least letters `least` points; never larger, unless `enlarged`."""
    drawing = draw(width)
    drawn = min(_sizes(drawing), default=0.0)
    scale = least / drawn if drawn else 1.0
    if enlarged or scale < 1:
        drawing = draw(width / scale)
    else:
        scale = 1.0
    drawing.renderScale = min(scale, width / drawing.width)
    return drawing


def _sizes(group: Drawing | Group) -> Iterator[float]:
    """The sizes of all lettering in a drawing."""
    for shape in group.contents:
        if isinstance(shape, Group):
            scale = abs(shape.transform[0]) + abs(shape.transform[1])
            yield from (size * scale for size in _sizes(shape))
        elif isinstance(shape, String):
            yield shape.fontSize


@dataclass(frozen=True, slots=True)
class _Placed:
    """A shape of a drawing, and from where to where it reaches."""

    shape: Shape
    bottom: float
    top: float


def over_pages(drawing: Drawing, first: float, height: float) -> list[Flowable]:
    """The drawing whole where it fits into `height` points, else in slices, `first` points for the first."""
    scale = drawing.renderScale
    if drawing.height * scale <= height:
        return [drawing]
    placed = [_placed(shape) for shape in drawing.contents]
    slices: list[Flowable] = []
    top, room = drawing.height, first
    while top > 0:
        bottom = _cut(placed, top, room / scale)
        slices.append(Slice(drawing, placed, bottom, top))
        top, room = bottom, height
    return slices


def _placed(shape: Shape) -> _Placed:
    _left, bottom, _right, top = shape.getBounds()
    if isinstance(shape, String):
        top = bottom + shape.fontSize
        bottom -= 0.3 * shape.fontSize
    return _Placed(shape, bottom, top)


def _cut(placed: list[_Placed], top: float, room: float) -> float:
    """How far down a slice reaches: where it parts nothing but what runs through the whole drawing."""
    floor = top - room
    if floor <= 0:
        return 0.0
    small = [one for one in placed if one.top - one.bottom < room / 2]
    edges = sorted({one.bottom for one in small if floor <= one.bottom < top - 1})
    whole = (edge for edge in edges if not any(one.bottom < edge < one.top for one in small))
    return next(whole, floor)


class Slice(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """The part of a drawing between two heights, with what belongs there."""

    def __init__(self, drawing: Drawing, placed: list[_Placed], bottom: float, top: float) -> None:
        super().__init__()
        self.scale, self.bottom = drawing.renderScale, bottom
        self.width, self.height = drawing.width * self.scale, (top - bottom) * self.scale
        middles = ((one, (one.bottom + one.top) / 2) for one in placed)
        self.part = Drawing(drawing.width, drawing.height)
        for one, middle in middles:
            lettering = isinstance(one.shape, String)
            if bottom <= middle < top if lettering else (one.bottom < top and one.top > bottom):
                self.part.add(one.shape)

    def draw(self) -> None:
        path = self.canv.beginPath()
        path.rect(-1, 0, self.width + 2, self.height)
        self.canv.clipPath(path, stroke=0, fill=0)
        self.canv.scale(self.scale, self.scale)
        renderPDF.draw(self.part, self.canv, 0, -self.bottom)
