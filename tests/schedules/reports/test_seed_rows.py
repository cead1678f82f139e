"""Seed and plants stand to the scale of the ruler in their own drawing."""

from __future__ import annotations

from itertools import pairwise

import pytest
from reportlab.graphics.shapes import Circle, Drawing, Line, String

from schedules.reports.seed_rows import Depth, Spaced, Tick, depths, spacings, thinned

INCH = 0.0254
WIDTHS = (260.0, 520.0)


def marks(drawing: Drawing) -> dict[str, Line]:
    """The marks of the ruler by the words beside them: those that start where the words stand nearest."""
    found = {}
    lines = [shape for shape in drawing.contents if isinstance(shape, Line)]
    for words in drawing.contents:
        if isinstance(words, String) and words.text.endswith(" in"):
            near = [one for one in lines if abs(one.x1 - one.x2) == 6 and abs(one.y1 - words.y) < 5]
            if near and words.textAnchor == "end":
                found[words.text] = near[0]
    return found


@pytest.mark.parametrize("width", WIDTHS)
def test_seed_lies_as_deep_as_the_ruler_says(width: float) -> None:
    ticks = [Tick(n * INCH, f"{n} in") for n in (1, 2, 3)]
    sown = [Depth(0.5 * INCH, "1/2 in", "Beet"), Depth(2 * INCH, "2 in", "Garlic")]
    drawing = depths(sown, ticks, width)
    shallow, deep = (shape.cy for shape in drawing.contents if isinstance(shape, Circle))
    ruler = marks(drawing)
    inch = ruler["1 in"].y1 - ruler["2 in"].y1
    assert deep == pytest.approx(ruler["2 in"].y1)
    assert shallow - deep == pytest.approx(1.5 * inch)


@pytest.mark.parametrize("width", WIDTHS)
def test_plants_stand_as_far_apart_as_the_ruler_says(width: float) -> None:
    ticks = [Tick(n * 12 * INCH, f"{n} ft") for n in (1, 2, 3, 4)]
    rows = [Spaced("Radish", 2 * INCH, "2 in apart"), Spaced("Squash", 24 * INCH, "24 in apart")]
    drawing = spacings(rows, ticks, width)
    rulers = [one for one in drawing.contents if isinstance(one, Line) and one.y1 == one.y2]
    foot = (rulers[0].x2 - rulers[0].x1) / 4
    by_row: dict[float, list[float]] = {}
    for shape in drawing.contents:
        if isinstance(shape, Circle):
            by_row.setdefault(shape.cy, []).append(shape.cx)
    close, far = (by_row[y] for y in sorted(by_row, reverse=True))
    assert {round((after - before) / foot, 6) for before, after in pairwise(close)} == {round(2 / 12, 6)}
    assert {round((after - before) / foot, 6) for before, after in pairwise(far)} == {2.0}
    assert all(0 <= x <= width for x in (*close, *far))


def test_what_is_cut_out_is_struck_through_and_the_rest_is_left() -> None:
    drawing = thinned(INCH, 4 * INCH, [Tick(24 * INCH, "24 in")], 520.0)
    struck = [one for one in drawing.contents if isinstance(one, Line) and one.x2 - one.x1 == 8]
    assert len(struck) == 18  # of 24 seedlings an inch apart six stay, four inches apart
