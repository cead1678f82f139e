"""The strip read back as shapes: where marks stand, what is written, that nothing leaves the drawing."""

from dataclasses import replace
from datetime import date

import pytest
from reportlab.graphics.shapes import Circle, Drawing, Line, Path, PolyLine, Rect, String

from schedules.reports import fonts, ink, marks
from schedules.reports.ruler import Ruler
from schedules.reports.season import FrostPoint, SeasonStrip, StripRow
from schedules.reports.season_strip import key_to_marks, lanes_of, season_strip
from tests.schedules.reports.samples import GARLIC, OPERATIONS, TOMATO, falling_frost, mark, strip

WIDTHS = (360, 760)
LONG = "Brussels sprouts, ‘Long Island Improved’ from the seed swap of the year before last"


def extent(shape) -> tuple[float, float, float, float]:
    """Left, bottom, right, top; text as wide as the page's own fonts may make it."""
    if isinstance(shape, Line):
        xs, ys = (shape.x1, shape.x2), (shape.y1, shape.y2)
    elif isinstance(shape, Path | PolyLine):
        xs, ys = shape.points[::2], shape.points[1::2]
    elif isinstance(shape, Circle):
        xs, ys = (shape.cx - shape.r, shape.cx + shape.r), (shape.cy - shape.r, shape.cy + shape.r)
    elif isinstance(shape, Rect):
        xs, ys = (shape.x, shape.x + shape.width), (shape.y, shape.y + shape.height)
    else:
        run = fonts.width_of(shape.text, shape.fontSize, shape.fontName)
        left = shape.x - {"start": 0, "middle": run / 2, "end": run}[shape.textAnchor]
        xs, ys = (left, left + run), (shape.y - 3, shape.y + shape.fontSize)
    return min(xs), min(ys), max(xs), max(ys)


def texts(drawing: Drawing) -> list[String]:
    return [shape for shape in drawing.contents if isinstance(shape, String)]


def bars(drawing: Drawing) -> list[Line]:
    """Harvests are the only lines as thick as that."""
    return [shape for shape in drawing.contents if isinstance(shape, Line) and shape.strokeWidth > 6]


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_leaves_the_drawing(width):
    drawing = season_strip(strip(TOMATO, GARLIC, StripRow(LONG, TOMATO.marks)), width)
    for shape in drawing.contents:
        left, bottom, right, top = extent(shape)
        assert left >= -0.01, shape
        assert bottom >= 0, shape
        assert right <= width + 0.01, shape
        assert top <= drawing.height, shape


@pytest.mark.parametrize("width", WIDTHS)
def test_words_do_not_run_into_each_other(width):
    written = [extent(shape) for shape in texts(season_strip(strip(TOMATO, GARLIC), width))]
    for n, one in enumerate(written):
        for other in written[n + 1 :]:
            apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
            assert apart, (one, other)


def test_a_harvest_lies_between_its_days():
    (bar,) = bars(season_strip(strip(TOMATO), 760))
    ruler = Ruler(date(2026, 1, 1), date(2026, 12, 31), 175, 759.5)
    assert bar.x1 == pytest.approx(ruler.at(date(2026, 7, 20)))
    assert bar.x2 == pytest.approx(ruler.at(date(2026, 10, 3)))


def test_best_days_stand_upright_at_noon():
    drawing = season_strip(strip(StripRow("Pea", (mark("sow", *[(2026, 4, d) for d in (1, 11, 30)]),))), 760)
    ruler = Ruler(date(2026, 1, 1), date(2026, 12, 31), 175, 759.5)
    upright = [s for s in drawing.contents if isinstance(s, Line) and s.x1 == s.x2 and s.strokeWidth == 1.9]
    assert [line.x1 for line in upright] == pytest.approx([ruler.at(date(2026, 4, 11), 0.5)])


def test_a_window_over_new_year_is_one_bar():
    leek = StripRow("Leek", (mark("harvest", (2026, 11, 10), (2026, 12, 1), (2027, 2, 20)),))
    (bar,) = bars(season_strip(strip(leek, first=date(2026, 9, 1), last=date(2027, 8, 31)), 760))
    ruler = Ruler(date(2026, 9, 1), date(2027, 8, 31), 175, 759.5)
    assert (bar.x1, bar.x2) == pytest.approx((ruler.at(date(2026, 11, 10)), ruler.at(date(2027, 2, 21))))


def test_a_southern_season_is_drawn_over_new_year():
    bean = StripRow("Bean", (mark("sow", (2026, 10, 20), (2026, 11, 1), (2027, 1, 10)),))
    drawing = season_strip(strip(bean, first=date(2026, 7, 1), last=date(2027, 6, 30)), 760)
    written = [shape.text for shape in texts(drawing)]
    months = ["Jul", "Aug", "Sep", "Oct", "Nov", "Dec", "Jan", "Feb", "Mar", "Apr", "May", "Jun"]
    assert [text for text in written if text in months] == months
    assert "2027" in written


def test_a_window_that_runs_off_the_strip_is_cut_with_a_chevron():
    """Cut marks leave room for the chevron, and best days outside are not drawn at the edge."""
    garlic = strip(GARLIC, first=date(2026, 7, 1), last=date(2027, 6, 30))
    (bar,) = bars(season_strip(garlic, 760))
    assert bar.x2 == pytest.approx(759.5 - 8)
    uncut = bars(season_strip(strip(GARLIC, first=date(2026, 8, 1), last=date(2027, 7, 31)), 760))
    assert uncut[0].x2 < 759.5 - 15


def test_windows_before_or_after_the_strip_are_left_out():
    early = StripRow("Garlic", (mark("harvest", (2025, 6, 1), (2025, 6, 10), (2025, 6, 20)),))
    assert bars(season_strip(strip(early), 760)) == []


def test_names_stand_above_on_a_phone_and_beside_on_a_wide_page():
    narrow, wide = (season_strip(strip(TOMATO), width) for width in WIDTHS)
    top = {drawing.width: bars(drawing)[0].y1 for drawing in (narrow, wide)}
    name = {d.width: next(s for s in texts(d) if s.text == "Tomato").y for d in (narrow, wide)}
    assert name[360] > top[360] + 5
    assert abs(name[760] - top[760]) < 8


@pytest.mark.parametrize("width", WIDTHS)
def test_a_long_name_is_broken_or_shortened_but_never_clipped(width):
    names = [s for s in texts(season_strip(strip(StripRow(LONG, TOMATO.marks)), width)) if s.x == 0]
    assert names[0].text.startswith("Brussels sprouts")
    assert names[-1].text.endswith("…")
    room = 360 if width == 360 else 165
    assert all(fonts.width_of(s.text, s.fontSize) * ink.SLACK <= room for s in names)


def test_overlapping_operations_take_lanes_and_successions_share_one():
    sowings = [mark("sow", (2026, m, 1), (2026, m, 5), (2026, m + 1, 10)) for m in (4, 5, 6)]
    thinning = mark("thin", (2026, 5, 1), (2026, 5, 5), (2026, 5, 20))
    row = StripRow("Carrot", (*sowings, thinning))
    assert lanes_of(row) == [sowings, [thinning]]
    apart = StripRow("Tomato", TOMATO.marks)
    assert lanes_of(apart) == [list(TOMATO.marks)]


def test_a_succession_is_one_row_of_dots_with_every_best_day():
    sowings = tuple(mark("sow", (2026, m, 1), (2026, m, 5), (2026, m + 1, 10)) for m in (4, 5, 6))
    drawing = season_strip(strip(StripRow("Carrot", sowings)), 760)
    dotted = [s for s in drawing.contents if isinstance(s, Line) and s.strokeLineCap == 1]
    upright = [s for s in drawing.contents if isinstance(s, Line) and s.strokeWidth == 1.9]
    assert (len(dotted), len(upright)) == (1, 3)


def test_the_frost_curve_stands_behind_with_its_middle_day():
    drawing = season_strip(strip(TOMATO), 760)
    order = [type(shape) for shape in drawing.contents]
    assert order.index(Path) == 0  # drawn first: everything else lies over it
    assert "May 16" in [shape.text for shape in texts(drawing)]


def test_no_curve_is_drawn_over_months_of_which_nothing_is_known():
    next_spring = [FrostPoint(p.day.replace(year=2027), p.chance) for p in falling_frost()]
    both = SeasonStrip((), date(2026, 4, 1), date(2027, 6, 30), (*falling_frost(), *next_spring))
    hills = [shape for shape in season_strip(both, 760).contents if isinstance(shape, Path)]
    assert len(hills) == 2
    assert extent(hills[0])[2] < extent(hills[1])[0]


def test_without_frost_or_rows_the_strip_is_still_ruled():
    empty = SeasonStrip((), date(2026, 1, 1), date(2026, 12, 31))
    written = [shape.text for shape in texts(season_strip(empty, 760))]
    assert written == ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


def test_today_is_the_only_accent():
    coloured = [s for s in season_strip(strip(TOMATO), 760).contents if ink.ACCENT in _colours(s)]
    assert sorted(type(shape).__name__ for shape in coloured) == ["Line", "Words"]
    elsewhere = replace(strip(TOMATO), today=date(2030, 1, 1))
    assert not [s for s in season_strip(elsewhere, 760).contents if ink.ACCENT in _colours(s)]


def _colours(shape) -> set:
    return {getattr(shape, "fillColor", None), getattr(shape, "strokeColor", None)}


@pytest.mark.parametrize("operation", OPERATIONS)
@pytest.mark.parametrize("length", [0.0, 1.6, 9.0, 60.0])
def test_marks_stay_within_their_window_and_lane(operation, length):
    shapes = marks.draw(operation, 100, 100 + length, 50)
    assert shapes
    spare = max(0, (marks.SHORTEST - length) / 2) + 3.3
    for shape in shapes:
        left, bottom, right, top = extent(shape)
        assert 100 - spare <= left <= right <= 100 + length + spare
        assert 50 - marks.LANE / 2 <= bottom <= top <= 50 + marks.LANE / 2


def test_marks_differ_in_shape_not_in_colour():
    drawn = {name: marks.draw(name, 0, 60, 8) for name in OPERATIONS}
    assert set(marks.MARKS) == set(OPERATIONS)
    for shapes in drawn.values():
        assert {s.strokeColor for s in shapes} == {ink.INK}
    signatures = {
        tuple((type(s).__name__, s.strokeWidth, bool(s.strokeDashArray), s.strokeLineCap) for s in shapes)
        + tuple(len(getattr(s, "points", [])) for s in shapes)
        for shapes in drawn.values()
    }
    assert len(signatures) == len(OPERATIONS)


def test_the_key_names_every_mark():
    words = [word for _drawing, word in key_to_marks(strip(TOMATO))]
    assert words[:7] == ["start indoors", "harden off", "sow", "transplant", "thin", "harvest", "best day"]
    assert len(words) == 9
    assert words[7:] == ["risk of frost", "half of the years have their last, or first, frost by then"]


def test_the_key_explains_no_frost_that_is_not_drawn():
    frost_free = tuple(FrostPoint(point.day, 0.0) for point in falling_frost())
    assert len(key_to_marks(replace(strip(TOMATO), frost=frost_free, middles=()))) == 7
    assert len(key_to_marks(replace(strip(TOMATO), middles=()))) == 8
