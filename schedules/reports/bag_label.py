"""A bag with its three numbers, and the bag laid out: how much of it each number is."""

from __future__ import annotations

from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import fonts, ink, textures
from schedules.reports.ruler import TEXT

_HEIGHT, _BAG, _BAR = 156.0, 132.0, 44.0
_FILLS = (None, textures.compost, textures.hatched)


def bag_label(numbers: tuple[float, float, float], width: float) -> Drawing:
    """The bag on the left, on the right its weight parted: 1, 2 and 3 are what counts, 4 is the rest.

    `numbers` are percent; parts too narrow for their number have it above.
    """
    drawing = Drawing(width, _HEIGHT)
    for shape in [*_bag(numbers), *_parted(numbers, _BAG + 34, width - 2)]:
        drawing.add(shape)
    return drawing


def _bag(numbers: tuple[float, float, float]) -> list[Shape]:
    outline = [(10, 6), (_BAG - 10, 6), (_BAG - 4, 24), (_BAG - 8, 118), (_BAG - 22, 128), (_BAG - 14, 148)]
    left = [(14, 148), (22, 128), (8, 118), (4, 24), (10, 6)]
    text = "-".join(f"{number:g}" for number in numbers)
    return [
        ink.polyline([*outline, *left], width=1.8),
        ink.line((22, 128), (_BAG - 22, 128), width=1.0),
        ink.words(_BAG / 2, 62, text, 2 * TEXT, anchor="middle", font=fonts.BOLD),
    ]


def _parted(numbers: tuple[float, float, float], left: float, right: float) -> list[Shape]:
    bottom, top = 42.0, 42.0 + _BAR
    shapes: list[Shape] = []
    x = left
    last_tag = left - 3 * textures.TAG
    for n, share in enumerate([*numbers, 100 - sum(numbers)], start=1):
        end = x + (right - left) * share / 100
        if share:
            corners = [(x, bottom), (end, bottom), (end, top), (x, top), (x, bottom)]
            fill = _FILLS[n - 1] if n <= len(_FILLS) else None
            if fill is not None:
                shapes += fill((x + 2, bottom + 2, end - 2, top - 2))
            shapes.append(ink.polyline(corners, width=1.2))
            at = max((x + end) / 2, last_tag + 2.4 * textures.TAG)
            shapes += textures.pointed((at, top + 26), ((x + end) / 2, top), n)
            last_tag = at
        x = end
    return shapes
