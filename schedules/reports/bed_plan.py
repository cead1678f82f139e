"""A plan of beds as a gardener sketches it: beds from above, names of crops along their rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from django.utils.translation import pgettext
from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import fonts, ink
from schedules.reports.ruler import TEXT

# Units between two rows, and above the first of a bed, so that names stand clear.
_CLOSEST, _ABOVE = 26.0, 19.0
_MOST_MARKS = 60
_PATH = 32.0
_HEAD, _FOOT, _SIDE = 8.0, 28.0, 44.0
_TALLEST = 250.0


@dataclass(frozen=True, slots=True)
class PlanRow:
    """A row, its middle in metres from the top edge of the plan, and its plants so far apart."""

    name: str
    middle_m: float
    plants: int


@dataclass(frozen=True, slots=True)
class BedPlan:
    """Beds one below the other, from (top, bottom) in metres; `north_up` unless the top edge is the south.

    `length` and `width` say how long the sides are, in words.
    """

    beds: tuple[tuple[float, float], ...]
    length_m: float
    rows: tuple[PlanRow, ...]
    length: str
    width: str
    north_up: bool = True


def bed_plan(plan: BedPlan, width: float) -> Drawing:
    """The plan `width` units wide; to scale along the rows, and across where the rows stand wide enough."""
    across = width - _SIDE - 1
    whole = sum(end - start for start, end in plan.beds)
    down = max(_needed(plan), min(across / plan.length_m, _TALLEST / whole))
    along = min(across, down * plan.length_m)
    high = whole * down + (len(plan.beds) - 1) * _PATH
    drawing = Drawing(width, high + _HEAD + _FOOT)
    top = drawing.height - _HEAD
    for shape in [
        *_beds(plan, along, top, down),
        *_sides(plan, along, top - high),
        *_arrow(along + 26, top, north_up=plan.north_up),
    ]:
        drawing.add(shape)
    return drawing


def _needed(plan: BedPlan) -> float:
    """Units to the metre that keep the closest two rows apart."""
    middles = sorted(row.middle_m for row in plan.rows)
    between = min((after - before for before, after in pairwise(middles) if after > before), default=1.0)
    above = [middle - start for middle in middles for start, end in plan.beds if start < middle < end]
    return max(_CLOSEST / between, _ABOVE / min(above, default=1.0))


def _beds(plan: BedPlan, along: float, top: float, down: float) -> list[Shape]:
    """The beds with their rows, paths between them, which are not to scale."""
    shapes: list[Shape] = []
    for n, (start, end) in enumerate(plan.beds):
        if n:
            word = pgettext("between two beds", "path")
            shapes.append(ink.words(8, top - _PATH / 2 - TEXT * 0.35, word, TEXT, color=ink.QUIET))
            top -= _PATH
        bottom = top - (end - start) * down
        corners = [(0.8, top), (along, top), (along, bottom), (0.8, bottom), (0.8, top)]
        shapes.append(ink.polyline(corners, width=1.6))
        rows = [row for row in plan.rows if start < row.middle_m < end]
        shapes += _rows(rows, along, top + start * down, down)
        top = bottom
    return shapes


def _rows(rows: Sequence[PlanRow], along: float, top: float, down: float) -> list[Shape]:
    shapes: list[Shape] = []
    for row in rows:
        y = top - row.middle_m * down
        left, right = 8.0, along - 8
        shapes.append(ink.line((left, y), (right, y), ink.QUIET, 0.7))
        marks = min(row.plants, _MOST_MARKS)
        places = [left + (right - left) * (at + 0.5) / marks for at in range(marks)]
        shapes.append(ink.strokes([[(x, y), (x, y - 5)] for x in places], width=1.1))
        name = fonts.shortened(row.name, TEXT, 0.6 * along)
        shapes.append(ink.words(left + 4, y + 4, name, TEXT))
    return shapes


def _sides(plan: BedPlan, along: float, bottom: float) -> list[Shape]:
    """Both sides in words, below."""
    words = f"{plan.length} × {plan.width}"
    y = bottom - 12
    ends = [[(0.8, y + 3), (0.8, y - 3)], [(along, y + 3), (along, y - 3)], [(0.8, y), (along, y)]]
    room = fonts.width_of(words, TEXT) * ink.SLACK + 12
    return [
        ink.strokes(ends, ink.QUIET, 0.7),
        ink.box((along - room) / 2, y - 8, room, 16),
        ink.words(along / 2, y - TEXT * 0.35, words, TEXT, anchor="middle"),
    ]


def _arrow(x: float, top: float, *, north_up: bool) -> list[Shape]:
    """North: an arrow that points up or down the page."""
    letter = pgettext("the letter of north on a plan", "N")
    tip, tail = (top - 20, top - 62) if north_up else (top - 62, top - 20)
    barb = 9 if north_up else -9
    return [
        ink.strokes([[(x, tail), (x, tip)], [(x - 5, tip - barb), (x, tip), (x + 5, tip - barb)]], width=1.6),
        ink.words(
            x, top - 14 if north_up else top - 62 - TEXT - 2, letter, TEXT, anchor="middle", font=fonts.BOLD
        ),
    ]
