"""Drawings as operators of a PDF page, for what is drawn hundreds of times over.

reportlab's own way from a drawing to a page checks and sets every state anew for each shape. A mark of a
calendar is the same some thousand times in one file, so it is written out once and put where it belongs.
Lengths are points, y runs upwards.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from reportlab.graphics.shapes import Circle, Line, Path, PolyLine, Rect, Shape
from reportlab.lib.colors import Color

_MOVE, _LINE, _CURVE, _CLOSE = range(4)
_PATH_OPERATORS = {_MOVE: ("m", 2), _LINE: ("l", 2), _CURVE: ("c", 6), _CLOSE: ("h", 0)}
_ROUND = 0.5523  # of the radius: how far the handles of a quarter circle reach


def n(value: float) -> str:
    """A number as short as a hundredth of a point allows.

    >>> n(12.0), n(0.333), n(-0.001)
    ('12', '0.33', '0')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def filling(color: Color) -> str:
    """What sets the colour of areas and letters."""
    return f"{_parts(color)} rg"


def stroking(color: Color) -> str:
    """What sets the colour of lines."""
    return f"{_parts(color)} RG"


def operators(shapes: Iterable[Shape]) -> str:
    """The shapes, each with all it needs; words are not among them, since they depend on the file's fonts."""
    return "\n".join(_one(shape) for shape in shapes)


def _parts(color: Color) -> str:
    return " ".join(f"{part:.3f}".rstrip("0").rstrip(".") for part in (color.red, color.green, color.blue))


def _one(shape: Shape) -> str:
    parts = [_pen(shape), _OUTLINES[type(shape)](shape)]
    filled, stroked = getattr(shape, "fillColor", None) is not None, shape.strokeColor is not None
    if isinstance(shape, Line | PolyLine):
        filled = False
    parts.append("B" if filled and stroked else "f" if filled else "S")
    return " ".join(part for part in parts if part)


def _pen(shape: Any) -> str:
    found = []
    if not isinstance(shape, Line | PolyLine) and shape.fillColor is not None:
        found.append(filling(shape.fillColor))
    if shape.strokeColor is not None:
        dash = " ".join(n(one) for one in shape.strokeDashArray or ())
        ends = f"{shape.strokeLineCap or 0} J {shape.strokeLineJoin or 0} j"
        found += [stroking(shape.strokeColor), f"{n(shape.strokeWidth)} w {ends} [{dash}] 0 d"]
    return " ".join(found)


def _line(shape: Line) -> str:
    return f"{n(shape.x1)} {n(shape.y1)} m {n(shape.x2)} {n(shape.y2)} l"


def _polyline(shape: PolyLine) -> str:
    pairs = list(zip(shape.points[::2], shape.points[1::2], strict=True))
    return " ".join(f"{n(x)} {n(y)} {'l' if at else 'm'}" for at, (x, y) in enumerate(pairs))


def _path(shape: Path) -> str:
    found, at = [], 0
    for code in shape.operators:
        name, count = _PATH_OPERATORS[code]
        found += [*(n(value) for value in shape.points[at : at + count]), name]
        at += count
    return " ".join(found)


def _rect(shape: Rect) -> str:
    return f"{n(shape.x)} {n(shape.y)} {n(shape.width)} {n(shape.height)} re"


def _circle(shape: Circle) -> str:
    x, y, r, h = shape.cx, shape.cy, shape.r, shape.r * _ROUND
    quarters = (
        (x + r, y + h, x + h, y + r, x, y + r),
        (x - h, y + r, x - r, y + h, x - r, y),
        (x - r, y - h, x - h, y - r, x, y - r),
        (x + h, y - r, x + r, y - h, x + r, y),
    )
    curves = " ".join(" ".join(n(value) for value in quarter) + " c" for quarter in quarters)
    return f"{n(x + r)} {n(y)} m {curves}"


_OUTLINES = {Line: _line, PolyLine: _polyline, Path: _path, Rect: _rect, Circle: _circle}
