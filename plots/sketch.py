"""A drawing as lines, rings and words, in the measures of what is drawn; page and paper both draw from it.

Lengths are metres, x to the right and y down. The weight of a line belongs to its pen, not to the scale.
Things are told apart by line and mark alone, so that paper, greyscale and colour-blind eyes read them alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]


class Pen(StrEnum):
    """How a line is drawn."""

    HEAVY = "heavy"
    FIRM = "firm"
    THIN = "thin"
    BROKEN = "broken"
    DOTTED = "dotted"


@dataclass(frozen=True, slots=True)
class PenStyle:
    """A pen's weight and its strokes and gaps, in points."""

    weight: float
    dash: tuple[float, ...] = ()


PENS: dict[Pen, PenStyle] = {
    Pen.HEAVY: PenStyle(2.6),
    Pen.FIRM: PenStyle(1.3),
    Pen.THIN: PenStyle(0.7),
    Pen.BROKEN: PenStyle(1.3, (5.0, 3.5)),
    Pen.DOTTED: PenStyle(1.1, (0.1, 3.0)),
}


@dataclass(frozen=True, slots=True)
class Strokes:
    """One or more lines through points, drawn with one pen."""

    pieces: tuple[tuple[Point, ...], ...]
    pen: Pen = Pen.FIRM


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle; filled, it is a dot."""

    middle: Point
    radius: float
    pen: Pen = Pen.FIRM
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Ground:
    """An outline filled with paper: what lies under it is covered, and a pointer finds it."""

    corners: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Words:
    """Text written through a point, its middle there; `turn` in degrees clockwise, `size` in metres."""

    middle: Point
    text: str
    size: float
    turn: float = 0.0
    bold: bool = False
    quiet: bool = False


Shape = Strokes | Ring | Ground | Words


@dataclass(frozen=True, slots=True)
class Thing:
    """The shapes that make one thing, with what it is called and where a page leads from it."""

    key: str
    name: str
    shapes: tuple[Shape, ...]
    left: float = 0.0
    top: float = 0.0
    address: str = ""


@dataclass(frozen=True, slots=True)
class Sketch:
    """A whole drawing: things, and what lies around them; `left` and `top` may be below 0 for a margin."""

    left: float
    top: float
    width: float
    height: float
    things: tuple[Thing, ...]
    around: tuple[Shape, ...] = ()


def closed(corners: Sequence[Point], past: float = 0.0) -> tuple[tuple[Point, ...], ...]:
    """An outline as a draughtsman rules it, side by side, each a little `past` its corners.

    >>> closed([(0, 0), (2, 0), (2, 1)], past=0.5)[0]
    ((-0.5, 0.0), (2.5, 0.0))
    """
    ends = [*corners[1:], corners[0]]
    return tuple(_lengthened(start, end, past) for start, end in zip(corners, ends, strict=True))


def _lengthened(start: Point, end: Point, past: float) -> tuple[Point, Point]:
    across, down = end[0] - start[0], end[1] - start[1]
    length = (across**2 + down**2) ** 0.5 or 1.0
    dx, dy = across / length * past, down / length * past
    return (start[0] - dx, start[1] - dy), (end[0] + dx, end[1] + dy)
