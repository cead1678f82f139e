"""Bars are as long as their amounts, whatever the width, and nothing leaves the drawing."""

from datetime import date

import pytest
from reportlab.graphics.shapes import Rect

from schedules.reports import fonts
from schedules.reports.charts import LyingBar, LyingBars, WeekBars, lying_bars, ticks, week_bars
from schedules.reports.ruler import TEXT, Ruler

WEEKS = {date(2026, 6, 1): 5.0, date(2026, 6, 8): 10.0, date(2026, 12, 28): 2.5}
LONG = "Bean, runner, of the longest name that anybody ever gave to a bean in any garden"


def rects(drawing):
    return [shape for shape in drawing.contents if isinstance(shape, Rect)]


@pytest.mark.parametrize("width", [360, 760])
def test_weeks_stand_as_high_as_their_amounts(width):
    drawing = week_bars(
        WeekBars("Food picked, lb a week", WEEKS, date(2026, 1, 1), date(2026, 12, 31)), width
    )
    heights = [bar.height for bar in rects(drawing)]
    assert heights == pytest.approx([max(heights) / 2, max(heights), max(heights) / 4])
    x1, y1, x2, y2 = drawing.getBounds()
    assert (x1, y1) >= (-1, -1)
    assert x2 <= width + 1
    assert y2 <= drawing.height + 1


@pytest.mark.parametrize("width", [360, 760])
def test_names_are_whole_and_given_parts_hatched(width):
    bars = (LyingBar(LONG, 80.0, "80 lb", 20.0), LyingBar("Chard", 40.0, "40 lb"))
    drawing = lying_bars(LyingBars("Food by crop", bars), width)
    solid = [bar.width for bar in rects(drawing)]
    assert solid[0] / solid[1] == pytest.approx(60 / 40)
    words = " ".join(getattr(shape, "text", "") for shape in drawing.contents)
    assert all(word in words for word in LONG.split())
    assert drawing.getBounds()[2] <= width + 1


def test_ticks_are_round_and_reach_the_highest():
    for highest in (0.003, 0.9, 1, 7, 12, 99, 100, 101, 12345):
        steps = ticks(highest)
        assert 1 <= len(steps) <= 4
        assert steps[-1] >= highest > steps[-1] / 2.5
    assert ticks(0) == []


@pytest.mark.parametrize("years", [1, 2, 3, 4])
def test_months_of_some_years_do_not_run_into_each_other(years):
    ruler = Ruler(date(2026, 1, 1), date(2025 + years, 12, 31), 20.0, 360.0)
    named = [(x, name) for _start, x, name in ruler.months() if name]
    assert named[0][1].startswith("J")
    ends = [x + fonts.width_of(name, TEXT) for x, name in named]
    assert all(end <= after for end, (after, _name) in zip(ends, named[1:], strict=False))
