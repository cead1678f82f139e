"""Ground cut open from the side: layers on new ground, mulch about a stem, moist soil, a heap, kinds of beds.

What the numbers in a drawing mean is said beside it, in the same order.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, radians, sin

from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import ink, textures
from schedules.reports.textures import TAG, pointed

_TAGS = 40.0  # room at the right edge for numbers
_WIDEST = 760.0


def new_ground(width: float) -> Drawing:
    """Layers on grass: 1 mulch, 2 compost, 3 cardboard, 4 grass cut short, 5 the soil below."""
    drawing = Drawing(width, 190.0)
    left, right = 1.0, min(width, _WIDEST) - _TAGS
    grass, board, fill, top = 70.0, 82.0, 128.0, 166.0
    shapes: list[Shape] = [
        *textures.soil((left, 4, right, grass - 3)),
        ink.line((left, grass), (right, grass), width=1.0),
        *textures.grass(left, right, grass, board - grass - 2),
        *_boards(left, right, board),
        *textures.compost((left, board + 8, right, fill)),
        ink.line((left, fill), (right, fill), ink.QUIET, 0.7),
        *textures.straw((left, fill + 2, right, top)),
    ]
    middles = ((fill + top) / 2, (board + 8 + fill) / 2, board + 3, grass + 4, 32.0)
    return _with(drawing, [*shapes, *_at_the_edge(middles, right)])


def mulch_ring(width: float) -> Drawing:
    """Mulch about a plant: 1 bare ground at the stem, 2 the layer, 3 soil that stays moist."""
    drawing = Drawing(width, 176.0)
    left, right = 1.0, min(width, _WIDEST) - _TAGS
    ground, top, stem = 62.0, 92.0, (1.0 + min(width, _WIDEST) - _TAGS) * 0.42
    gap = 30.0
    shapes: list[Shape] = [
        *textures.soil((left, 4, right, ground - 3)),
        ink.line((left, ground), (right, ground), width=1.4),
        *textures.straw((left, ground + 2, stem - gap, top)),
        *textures.straw((stem + gap, ground + 2, right, top)),
        *_plant(stem, ground, 76.0),
        *_roots(stem, ground, 46.0),
        *pointed((stem - 60, top + 40), (stem - gap / 2, ground + 3), 1),
    ]
    return _with(drawing, [*shapes, *_at_the_edge(((ground + top) / 2, 30.0), right, first=2)])


def finger_test(width: float) -> Drawing:
    """A finger in the ground: 1 dry on top, 2 moist at the finger's tip, 3 where the roots drink."""
    drawing = Drawing(width, 182.0)
    left, right = 1.0, min(width, _WIDEST) - _TAGS
    ground, dry = 116.0, 84.0
    plant, hand = left + (right - left) * 0.68, left + (right - left) * 0.24
    shapes: list[Shape] = [
        *textures.soil((left, dry + 2, right, ground - 3)),
        ink.line((left, ground), (right, ground), width=1.4),
        ink.line((left, dry), (right, dry), ink.QUIET, 0.8, (4, 3)),
        *textures.compost((left, 4, right, dry - 3)),
        *_plant(plant, ground, 58.0),
        *_roots(plant, ground, 94.0),
        *_finger(hand, ground, ground - dry + 14),
    ]
    return _with(drawing, [*shapes, *_at_the_edge(((ground + dry) / 2, dry - 18, 22.0), right)])


def heap(width: float) -> Drawing:
    """A heap in layers: 1 a cover against rain, 2 dry and brown, 3 wet and green, 4 twigs that let air in."""
    drawing = Drawing(width, 190.0)
    right = min(width, _WIDEST) - _TAGS
    inner_left, inner_right, base, top = right * 0.2, right * 0.8, 16.0, 160.0
    each = (top - base - 16) / 5
    shapes: list[Shape] = [ink.line((1, base), (right, base), width=1.4)]
    shapes += textures.grass(inner_left, inner_right, base, 14)
    for n in range(5):
        low = base + 16 + n * each
        box = (inner_left + 2, low + 1, inner_right - 2, low + each - 2)
        shapes += textures.straw(box) if n % 2 == 0 else textures.compost(box)
        shapes.append(ink.line((inner_left, low + each), (inner_right, low + each), ink.QUIET, 0.6))
    for x in (inner_left, inner_right):
        shapes.append(ink.line((x, base - 4), (x, top + 8), width=4.0))
    cover = [
        (inner_left - 12, top + 4),
        ((inner_left + inner_right) / 2, top + 22),
        (inner_right + 12, top + 4),
    ]
    shapes.append(ink.polyline(cover, width=2.2))
    middles = (top + 14, base + 16 + 4.5 * each, base + 16 + 3.5 * each, base + 7)
    things = [(inner_right - 30, y) for y in middles]
    tags = _apart(middles)
    for n, (y, thing) in enumerate(zip(tags, things, strict=True), start=1):
        shapes += pointed((right + TAG + 4, y), thing, n)
    return _with(drawing, shapes)


def kinds_of_beds(width: float) -> Drawing:
    """1 in the ground, 2 a raised frame, 3 containers, 4 a frame on hard ground, 5 a bed to sit at."""
    drawing = Drawing(width, 178.0)
    ground, each = 40.0, width / 5
    shapes: list[Shape] = []
    for n in range(5):
        left, right = n * each + 4, (n + 1) * each - 6
        shapes += _KINDS[n](left, right, ground)
        shapes += textures.tag((left + right) / 2, 14, n + 1)
    return _with(drawing, shapes)


def _in_ground(left: float, right: float, ground: float) -> list[Shape]:
    mound = [(left, ground + 14), (left + 8, ground + 20), (right - 8, ground + 20), (right, ground + 14)]
    return [
        ink.polyline(mound, width=1.4),
        *textures.soil((left, ground - 8, right, ground + 12)),
        *_plant((left + right) / 2, ground + 20, 40),
    ]


def _raised(left: float, right: float, ground: float) -> list[Shape]:
    return [
        *_natural(left, right, ground),
        *_frame(left + 6, right - 6, ground, 34),
        *_plant((left + right) / 2, ground + 32, 40),
    ]


def _containers(left: float, right: float, ground: float) -> list[Shape]:
    shapes: list[Shape] = [*_hard(left, right, ground)]
    middle = (left + right) / 2
    for start, end, high in ((left + 4, middle - 4, 42.0), (middle + 4, right - 4, 26.0)):
        lean = 0.12 * (end - start)
        shapes.append(
            ink.polyline(
                [
                    (start, ground + high),
                    (start + lean, ground + 1),
                    (end - lean, ground + 1),
                    (end, ground + high),
                ],
                width=1.8,
            )
        )
        shapes += textures.compost((start + lean, ground + 3, end - lean, ground + high - 5))
        shapes += _plant((start + end) / 2, ground + high - 4, 32)
    return shapes


def _on_hard(left: float, right: float, ground: float) -> list[Shape]:
    return [
        *_hard(left, right, ground),
        *_frame(left + 6, right - 6, ground, 52),
        *_plant((left + right) / 2, ground + 50, 40),
    ]


def _at_sitting_height(left: float, right: float, ground: float) -> list[Shape]:
    low, high = ground + 48, ground + 78
    legs = [[(x, ground), (x, low)] for x in (left + 10, right - 10)]
    return [
        *_hard(left, right, ground),
        ink.strokes(legs, width=2.4),
        *_frame(left + 4, right - 4, low, high - low),
        ink.line((left + 4, low), (right - 4, low), width=2.0),
        *_plant((left + right) / 2, high - 2, 36),
    ]


_KINDS = (_in_ground, _raised, _containers, _on_hard, _at_sitting_height)


def _natural(left: float, right: float, ground: float) -> list[Shape]:
    return [
        ink.line((left, ground), (right, ground), width=1.2),
        *textures.soil((left, ground - 9, right, ground - 2)),
    ]


def _hard(left: float, right: float, ground: float) -> list[Shape]:
    return [
        ink.line((left, ground), (right, ground), width=2.0),
        *textures.hatched((left, ground - 9, right, ground - 1)),
    ]


def _frame(left: float, right: float, ground: float, high: float) -> list[Shape]:
    sides = [[(x, ground), (x, ground + high)] for x in (left, right)]
    return [
        ink.strokes(sides, width=3.6),
        *textures.compost((left + 4, ground + 2, right - 4, ground + high - 5)),
    ]


def _boards(left: float, right: float, y: float) -> list[Shape]:
    """Sheets of cardboard that overlap."""
    length = (right - left + 40) / 3
    return [
        ink.line(
            (left + n * (length - 20), y + 2.5 * (n % 2)),
            (left + n * (length - 20) + length, y + 2.5 * (n % 2)),
            width=3.0,
        )
        for n in range(3)
    ]


def _plant(x: float, ground: float, height: float) -> list[Shape]:
    """A stem with leaves to both sides."""
    pieces: list[list[tuple[float, float]]] = [[(x, ground), (x, ground + height)]]
    for n, share in enumerate((0.3, 0.5, 0.7, 0.88)):
        reach = height * 0.4 * (1.15 - share)
        side = 1 if n % 2 else -1
        y = ground + height * share
        tip = (x + side * reach, y + reach * 0.7)
        pieces.append(
            [(x, y), (x + side * reach * 0.5, y + reach * 0.7), tip, (x + side * reach * 0.7, y + 1), (x, y)]
        )
    return [ink.strokes(pieces, width=1.3)]


def _roots(x: float, ground: float, depth: float) -> list[Shape]:
    pieces = []
    for angle, share in ((-0.62, 0.8), (-0.38, 1.0), (-0.12, 0.92), (0.15, 1.0), (0.42, 0.86), (0.66, 0.7)):
        long = depth * share
        bend = (x + sin(angle * pi / 2) * long * 0.5, ground - long * 0.45)
        pieces.append([(x, ground), bend, (x + sin(angle * pi / 2) * long * 0.8, ground - cos(angle) * long)])
    return [ink.strokes(pieces, ink.INK, 0.9)]


def _finger(x: float, ground: float, depth: float) -> list[Shape]:
    """A hand whose pointing finger is in the ground up to its second joint."""
    half, tip = 7.0, ground - depth
    finger = [
        (x - half, ground + 40),
        (x - half, tip + 7),
        *_arc(x, tip + 7, half, 180, 360),
        (x + half, ground + 24),
    ]
    folded: list[tuple[float, float]] = []
    for n in range(3):
        folded += _arc(x + half + 7 + 14 * n, ground + 25, 7, 180, 360)
    back = [
        (x + half + 44, ground + 40),
        *_arc(x + half + 34, ground + 46, 12, 0, 90),
        (x + half + 22, ground + 66),
    ]
    outline = [*finger, *folded, *back]
    inside = [*finger, *folded, *back, (x - half + 6, ground + 66)]
    wrist = [(x - half, ground + 40), (x - half + 6, ground + 66)]
    joint = [[(x - half + 2, ground + 12), (x + half - 2, ground + 12)]]
    return [
        ink.area(inside, ink.PAPER),
        ink.polyline(outline, width=1.4),
        ink.polyline(wrist, width=1.4),
        ink.strokes(joint, width=0.8),
    ]


def _arc(x: float, y: float, radius: float, start: float, end: float) -> list[tuple[float, float]]:
    """Points along a circle between two angles in degrees, counted from the right, against the clock."""
    angles = [radians(start + (end - start) * n / 8) for n in range(9)]
    return [(x + radius * cos(angle), y + radius * sin(angle)) for angle in angles]


def _at_the_edge(middles: Sequence[float], right: float, first: int = 1) -> list[Shape]:
    """Numbers beside layers at so many heights, topmost first, pulled apart where they would touch."""
    shapes: list[Shape] = []
    for n, (y, at) in enumerate(zip(middles, _apart(middles), strict=True), start=first):
        shapes += pointed((right + TAG + 14, at), (right - 8, y), n)
    return shapes


def _apart(middles: Sequence[float]) -> list[float]:
    places: list[float] = []
    for y in middles:
        places.append(min(y, places[-1] - 2 * TAG - 3) if places else y)
    lift = max(0.0, TAG + 2 - places[-1])
    return [place + lift for place in places]


def _with(drawing: Drawing, shapes: Sequence[Shape]) -> Drawing:
    for shape in shapes:
        drawing.add(shape)
    return drawing
