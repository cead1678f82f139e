from datetime import date

import pytest
from reportlab.graphics.shapes import Circle, Line, Path, PolyLine, String

from schedules.reports import ink
from schedules.reports.frost_chart import frost_chart
from schedules.reports.season import FrostChart, FrostCurve, FrostPoint
from tests.schedules.reports.samples import curve
from tests.schedules.reports.test_season_strip import extent

HEADING = "Share of years with a freeze on or after the day"
THREE = (curve("32 °F"), curve("28 °F", later=-15), curve("24 °F", later=-30, years=6))


def chart(*curves: FrostCurve, marker: date | None = None, text: str = "") -> FrostChart:
    return FrostChart(HEADING, curves, falling=True, marker=marker, marker_text=text)


def of_type(drawing, kind):
    return [shape for shape in drawing.contents if isinstance(shape, kind)]


@pytest.mark.parametrize("width", [360, 760])
def test_nothing_leaves_the_drawing(width):
    drawing = frost_chart(chart(*THREE, marker=date(2026, 5, 10), text="10 May: 49 %"), width)
    for shape in drawing.contents:
        left, bottom, right, top = extent(shape)
        assert 0 <= left <= right <= width
        assert 0 <= bottom <= top <= drawing.height


@pytest.mark.parametrize("width", [360, 760])
def test_each_threshold_has_its_own_line_and_its_name_on_it(width):
    drawing = frost_chart(chart(*THREE), width)
    lines = of_type(drawing, PolyLine)
    assert len({tuple(line.strokeDashArray or ()) for line in lines}) == 3
    names = {s.text: s for s in of_type(drawing, String) if s.fontName == "Fira-Bold"}
    assert list(names) == ["32 °F", "28 °F", "24 °F"]
    for line, name in zip(lines, names.values(), strict=True):
        near = [
            abs(y - name.y)
            for x, y in zip(line.points[::2], line.points[1::2], strict=True)
            if abs(x - name.x) < 5
        ]
        assert min(near) < 12


def test_every_year_is_a_dot_of_its_thresholds_kind():
    drawing = frost_chart(chart(*THREE), 760)
    circles = of_type(drawing, Circle)
    assert len([c for c in circles if c.fillColor == ink.QUIET]) == 9
    assert len([c for c in circles if c.fillColor == ink.PAPER]) == 9
    assert len(of_type(drawing, Path)) == 6


def test_a_dot_stands_at_its_day_and_rank():
    only = FrostCurve("32 °F", THREE[0].points, (date(2026, 5, 16),), seasons=1)
    drawing = frost_chart(chart(only), 760)
    (dot,) = of_type(drawing, Circle)
    (line,) = of_type(drawing, PolyLine)
    middle = line.points[90:92]  # the 46th of 91 days: 16 May, one half
    assert (dot.cx, dot.cy) == pytest.approx(tuple(middle))


def test_the_marker_rings_the_curve_where_it_crosses():
    drawing = frost_chart(chart(THREE[0], marker=date(2026, 5, 16), text="16 May: 50 %"), 760)
    (ring,) = [c for c in of_type(drawing, Circle) if c.strokeColor == ink.INK]
    (line,) = of_type(drawing, PolyLine)
    assert (ring.cx, ring.cy) == pytest.approx(tuple(line.points[90:92]))
    assert "16 May: 50 %" in [s.text for s in of_type(drawing, String)]


def test_a_marker_beside_the_curves_widens_the_chart():
    drawing = frost_chart(chart(THREE[0], marker=date(2026, 9, 10), text="10 September: none"), 760)
    upright = [s for s in of_type(drawing, Line) if s.x1 == s.x2 and s.strokeWidth == 1.2]
    assert len(upright) == 1
    assert "Sep" in [s.text for s in of_type(drawing, String)]
    assert not [c for c in of_type(drawing, Circle) if c.strokeColor == ink.INK]


def test_a_place_that_rarely_freezes_is_drawn_as_low_as_its_share():
    seldom = FrostCurve(
        "24 °F", tuple(FrostPoint(p.day, p.chance * 0.2) for p in THREE[0].points), THREE[0].years[:2], 9
    )
    (line,) = of_type(frost_chart(chart(seldom), 760), PolyLine)
    floor = min(line.points[1::2])
    assert max(line.points[1::2]) - floor == pytest.approx(0.2 * 300)


def test_a_curve_without_years_is_drawn_without_dots():
    assumed = FrostCurve("32 °F", THREE[0].points)
    drawing = frost_chart(chart(assumed), 360)
    assert len(of_type(drawing, PolyLine)) == 1
    assert of_type(drawing, Circle) == []


def test_a_long_heading_wraps():
    long = FrostChart(HEADING + ", at Mill Bridge and in the garden, one degree colder", THREE, falling=True)
    headings = [s for s in of_type(frost_chart(long, 360), String) if s.x == 0]
    assert len(headings) > 1
    assert " ".join(s.text for s in headings) == long.heading
