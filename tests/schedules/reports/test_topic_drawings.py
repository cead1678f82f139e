"""Drawings of handouts stay inside their width, on a phone as in large letters and across a sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

import pytest
from reportlab.graphics.shapes import Circle, Drawing, Line, Path, PolyLine, Shape

from schedules.reports.bag_label import bag_label
from schedules.reports.bed_plan import BedPlan, PlanRow, bed_plan
from schedules.reports.plant_look import plant_look
from schedules.reports.sampling_sketch import sampling_sketch
from schedules.reports.sections import finger_test, heap, kinds_of_beds, mulch_ring, new_ground
from schedules.reports.shadow_picture import shadow_picture

SHADOWS = ((0.2, "8 in"), (0.21, "8 in"), (3.0, "10 ft"), (40.0, "131 ft"))
ROWS = tuple(
    PlanRow(f"A crop with a long name, and its kind {n}", 0.08 + 0.16 * n, 3 + 40 * n) for n in range(7)
)
PLAN = BedPlan(((0.0, 1.22),), 2.44, ROWS, "8 ft", "4 ft")
WIDE = BedPlan(((0.0, 1.3), (1.75, 3.05)), 6.1, ROWS, "20 ft", "10 ft", north_up=False)
DRAWINGS: dict[str, Callable[[float], Drawing]] = {
    "bag": partial(bag_label, (5, 10, 5)),
    "bag with nothing but nitrogen": partial(bag_label, (46, 0, 0)),
    "plan": partial(bed_plan, PLAN),
    "plan of a wide plot": partial(bed_plan, WIDE),
    "plan without rows": partial(bed_plan, BedPlan(((0.0, 1.2),), 2.4, (), "2.4 m", "1.2 m")),
    "plant": plant_look,
    "sample": partial(sampling_sketch, 12),
    "finger": finger_test,
    "heap": heap,
    "kinds": kinds_of_beds,
    "mulch": mulch_ring,
    "new ground": new_ground,
    "shadows": partial(shadow_picture, 1.8, SHADOWS),
    "no shadows": partial(shadow_picture, 1.8, ()),
}  # fmt: skip


def points(shape: Shape) -> Iterator[tuple[float, float]]:
    if isinstance(shape, Line):
        yield from ((shape.x1, shape.y1), (shape.x2, shape.y2))
    elif isinstance(shape, (Path, PolyLine)):
        yield from zip(shape.points[::2], shape.points[1::2], strict=True)
    elif isinstance(shape, Circle):
        yield from ((shape.cx - shape.r, shape.cy - shape.r), (shape.cx + shape.r, shape.cy + shape.r))


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_stays_inside(name: str) -> None:
    for width in (340.0, 420.0, 790.0):
        drawing = DRAWINGS[name](width)
        assert drawing.width == width
        outside = [
            (round(x), round(y))
            for shape in drawing.contents
            for x, y in points(shape)
            if not (-0.5 <= x <= width + 0.5 and -0.5 <= y <= drawing.height + 0.5)
        ]
        assert outside == [], width


def test_a_drawing_is_the_same_each_time() -> None:
    first, second = ([list(points(shape)) for shape in heap(420).contents] for _ in range(2))
    assert first == second
