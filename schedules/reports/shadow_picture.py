"""A fence seen from the side, and how far its shadow reaches at noon on several days, to scale."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, sin

from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import ink, textures
from schedules.reports.ruler import TEXT

_FOOT, _HEAD = 40.0, 30.0
_TALLEST, _MOST, _RAY = 150.0, 4, 34.0


def shadow_picture(fence_m: float, shadows: Sequence[tuple[float, str]], width: float) -> Drawing:
    """At most four shadows as (metres, length in words), numbered as given; the fence at the left."""
    shown = list(shadows)[:_MOST]
    longest = max((metres for metres, _ in shown), default=fence_m)
    left, right = 70.0, width - 30
    scale = min((right - left) / longest, _TALLEST / fence_m)
    high = fence_m * scale
    drawing = Drawing(width, _FOOT + high + _HEAD)
    ground = _FOOT
    for shape in [
        ink.line((0, ground), (width, ground), width=1.4),
        ink.line((left, ground), (left, ground + high), width=4.0),
        *_rays(shown, left, ground, high, scale),
    ]:
        drawing.add(shape)
    return drawing


def _rays(
    shown: Sequence[tuple[float, str]], left: float, ground: float, high: float, scale: float
) -> list[Shape]:
    shapes: list[Shape] = []
    last = left - 100.0
    for n, (metres, _words) in enumerate(shown, start=1):
        end = left + metres * scale
        shapes.append(ink.line((left, ground + high), (end, ground), ink.QUIET, 0.9, (5, 3)))
        slope = atan2(high, end - left)
        reach = min(_RAY, (_HEAD - 1) / sin(slope))
        beyond = (left - reach * cos(slope), ground + high + reach * sin(slope))
        shapes.append(ink.line((left, ground + high), beyond, ink.QUIET, 0.9, (5, 3)))
        at = max(end, last + 2.4 * textures.TAG)
        shapes += textures.pointed((at, ground - TEXT - 6), (end, ground), n)
        last = at
    return shapes
