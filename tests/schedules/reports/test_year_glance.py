"""A year's drawing read back as shapes: a mark a day, each work by its own shape, nothing outside."""

from datetime import date, timedelta

import pytest
from reportlab.graphics.shapes import Line, Path

from schedules.reports import ink
from schedules.reports.day_marks import SIGNS, day_mark
from schedules.reports.year_glance import GlanceRow, YearGlance, year_glance
from schedules.work import Work
from tests.schedules.reports.test_season_strip import extent, texts

FIRST, LAST = date(2026, 1, 1), date(2026, 12, 31)
EDGES = (FIRST, date(2026, 6, 15), LAST)
LONG = "Hours for the garden and for whatever else there may be"


def glance(today: date | None = None) -> YearGlance:
    rows = tuple(GlanceRow(str(work), f"{LONG} {work}", EDGES) for work in Work)
    return YearGlance(rows, FIRST, LAST, today)


@pytest.mark.parametrize("width", [360, 760])
def test_nothing_leaves_the_drawing(width):
    drawing = year_glance(glance(LAST), width)
    for shape in drawing.contents:
        left, bottom, right, top = extent(shape)
        assert left >= -0.01, shape
        assert bottom >= 0, shape
        assert right <= width + 0.01, shape
        assert top <= drawing.height, shape
    assert [one.text for one in texts(drawing)].count("3") == len(Work)


def test_a_long_name_gets_the_room_it_needs_within_bounds():
    rows = (GlanceRow("hours", "Hours for the garden", EDGES),)
    shown = [one.text for one in texts(year_glance(YearGlance(rows, FIRST, LAST), 760))]
    assert "Hours for the garden" in shown
    assert not any(one.text.startswith(LONG) for one in texts(year_glance(glance(), 760)))


def test_each_day_has_its_mark_where_the_day_stands():
    days = tuple(FIRST + timedelta(days=n) for n in (40, 80, 200))
    drawing = year_glance(YearGlance((GlanceRow("water", "Watered", days),), FIRST, LAST), 760)
    strokes = [shape.x1 for shape in drawing.contents if isinstance(shape, Line) and shape.strokeWidth == 1.6]
    day_width = (759.5 - 190) / 365
    assert strokes == pytest.approx([190 + (n + 0.5) * day_width for n in (40, 80, 200)])


def test_every_kind_of_work_has_a_shape_of_its_own():
    def drawn(work: Work) -> tuple[object, ...]:
        return tuple(
            (type(shape).__name__, *extent(shape), getattr(shape, "strokeWidth", 0),
             tuple(shape.points) if isinstance(shape, Path) else ())
            for shape in day_mark(work, 50, 50)
        )  # fmt: skip

    assert len({drawn(work) for work in Work}) == len(Work)
    assert set(SIGNS) < {str(work) for work in Work}
    assert {getattr(shape, "strokeColor", None) for work in Work for shape in day_mark(work, 50, 50)} <= {
        ink.INK,
        None,
    }
