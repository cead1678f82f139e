"""The marks of single days in a year's drawing, one for each kind of work, told apart by shape alone.

Work that the calendar knows has its own mark from `marks`; the others are small signs of a pen.
"""

from __future__ import annotations

from collections.abc import Callable

from reportlab.graphics.shapes import Shape

from schedules.reports import ink, marks

_HALF = 3.4
_WIDE = frozenset(
    {"start-indoors", "harden-off", "transplant"}
)  # the others' marks repeat when they are wide
_R = 3.2


def _stroke(x: float, y: float) -> list[Shape]:
    return [ink.line((x, y - 5.5), (x, y + 5.5), width=1.6)]


def _cross(x: float, y: float) -> list[Shape]:
    return [ink.strokes([[(x - _R, y - _R), (x + _R, y + _R)], [(x - _R, y + _R), (x + _R, y - _R)]])]


def _plus(x: float, y: float) -> list[Shape]:
    return [ink.strokes([[(x - _R, y), (x + _R, y)], [(x, y - _R), (x, y + _R)]])]


def _level(x: float, y: float) -> list[Shape]:
    return [ink.line((x - _R, y), (x + _R, y), width=2.4)]


def _layers(x: float, y: float) -> list[Shape]:
    return [ink.strokes([[(x - _R, y + up), (x + _R, y + up)] for up in (-1.8, 1.8)])]


def _stake(x: float, y: float) -> list[Shape]:
    return [ink.strokes([[(x, y - 5), (x, y + 4)], [(x - _R, y + 4), (x + _R, y + 4)]])]


def _sprout(x: float, y: float) -> list[Shape]:
    return [ink.strokes([[(x, y - 4.5), (x, y)], [(x - _R, y + 3.6), (x, y), (x + _R, y + 3.6)]])]


def _ring(x: float, y: float) -> list[Shape]:
    return [ink.dot(x, y, _R, ink.PAPER, ink.INK)]


def _eye(x: float, y: float) -> list[Shape]:
    return [*_ring(x, y), ink.dot(x, y, 1.2)]


def _written(x: float, y: float) -> list[Shape]:
    return [ink.strokes([[(x - _R, y - 1.4), (x - 1.1, y + 1.4), (x + 1.1, y - 1.4), (x + _R, y + 1.4)]])]


def _tally(x: float, y: float) -> list[Shape]:
    return [ink.strokes([[(x + step, y - 3.6), (x + step, y + 3.6)] for step in (-1.6, 1.6)])]


def _star(x: float, y: float) -> list[Shape]:
    arms = [(0.0, _R), (0.87 * _R, 0.5 * _R), (0.87 * _R, -0.5 * _R)]
    return [ink.strokes([[(x - across, y - up), (x + across, y + up)] for across, up in arms])]


SIGNS: dict[str, Callable[[float, float], list[Shape]]] = {
    "water": _stroke,
    "came-up": _sprout,
    "feed": _plus,
    "mulch": _layers,
    "weed": _cross,
    "support": _stake,
    "scout": _eye,
    "treat": _ring,
    "killed": _star,
    "clear": _level,
    "hours": _tally,
    "note": _written,
}


def day_mark(work: str, x: float, y: float) -> list[Shape]:
    """The mark of `work` at the day that stands at `x`."""
    if work in SIGNS:
        return SIGNS[work](x, y)
    half = _HALF if work in _WIDE else marks.SHORTEST / 2
    return marks.draw(work, x - half, x + half, y)
