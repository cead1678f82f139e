"""Four supports from the side, each with its number: 1 a stake, 2 a cage, 3 a trellis, 4 a tripod."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import fonts, ink

_GROUND, _TOP, _FOOT = 44.0, 150.0, 22.0  # the ground, the tip of a pole, and its end below the ground
_TEXT = 13.0
_WIDEST = 640.0


def supports(width: float) -> Drawing:
    """The four of them side by side on one ground."""
    drawing = Drawing(width, _TOP + 12)
    across = min(width, _WIDEST)
    share = across / 4
    shapes: list[Shape] = [ink.box(0, 16, across, _GROUND - 16, ink.SHADE)]
    shapes.append(ink.line((0, _GROUND), (across, _GROUND), width=1.4))
    for n, draw in enumerate((_stake, _cage, _trellis, _tripod)):
        middle = (n + 0.5) * share
        shapes += draw(middle, share)
        shapes.append(ink.words(middle, 2, str(n + 1), _TEXT, anchor="middle", font=fonts.BOLD))
    for shape in shapes:
        drawing.add(shape)
    return drawing


def _stake(middle: float, _share: float) -> list[Shape]:
    """A pole with a plant tied to it in two places."""
    stem = [
        (middle + 7, _GROUND),
        (middle + 5, _GROUND + 34),
        (middle + 8, _GROUND + 70),
        (middle + 5, _TOP - 20),
    ]
    ties = [_tie(middle, _GROUND + 36), _tie(middle, _GROUND + 72)]
    return [
        ink.line((middle, _FOOT), (middle, _TOP), width=2.4),
        ink.polyline(stem, width=1.1),
        *[shape for tie in ties for shape in tie],
        *_leaves(stem),
    ]


def _tie(x: float, y: float) -> list[Shape]:
    """A figure of eight about pole and stem."""
    loop = [(x - 4, y - 2), (x + 10, y + 3), (x + 10, y - 3), (x - 4, y + 3), (x - 4, y - 2)]
    return [ink.polyline(loop, ink.QUIET, 0.9)]


def _leaves(stem: Sequence[tuple[float, float]]) -> list[Shape]:
    return [ink.strokes([[(x - 14, y + 12), (x, y), (x + 16, y + 10)]], ink.INK, 1.0) for x, y in stem[1:]]


def _cage(middle: float, share: float) -> list[Shape]:
    """A ring of mesh, and one short pole that holds it."""
    half, top = share * 0.2, _TOP - 20
    shapes: list[Shape] = [
        ink.line(
            (middle - half + 8 * n * half / 16, _GROUND), (middle - half + 8 * n * half / 16, top), width=0.9
        )
        for n in range(5)
    ]
    shapes += [
        ink.line((middle - half, y), (middle + half, y), width=0.9)
        for y in (_GROUND + 12, _GROUND + 38, _GROUND + 62, top)
    ]
    shapes.append(ink.line((middle + half + 4, _FOOT), (middle + half + 4, top - 16), width=2.4))
    stem = [(middle, _GROUND), (middle - 3, _GROUND + 40), (middle + 3, _GROUND + 74)]
    return [*shapes, ink.polyline(stem, width=1.1), *_leaves(stem)]


def _trellis(middle: float, share: float) -> list[Shape]:
    """Two posts, a bar and strings between them."""
    half = share * 0.38
    shapes: list[Shape] = [ink.line((x, _FOOT), (x, _TOP), width=2.4) for x in (middle - half, middle + half)]
    shapes.append(ink.line((middle - half, _TOP - 4), (middle + half, _TOP - 4), width=1.6))
    shapes.append(ink.line((middle - half, _GROUND + 8), (middle + half, _GROUND + 8), ink.QUIET, 0.8))
    for n in range(1, 6):
        x = middle - half + n * half / 3
        shapes.append(ink.line((x, _GROUND + 8), (x, _TOP - 4), ink.QUIET, 0.7))
        if n % 2:
            vine = [(x + (3 if k % 2 else -3), _GROUND + k * 9.0) for k in range(10)]
            shapes.append(ink.polyline([(x, _GROUND), *vine[1:]], width=1.0))
    return shapes


def _tripod(middle: float, share: float) -> list[Shape]:
    """Three poles tied below their tips, a vine about each outer one."""
    half, knot = share * 0.27, _TOP - 14
    feet = (middle - half, middle + 4, middle + half)
    shapes: list[Shape] = [
        ink.line((x, _GROUND - 8), (middle + (middle - x) * 0.12, _TOP), width=2.0) for x in feet
    ]
    shapes.append(
        ink.strokes(
            [[(middle - 5, knot), (middle + 5, knot)], [(middle - 5, knot - 4), (middle + 5, knot - 4)]]
        )
    )
    for x in (feet[0], feet[2]):
        vine = []
        for k in range(9):
            share_up = k / 9
            along = x + (middle - x) * share_up * 0.95
            vine.append((along + (4 if k % 2 else -4), _GROUND + share_up * (knot - _GROUND)))
        shapes.append(ink.polyline(vine, width=1.0))
    return shapes
