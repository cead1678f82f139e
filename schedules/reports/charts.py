"""Amounts drawn once for page and paper: week by week along the year, and crop beside crop.

Bars are plain ink; what was given away of a bar is hatched, so that a grey copy tells the same.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import floor, log10

from django.utils.formats import number_format
from reportlab.graphics.shapes import Drawing, Shape

from schedules.months import month_end, month_start
from schedules.reports import fonts, ink
from schedules.reports.ruler import FOOT_HEIGHT, MONTHS_HEIGHT, TEXT, Ruler, foot, month_lines

_HEADING = 21.0
_PLOT = 150.0
_BAR = 13.0  # thickness of a lying bar
_LEADING, _NAME_LINES = 18.0, 6
_NARROW = 480.0
_HATCH = 4.5


@dataclass(frozen=True, slots=True)
class WeekBars:
    """Amounts by the Monday of their week, in the unit that `heading` names."""

    heading: str
    weeks: Mapping[date, float]
    first: date
    last: date


@dataclass(frozen=True, slots=True)
class LyingBar:
    """One amount with its name; `part` of it is hatched, `text` stands at its end."""

    name: str
    value: float
    text: str
    part: float = 0.0


@dataclass(frozen=True, slots=True)
class LyingBars:
    """Amounts one below the other, in the order given; `heading` names what they are."""

    heading: str
    bars: tuple[LyingBar, ...]


def ticks(highest: float, most: int = 4) -> list[float]:
    """Round numbers from the first step to the first at or above `highest`, at most `most` of them.

    >>> ticks(37), ticks(0.9), ticks(8)
    ([10.0, 20.0, 30.0, 40.0], [0.5, 1.0], [2.0, 4.0, 6.0, 8.0])
    """
    if highest <= 0:
        return []
    power = 10.0 ** floor(log10(highest / most))
    step = next(power * one for one in (1, 2, 5, 10) if power * one * most >= highest * (1 - 1e-9))
    count = max(1, -int(-highest * (1 - 1e-9) // step))
    return [round(step * n, 10) for n in range(1, count + 1)]


def number(value: float) -> str:
    """A number beside an axis, without needless zeros."""
    shown = f"{value:.10g}"
    return str(number_format(shown, decimal_pos=len(shown.partition(".")[2])))


def week_bars(chart: WeekBars, width: float) -> Drawing:
    """A bar for each week over the months, `width` units wide."""
    steps = ticks(max(chart.weeks.values(), default=0.0))
    labels = [number(step) for step in steps]
    axis = max((fonts.width_of(label, TEXT) for label in labels), default=0.0) * ink.SLACK + 8
    lines = fonts.wrapped(fonts.legible(chart.heading), TEXT, width / ink.SLACK, 2)
    head = _HEADING * len(lines)
    drawing = Drawing(width, FOOT_HEIGHT + _PLOT + MONTHS_HEIGHT + head)
    ruler = Ruler(month_start(chart.first), month_end(chart.last), axis, width - 0.5)
    floor_y, ceiling = FOOT_HEIGHT, FOOT_HEIGHT + _PLOT
    shapes = _headings(lines, drawing.height)
    shapes += month_lines(ruler, floor_y, ceiling, drawing.height - head)
    for step, label in zip(steps, labels, strict=True):
        y = floor_y + _PLOT * 0.94 * step / steps[-1]
        shapes.append(ink.line((ruler.left, y), (ruler.right, y), ink.RULE, 0.5))
        shapes.append(ink.words(ruler.left - 5, y - TEXT * 0.35, label, TEXT, color=ink.QUIET, anchor="end"))
    for monday, value in chart.weeks.items():
        if monday + timedelta(days=6) < ruler.first or monday > ruler.last or not steps:
            continue
        left, right = ruler.at(monday), ruler.at(monday + timedelta(days=6), 1)
        inset = (right - left) * 0.12
        height = _PLOT * 0.94 * value / steps[-1]
        shapes.append(ink.box(left + inset, floor_y, right - left - 2 * inset, max(height, 0.8), ink.INK))
    for shape in shapes + foot(None, ruler, floor_y, ceiling):
        drawing.add(shape)
    return drawing


def lying_bars(chart: LyingBars, width: float) -> Drawing:
    """A bar for each name, its amount at its end; narrow, the name stands above its bar."""
    above = width < _NARROW
    left = 0.0 if above else round(width * 0.27)
    texts = max((fonts.width_of(bar.text, TEXT) for bar in chart.bars), default=0.0) * ink.SLACK + 8
    highest = max((bar.value for bar in chart.bars), default=0.0)
    named = [
        fonts.wrapped(fonts.legible(bar.name), TEXT, (width if above else left - 8) / ink.SLACK, _NAME_LINES)
        for bar in chart.bars
    ]
    heights = [len(names) * _LEADING + (_BAR + 10 if above else 6) for names in named]
    lines = fonts.wrapped(fonts.legible(chart.heading), TEXT, width / ink.SLACK, 2)
    drawing = Drawing(width, sum(heights) + _HEADING * len(lines) + 4)
    shapes = _headings(lines, drawing.height)
    top = drawing.height - _HEADING * len(lines) - 4
    for bar, names, height in zip(chart.bars, named, heights, strict=True):
        shapes += [ink.words(0, top - TEXT - n * _LEADING, name, TEXT) for n, name in enumerate(names)]
        bottom = top - height + 6 if above else top - TEXT - 1.5
        length = max((width - left - texts) * bar.value / highest, 0.8) if highest else 0.0
        part = length * min(1.0, bar.part / bar.value) if bar.value else 0.0
        shapes += _bar(left, bottom, length, part)
        shapes.append(ink.words(left + length + 5, bottom + 1.5, bar.text, TEXT, color=ink.QUIET))
        top -= height
    for shape in shapes:
        drawing.add(shape)
    return drawing


def _headings(lines: Sequence[str], height: float) -> list[Shape]:
    return [
        ink.words(0, height - 15 - n * _HEADING, line, TEXT, color=ink.QUIET) for n, line in enumerate(lines)
    ]


def _bar(x: float, y: float, length: float, part: float) -> list[Shape]:
    """Solid, but for its last `part` units, which are an outline with hatching."""
    shapes: list[Shape] = []
    solid = length - part
    if solid > 0:
        shapes.append(ink.box(x, y, solid, _BAR, ink.INK))
    if part > 1:
        left, right, top = x + solid, x + length, y + _BAR
        shapes.append(
            ink.polyline([(left, y), (right, y), (right, top), (left, top), (left, y)], ink.INK, 0.9)
        )
        starts = [left + _HATCH * n for n in range(int(part // _HATCH) + 1)]
        cut = [_slanted(start, y, top, right) for start in starts]
        shapes.append(ink.strokes([piece for piece in cut if piece], ink.INK, 0.8))
    return shapes


def _slanted(start: float, bottom: float, top: float, right: float) -> list[tuple[float, float]]:
    """A stroke rising to the right from `start`, cut off at the bar's end."""
    run = min(_BAR * 0.6, right - start)
    if run <= 0.5:
        return []
    return [(start, bottom), (start + run, bottom + (top - bottom) * run / (_BAR * 0.6))]
