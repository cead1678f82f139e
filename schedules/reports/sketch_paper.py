"""A sketch on paper, at a given number of points to the metre."""

from __future__ import annotations

from reportlab.graphics.shapes import Circle, Drawing, Group, PolyLine, translate

from plots.sketch import PENS, Ground, Point, Ring, Shape, Sketch, Strokes, Words
from schedules.reports import fonts, ink


def sketch_drawing(sketch: Sketch, points_per_metre: float) -> Drawing:
    """The whole sketch, to scale."""
    drawing = Drawing(sketch.width * points_per_metre, sketch.height * points_per_metre)
    paper = _Paper(sketch, points_per_metre)
    for shape in (*sketch.around, *(shape for thing in sketch.things for shape in thing.shapes)):
        for part in paper.drawn(shape):
            drawing.add(part)
    return drawing


class _Paper:
    """The sheet's own measure: points, y upwards."""

    def __init__(self, sketch: Sketch, points_per_metre: float) -> None:
        self.sketch, self.scale = sketch, points_per_metre

    def drawn(self, shape: Shape) -> list[Circle | Group | PolyLine]:
        if isinstance(shape, Strokes):
            style = PENS[shape.pen]
            return [
                ink.polyline([self._at(point) for point in piece], width=style.weight, dash=style.dash)
                for piece in shape.pieces
            ]
        if isinstance(shape, Ground):
            return [ink.area([self._at(point) for point in shape.corners], ink.PAPER)]
        if isinstance(shape, Ring):
            return [self._ring(shape)]
        return [self._words(shape)]

    def _ring(self, ring: Ring) -> Circle:
        x, y = self._at(ring.middle)
        circle = ink.dot(x, y, ring.radius * self.scale, ink.INK if ring.filled else ink.PAPER)
        if not ring.filled:
            circle.strokeColor, circle.strokeWidth = ink.INK, PENS[ring.pen].weight
        return circle

    def _words(self, words: Words) -> Group:
        x, y = self._at(words.middle)
        size = words.size * self.scale
        font = fonts.BOLD if words.bold else fonts.ITALIC if words.quiet else fonts.BODY
        color = ink.QUIET if words.quiet else ink.INK
        text = ink.words(0, -0.35 * size, words.text, size, color=color, anchor="middle", font=font)
        group = Group(text)
        group.transform = translate(x, y)
        if words.turn:
            group.rotate(-words.turn)
        return group

    def _at(self, point: Point) -> Point:
        x, y = point
        height = self.sketch.height
        return (x - self.sketch.left) * self.scale, (height - (y - self.sketch.top)) * self.scale
