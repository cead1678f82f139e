"""What stands on the site beside the plots, each kind by its own lines."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from plots.sitemap.boxes import Box
from plots.sitemap.names import Lined, name_middle, name_reach
from plots.sketch import Ground, Pen, Point, Ring, Shape, Strokes, Words, closed

Line = tuple[Point, ...]


def feature_shapes(kind: str, box: Box, *, accessible: bool = False) -> tuple[Shape, ...]:
    """The lines of one thing.

    A path is two dotted edges, drawn through where wheels can go; water two rings; a gate its leaf, open; a
    shed its ridge; compost its bays; a hedge a row of tufts; a fence a line with posts; a tree its crown.
    """
    ground = Ground(box.corners())
    if kind == "path":
        return (ground, Strokes(_long_sides(box), Pen.THIN if accessible else Pen.DOTTED))
    if kind == "water":
        radius = min(box.width, box.length) / 2
        return (ground, Ring(box.middle, radius), Ring(box.middle, radius * 0.45))
    if kind == "gate":
        return (ground, Strokes(_gate(box)))
    if kind == "hedge":
        return (ground, Strokes((_tufts(box),)))
    if kind == "fence":
        return (ground, Strokes(_fence(box)))
    if kind == "tree":
        return (Strokes((_crown(box),)), Ring(box.middle, min(box.width, box.length) * 0.05, filled=True))
    outline = Strokes(closed(box.corners()))
    inside = {"shed": _ridge, "compost": _bays, "table": _planks}.get(kind)
    return (ground, outline, Strokes(inside(box), Pen.THIN)) if inside else (ground, outline)


def feature_words(kind: str, box: Box, label: str, others: Sequence[Lined] = ()) -> tuple[Words, ...]:
    """The name: inside what has room for it, beside what has none; a path has its name along it."""
    if not label:
        return ()
    x, y = box.middle
    if kind == "path":
        upright = box.length > box.width
        size = min(0.5 * min(box.width, box.length), 0.8)
        return (Words((x, y), label, size, -90 if upright else 0, quiet=True),)
    size = max(min(0.75, max(box.width, box.length) / 4), 0.55)
    inside = kind == "other" and box.width >= 0.62 * size * len(label)
    middle = (x, y) if inside else name_middle(box, label, size, [*others, *_swing(kind, box)])
    return (Words(middle, label, size, quiet=True),)


def feature_lines(kind: str, box: Box, label: str) -> tuple[Lined, ...]:
    """What a name beside it should not be written across."""
    if kind != "path":
        return (Lined(box.reach()), *_swing(kind, box))
    own = [
        Lined(name_reach(word.middle, word.text, word.size)) for word in feature_words(kind, box, label)
        if not word.turn
    ]  # fmt: skip
    return (Lined(box.reach(), open=True), *own)


def _swing(kind: str, box: Box) -> tuple[Lined, ...]:
    """The ground that a gate's leaf passes over."""
    if kind != "gate":
        return ()
    xs, ys = zip(*(point for line in _gate(box) for point in line), strict=True)
    return (Lined((min(xs), min(ys), max(xs), max(ys))),)


def _long_sides(box: Box) -> tuple[Line, ...]:
    if box.width >= box.length:
        return (
            (box.at(0, 0), box.at(box.width, 0)),
            (box.at(0, box.length), box.at(box.width, box.length)),
        )
    return (box.at(0, 0), box.at(0, box.length)), (box.at(box.width, 0), box.at(box.width, box.length))


def _along(box: Box, along: float, across: float) -> Point:
    """A point by shares of the longer and of the shorter side."""
    if box.width >= box.length:
        return box.at(along * box.width, across * box.length)
    return box.at(across * box.width, along * box.length)


def _gate(box: Box) -> tuple[Line, ...]:
    """Two posts, and the leaf half open with the way it swings."""
    wide = max(box.width, box.length)
    deep = min(box.width, box.length)
    swing = [wide * n / 8 for n in range(9)]
    arc = tuple(
        _swung(box, (wide * cos(step / wide * pi / 4)) / wide, -wide * sin(step / wide * pi / 4) / deep)
        for step in swing
    )
    posts = tuple((_along(box, end, -0.2), _along(box, end, 1.2)) for end in (0, 1))
    return (*posts, (_along(box, 0, 0.5), arc[-1]), arc)


def _swung(box: Box, along: float, across: float) -> Point:
    return _along(box, along, 0.5 + across)


def _tufts(box: Box) -> Line:
    """A line of half circles, as leaves are sketched."""
    wide, deep = max(box.width, box.length), min(box.width, box.length)
    count = max(3, round(wide / max(deep, 0.4)))
    points: list[Point] = []
    for tuft in range(count):
        for step in range(7):
            angle = pi * step / 6
            along = (tuft + 0.5 - 0.5 * cos(angle)) / count
            points.append(_along(box, along, 0.8 - 0.6 * sin(angle)))
    return tuple(points)


def _fence(box: Box) -> tuple[Line, ...]:
    wide = max(box.width, box.length)
    count = max(2, round(wide / 2))
    posts = tuple((_along(box, n / count, 0.0), _along(box, n / count, 1.0)) for n in range(count + 1))
    return ((_along(box, 0, 0.5), _along(box, 1, 0.5)), *posts)


def _crown(box: Box) -> Line:
    """A round outline that goes in and out."""
    x, y = box.middle
    points = []
    for step in range(49):
        angle = 2 * pi * step / 48
        bulge = 1 - 0.12 * abs(sin(angle * 4))
        points.append((x + box.width / 2 * bulge * cos(angle), y + box.length / 2 * bulge * sin(angle)))
    return tuple(points)


def _ridge(box: Box) -> tuple[Line, ...]:
    """A hipped roof from above."""
    near, far = _along(box, 0.25, 0.5), _along(box, 0.75, 0.5)
    return (
        (near, far),
        (_along(box, 0, 0), near, _along(box, 0, 1)),
        (_along(box, 1, 0), far, _along(box, 1, 1)),
    )


def _bays(box: Box) -> tuple[Line, ...]:
    return tuple((_along(box, part, 0), _along(box, part, 1)) for part in (1 / 3, 2 / 3))


def _planks(box: Box) -> tuple[Line, ...]:
    return tuple((_along(box, 0, part), _along(box, 1, part)) for part in (1 / 3, 2 / 3))
