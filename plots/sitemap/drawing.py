"""The site as a gardener sketches it: from above, north marked, ruled lines, each plot's label along it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import cos, radians, sin

from plots.sitemap import features
from plots.sitemap.boxes import Box, extent
from plots.sitemap.names import Lined
from plots.sketch import Ground, Pen, Point, Ring, Shape, Sketch, Strokes, Thing, Words, closed

SMALLEST = 4.0  # metres: an empty site is drawn this large
LETTER_WIDTH = 0.62  # of a character, as a share of its height


class Outline(StrEnum):
    """How a plot is ruled, which says whose it is."""

    PERSONAL = "personal"
    COMMUNAL = "communal"
    GIVE_AWAY = "give_away"
    RETIRED = "retired"


@dataclass(frozen=True, slots=True)
class PlotDrawn:
    """A plot as the map shows it; `free` puts a ring, `own` a line under its label."""

    key: str
    label: str
    name: str
    box: Box
    outline: Outline = Outline.PERSONAL
    accessible: bool = False
    free: bool = False
    own: bool = False
    address: str = ""


@dataclass(frozen=True, slots=True)
class FeatureDrawn:
    key: str
    kind: str
    label: str
    name: str
    box: Box
    accessible: bool = False
    address: str = ""


@dataclass(frozen=True, slots=True)
class SiteDrawn:
    """All that the map shows.

    `north` is in degrees clockwise from straight up, and `north_letter` stands at the arrow's head; `bar` is
    the length of the scale in metres with what is written on it.
    """

    plots: Sequence[PlotDrawn]
    features: Sequence[FeatureDrawn]
    width: float | None = None
    length: float | None = None
    north: float = 0.0
    north_letter: str = "N"
    bar: tuple[float, str] = (5.0, "5 m")


def site_sketch(site: SiteDrawn) -> Sketch:
    """The whole map with a margin, and under it the scale and the north arrow."""
    width, length = site_size(site)
    unit = max(width, length * 0.6) / 40
    margin = 1.2 * unit
    foot = 5.5 * unit
    around = _edge(site)
    around += _scale_bar(site.bar, (0.0, length + margin + 2.4 * unit), unit)
    around += _north(site.north, site.north_letter, (width - 2 * unit, length + margin + 2.2 * unit), unit)
    drawn = _features(site)
    drawn += [_plot(plot) for plot in site.plots]
    return Sketch(
        -margin, -margin, width + 2 * margin, length + 2 * margin + foot, tuple(drawn), tuple(around)
    )


def _edge(site: SiteDrawn) -> list[Shape]:
    """The edge of the site, where its size is known; things may lie beyond it."""
    if site.width is None or site.length is None:
        return []
    corners = ((0.0, 0.0), (site.width, 0.0), (site.width, site.length), (0.0, site.length))
    return [Strokes(closed(corners), Pen.THIN)]


def site_size(site: SiteDrawn) -> tuple[float, float]:
    """How much ground the map shows: the site, and anything that lies outside it."""
    boxes = [*(plot.box for plot in site.plots), *(feature.box for feature in site.features)]
    far_right, far_down = extent(boxes)
    return max(site.width or 0, far_right, SMALLEST), max(site.length or 0, far_down, SMALLEST)


def round_length(longest: float, unit: float = 1.0) -> float:
    """The longest round number of units (1, 2, 5, 10, 20, …) that fits into `longest` metres, in metres.

    >>> round_length(9), round(round_length(9, 0.3048) / 0.3048, 6)
    (5.0, 20.0)
    """
    best, step = unit, unit
    while step <= longest:
        for times in (1, 2, 5):
            if step * times <= longest:
                best = step * times
        step *= 10
    return best


def plot_shapes(plot: PlotDrawn) -> tuple[Shape, ...]:
    """A plot's outline, its posts if it can be gardened from a wheelchair, and its label along it."""
    box, corners = plot.box, plot.box.corners()
    small = min(box.width, box.length)
    pen = {Outline.GIVE_AWAY: Pen.BROKEN, Outline.RETIRED: Pen.DOTTED}.get(plot.outline, Pen.FIRM)
    past = 0.04 * small if pen is Pen.FIRM else 0.0
    shapes: list[Shape] = [Ground(corners), Strokes(closed(corners, past), pen)]
    if plot.outline == Outline.COMMUNAL:
        shapes.append(Strokes(closed(_inner(box, 0.09 * small)), Pen.THIN))
    if plot.accessible:
        shapes.append(Strokes(_posts(box, 0.24 * small), Pen.HEAVY))
    return (*shapes, *_label(plot, small))


def _plot(plot: PlotDrawn) -> Thing:
    return Thing(plot.key, plot.name, plot_shapes(plot), plot.box.left, plot.box.top, plot.address)


def _features(site: SiteDrawn) -> list[Thing]:
    """Each with its name where it crosses fewest lines: of the site's edge, plots and other things."""
    edge = [Lined((0.0, 0.0, site.width, site.length), open=True)] if site.width and site.length else []
    plots = [Lined(plot.box.reach()) for plot in site.plots]
    lines = {one.key: features.feature_lines(one.kind, one.box, one.label) for one in site.features}
    drawn = []
    for one in sorted(site.features, key=_lies_low):
        others = [line for key, found in lines.items() if key != one.key for line in found]
        words = features.feature_words(one.kind, one.box, one.label, [*edge, *plots, *others])
        shapes = features.feature_shapes(one.kind, one.box, accessible=one.accessible)
        drawn.append(Thing(one.key, one.name, (*shapes, *words), one.box.left, one.box.top, one.address))
    return drawn


def _lies_low(feature: FeatureDrawn) -> int:
    """Paths lie under everything that stands."""
    return 0 if feature.kind == "path" else 1


def _inner(box: Box, by: float) -> tuple[Point, ...]:
    right, down = box.width - by, box.length - by
    return box.at(by, by), box.at(right, by), box.at(right, down), box.at(by, down)


def _posts(box: Box, arm: float) -> tuple[tuple[Point, ...], ...]:
    """An angle at each corner."""
    found = []
    for across, down, to_right, to_foot in (
        (0.0, 0.0, 1, 1), (box.width, 0.0, -1, 1), (box.width, box.length, -1, -1), (0.0, box.length, 1, -1),
    ):  # fmt: skip
        found.append(
            (
                box.at(across + arm * to_right, down),
                box.at(across, down),
                box.at(across, down + arm * to_foot),
            )
        )
    return tuple(found)


def _label(plot: PlotDrawn, small: float) -> list[Shape]:
    """The label along the longer side, upright enough to read, with its ring or line."""
    box = plot.box
    upright = box.length > box.width
    turn = (box.turn + (-90 if upright else 0)) % 360
    if 90 < turn < 270:
        turn -= 180
    along = max(box.width, box.length) * (0.66 if plot.free else 0.84)
    size = round(min(0.52 * small, along / (LETTER_WIDTH * max(len(plot.label), 1))), 3)
    retired = plot.outline == Outline.RETIRED
    words = Words(box.middle, plot.label, size, turn, bold=plot.own, quiet=retired)
    half = LETTER_WIDTH * size * len(plot.label) / 2
    shapes: list[Shape] = [words]
    if plot.free:
        shapes.append(Ring(_beside(box.middle, turn, half + 0.5 * size, 0), 0.17 * size, Pen.FIRM))
    if plot.own:
        line = (_beside(box.middle, turn, -half, 0.56 * size), _beside(box.middle, turn, half, 0.56 * size))
        shapes.append(Strokes((line,), Pen.HEAVY))
    return shapes


def _beside(middle: Point, turn: float, along: float, under: float) -> Point:
    cosine, sine = cos(radians(turn)), sin(radians(turn))
    return middle[0] + along * cosine - under * sine, middle[1] + along * sine + under * cosine


def _scale_bar(bar: tuple[float, str], start: Point, unit: float) -> list[Shape]:
    length, text = bar
    x, y = start
    tick = 0.45 * unit
    ends = tuple(((x + part * length, y - tick), (x + part * length, y)) for part in (0, 0.5, 1))
    size = 1.15 * unit
    where = (x + max(length / 2, LETTER_WIDTH * size * len(text) / 2), y + 1.1 * unit)
    return [Strokes((((x, y), (x + length, y)), *ends), Pen.FIRM), Words(where, text, size)]


def _north(degrees: float, letter: str, middle: Point, unit: float) -> list[Shape]:
    """An arrow that points north, half of its head drawn, with its letter before it."""

    def turned(along: float, across: float) -> Point:
        sine, cosine = sin(radians(degrees)), cos(radians(degrees))
        return middle[0] + along * sine + across * cosine, middle[1] - along * cosine + across * sine

    tip, tail = turned(1.5 * unit, 0), turned(-1.9 * unit, 0)
    head = (tip, turned(0.4 * unit, 0.55 * unit), turned(0.65 * unit, 0))
    return [
        Strokes(((tail, tip), head), Pen.FIRM),
        Words(turned(2.35 * unit, 0), letter, 1.15 * unit),
    ]
