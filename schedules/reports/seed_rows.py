"""Seed and plants drawn to scale: how deep seed lies, how far apart plants stand, which seedlings go.

A bar or a ruler in each drawing has a stated length, so that it is right at any size of paper.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import fonts, ink

TEXT = 12.0
_LEADING = 14.5
_DEPTH = 86.0  # units that the deepest seed lies under the ground
_AXIS = 46.0
_NAME_LINES = 5
_SEED = 3.4
_ROW = 46.0
_PLANT = 9.0  # the largest radius of a plant


@dataclass(frozen=True, slots=True)
class Depth:
    """Seed that lies so many metres deep, in words, and what is sown so deep."""

    metres: float
    text: str
    crops: str


@dataclass(frozen=True, slots=True)
class Spaced:
    """A row of one crop: how far apart its plants stand in the end, in metres, and that in words."""

    name: str
    metres: float
    text: str


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark of a ruler: how far along, and its words, if any."""

    metres: float
    text: str = ""


def depths(sown: Sequence[Depth], ticks: Sequence[Tick], width: float) -> Drawing:
    """The ground from the side: seed by seed at its depth, with a ruler of depth on the left."""
    deepest = 1.08 * max(ticks[-1].metres, max(one.metres for one in sown))  # some ground below the last seed
    scale = _DEPTH / deepest
    share = (width - _AXIS) / len(sown)
    named = [
        fonts.wrapped(fonts.legible(one.crops), TEXT, (share - 8) / ink.SLACK, _NAME_LINES) for one in sown
    ]
    foot = max(map(len, named)) * _LEADING + 10
    ground = foot + _DEPTH
    drawing = Drawing(width, ground + 2 * _LEADING)
    shapes: list[Shape] = [
        ink.box(_AXIS, foot, width - _AXIS, _DEPTH, ink.SHADE),
        *_ruler_down(ticks, ground, scale),
        ink.line((_AXIS, ground), (width, ground), width=1.6),
    ]
    for n, (one, lines) in enumerate(zip(sown, named, strict=True)):
        middle, y = _AXIS + (n + 0.5) * share, ground - one.metres * scale
        shapes.append(ink.line((middle, ground), (middle, y), ink.QUIET, 0.8))
        shapes.append(ink.dot(middle, y, _SEED))
        shapes.append(ink.words(middle, ground + 6, one.text, TEXT, anchor="middle", font=fonts.BOLD))
        shapes += [
            ink.words(middle, foot - 12 - k * _LEADING, line, TEXT, color=ink.QUIET, anchor="middle")
            for k, line in enumerate(lines)
        ]
    return _with(drawing, shapes)


def _ruler_down(ticks: Sequence[Tick], ground: float, scale: float) -> Iterator[Shape]:
    for tick in ticks:
        y = ground - tick.metres * scale
        yield ink.line((_AXIS - 6, y), (_AXIS, y), ink.QUIET, 0.8)
        if tick.text:
            yield ink.words(_AXIS - 8, y - TEXT * 0.35, tick.text, TEXT, color=ink.QUIET, anchor="end")
    yield ink.line((_AXIS, ground), (_AXIS, ground - ticks[-1].metres * scale), ink.QUIET, 0.8)


def spacings(rows: Sequence[Spaced], ticks: Sequence[Tick], width: float) -> Drawing:
    """Rows from above, each with its name, over one ruler; plants touch their own room at most."""
    length = ticks[-1].metres
    scale = (width - 2 * _PLANT) / length
    foot = 2 * _LEADING
    drawing = Drawing(width, foot + _ROW * len(rows))
    shapes = list(_ruler_along(ticks, foot - 6, scale))
    for n, row in enumerate(rows):
        y = foot + _ROW * (len(rows) - 1 - n) + 12
        radius = max(1.3, min(_PLANT, row.metres * scale * 0.42))
        shapes.append(ink.line((0, y), (width, y), ink.RULE, 0.5))
        shapes += [ink.dot(x, y, radius, ink.PAPER, ink.INK) for x in _along(row.metres, length, scale)]
        shapes.append(ink.words(0, y + _PLANT + 5, row.name, TEXT, font=fonts.BOLD))
        beside = fonts.width_of(fonts.legible(row.name), TEXT, fonts.BOLD) * ink.SLACK + 10
        shapes.append(ink.words(beside, y + _PLANT + 5, row.text, TEXT, color=ink.QUIET))
    return _with(drawing, shapes)


def thinned(close: float, final: float, ticks: Sequence[Tick], width: float) -> Drawing:
    """One row twice: as it came up, with strokes through what is cut, and as it is left; metres apart."""
    length = ticks[-1].metres
    scale = (width - 2 * _PLANT) / length
    foot = 2 * _LEADING
    drawing = Drawing(width, foot + 2 * _ROW)
    shapes = list(_ruler_along(ticks, foot - 6, scale))
    above, below = foot + _ROW + 16, foot + 16
    for y in (above, below):
        shapes.append(ink.line((0, y), (width, y), ink.RULE, 0.5))
    sown = list(_along(close, length, scale))
    left = list(_along(final, length, scale))
    # Those nearest to the final places stay.
    kept = {_nearest(place, sown) for place in left}
    for x in left:
        shapes += _seedling(x, below, 22.0)
    for x in sown:
        shapes += _seedling(x, above, 13.0)
        if x not in kept:
            shapes.append(ink.line((x - 4, above - 3), (x + 4, above + 14), ink.INK, 1.1))
    return _with(drawing, shapes)


def _nearest(place: float, others: Sequence[float]) -> float:
    return min(others, key=lambda x: abs(x - place))


def _seedling(x: float, y: float, height: float) -> list[Shape]:
    """A stem with two leaves."""
    top, leaf = y + height, height * 0.36
    return [
        ink.line((x, y), (x, top - leaf), ink.INK, 0.9),
        ink.strokes([[(x - leaf, top), (x, top - leaf), (x + leaf, top)]], ink.INK, 1.2),
    ]


def _along(apart: float, length: float, scale: float) -> Iterator[float]:
    """Places so far apart along a row, half a distance free at its beginning."""
    count = max(1, round(length / apart))
    for n in range(count):
        at = (n + 0.5) * apart
        if at <= length:
            yield _PLANT + at * scale


def _ruler_along(ticks: Sequence[Tick], y: float, scale: float) -> Iterator[Shape]:
    yield ink.line((_PLANT, y), (_PLANT + ticks[-1].metres * scale, y), ink.QUIET, 0.8)
    for tick in ticks:
        x = _PLANT + tick.metres * scale
        yield ink.line((x, y), (x, y - 5), ink.QUIET, 0.8)
        if tick.text:
            anchor = "end" if tick is ticks[-1] else "middle"
            yield ink.words(x, y - 5 - TEXT, tick.text, TEXT, color=ink.QUIET, anchor=anchor)
    yield ink.line((_PLANT, y), (_PLANT, y - 5), ink.QUIET, 0.8)


def _with(drawing: Drawing, shapes: Sequence[Shape]) -> Drawing:
    for shape in shapes:
        drawing.add(shape)
    return drawing
