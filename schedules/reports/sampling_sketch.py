"""Where the cores of a soil sample are taken on a bed, and how deep."""

from __future__ import annotations

from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import ink, textures

_HEIGHT = 150.0


def sampling_sketch(cores: int, width: float) -> Drawing:
    """1: a zigzag over the bed with so many cores; 2: a slice from the surface down; 3: the pail."""
    drawing = Drawing(width, _HEIGHT)
    bed = min(width * 0.56, 430.0, width - 250)
    for shape in [*_bed(cores, bed), *_slice(bed + 30, width - 2)]:
        drawing.add(shape)
    return drawing


def _bed(cores: int, right: float) -> list[Shape]:
    bottom, top = 34.0, _HEIGHT - 4
    shapes: list[Shape] = [
        ink.polyline([(1, bottom), (right, bottom), (right, top), (1, top), (1, bottom)], width=1.6)
    ]
    places = []
    for n in range(cores):
        x = 18 + (right - 36) * n / max(1, cores - 1)
        places.append((x, (top - 22, (top + bottom) / 2, bottom + 22, (top + bottom) / 2)[n % 4]))
    shapes.append(ink.polyline(places, ink.QUIET, 0.8, (4, 3)))
    shapes += [ink.dot(x, y, 4.2) for x, y in places]
    return [*shapes, *textures.tag(right / 2, 14, 1)]


def _slice(left: float, right: float) -> list[Shape]:
    """A hole with a straight side, the slice cut from it, and a pail."""
    ground, deep = _HEIGHT - 34, 48.0
    middle = left + 112
    hole = [
        (left, ground),
        (left + 26, ground),
        (left + 40, deep),
        (left + 66, deep),
        (left + 66, ground),
        (middle, ground),
    ]
    inch = 9.0
    piece = [(left + 66, ground), (left + 66 + inch, ground), (left + 66 + inch, deep), (left + 66, deep)]
    pail_left, pail_right = right - 80, right - 10
    pail = [
        (pail_left, 106),
        (pail_left + 12, 40),
        (pail_right - 12, 40),
        (pail_right, 106),
        (pail_left, 106),
    ]
    return [
        ink.polyline(hole, width=1.4),
        *textures.soil((left, 34, left + 38, deep)),
        *textures.soil((left + 66 + inch, deep - 14, middle, ground - 3)),
        ink.area(piece, ink.SHADE),
        ink.polyline([*piece, piece[0]], width=1.2),
        *textures.tag(left + 70, 14, 2),
        *textures.compost((pail_left + 12, 44, pail_right - 12, 74)),
        ink.polyline(pail, width=1.8),
        ink.polyline(
            [(pail_left, 106), (pail_left + 14, 136), (pail_right - 14, 136), (pail_right, 106)], width=1.0
        ),
        *textures.tag((pail_left + pail_right) / 2, 14, 3),
    ]
