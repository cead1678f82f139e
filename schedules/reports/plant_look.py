"""A plant with the places where it is looked at for damage, in the order in which to look."""

from __future__ import annotations

from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import ink, textures
from schedules.reports.textures import pointed

_HEIGHT = 232.0
Point = tuple[float, float]


def plant_look(width: float) -> Drawing:
    """1 the youngest leaves, 2 below the leaves, 3 flowers and fruit, 4 the stem's foot, 5 the ground."""
    drawing = Drawing(width, _HEIGHT)
    whole = min(width, 560.0)
    x, ground = whole * 0.46, 40.0
    stem = [(x, ground), (x + 4, 96), (x - 2, 150), (x + 3, 196)]
    shapes: list[Shape] = [
        ink.line((1, ground), (whole, ground), width=1.4),
        *textures.soil((1, 6, whole, ground - 4)),
        ink.polyline(stem, width=2.2),
        *_leaf((x + 2, 84), (x - 92, 104)),
        *_leaf((x + 3, 98), (x + 104, 96)),
        *_leaf((x - 1, 140), (x - 84, 166)),
        *_leaf((x, 146), (x + 78, 176)),
        *_leaf((x + 2, 190), (x - 26, 220)),
        *_leaf((x + 3, 194), (x + 30, 222)),
        *_fruit(x + 40, 124),
        *pointed((x + 110, 212), (x + 26, 214), 1),
        *pointed((x - 134, 76), (x - 66, 94), 2),
        *pointed((x + 128, 138), (x + 52, 120), 3),
        *pointed((x - 70, ground + 20), (x - 3, ground + 8), 4),
        *pointed((x + 110, ground + 18), (x + 64, ground - 6), 5),
    ]
    for shape in shapes:
        drawing.add(shape)
    return drawing


def _leaf(start: Point, tip: Point) -> list[Shape]:
    """A leaf with its middle vein, on a short stalk."""
    (sx, sy), (tx, ty) = start, tip
    dx, dy = tx - sx, ty - sy
    base = (sx + 0.22 * dx, sy + 0.22 * dy)

    def beside(share: float, out: float) -> Point:
        return sx + share * dx - out * dy, sy + share * dy + out * dx

    upper = [beside(share, out) for share, out in ((0.4, 0.15), (0.6, 0.2), (0.8, 0.13))]
    lower = [beside(share, -out) for share, out in ((0.8, 0.13), (0.6, 0.2), (0.4, 0.15))]
    veins = [
        [beside(share, 0.0), beside(share + 0.14, side * 0.11)] for share in (0.45, 0.62) for side in (1, -1)
    ]
    return [ink.strokes([[start, base, *upper, tip, *lower, base], [base, tip], *veins], width=1.1)]


def _fruit(x: float, y: float) -> list[Shape]:
    return [
        ink.line((x - 38, y + 14), (x, y + 12), width=1.2),
        ink.dot(x, y, 13, ink.PAPER, ink.INK),
        ink.strokes([[(x - 6, y + 14), (x, y + 10), (x + 6, y + 14)]], width=1.1),
    ]
