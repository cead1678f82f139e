"""The risk of a freeze through one side of the season, drawn once for page and paper.

Thresholds are told apart by line and dot, and named on their own curve; every year behind a curve is a dot.
"""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from django.utils.translation import gettext
from reportlab.graphics.shapes import Drawing, Shape

from schedules.months import month_end, month_start
from schedules.reports import fonts, ink
from schedules.reports.ruler import TEXT, Ruler
from schedules.reports.season import FrostChart, FrostCurve, FrostPoint, dot_heights

_LINES: tuple[tuple[float, tuple[float, ...] | None], ...] = ((1.7, None), (1.5, (7, 3.5)), (1.5, (1.6, 3.2)))
_RULES = (0.1, 0.3, 0.5, 0.7, 0.9)
_AXIS = 50.0
_FOOT = 26.0
_MARKER = 20.0
_TICKS = (10, 20)  # days of a month


def frost_chart(chart: FrostChart, width: float) -> Drawing:
    """The chart `width` units wide; its curves in the order given, at most three."""
    heading = fonts.wrapped(chart.heading, TEXT, (width - 4) / ink.SLACK, 3)
    plot = min(300.0, max(200.0, width * 0.42))
    head = len(heading) * 19.0 + 9 + (_MARKER if chart.marker else 0)
    drawing = Drawing(width, _FOOT + plot + head)
    ruler = _ruler(chart, width)
    floor, ceiling = _FOOT, _FOOT + plot
    for n, line in enumerate(heading):
        drawing.add(ink.words(0, drawing.height - 15 - n * 19, line, TEXT, color=ink.QUIET))
    for shape in [
        *_scale(ruler, floor, ceiling),
        *_curves(chart, ruler, floor, ceiling),
        *_marker(chart, ruler, floor, ceiling),
    ]:
        drawing.add(shape)
    return drawing


def _ruler(chart: FrostChart, width: float) -> Ruler:
    """Whole months around the days on which the curves rise or fall, the years' dots and the marker."""
    margin = timedelta(days=5)
    days = [day for curve in chart.curves for day in curve.years]
    for curve in chart.curves:
        highest = max((p.chance for p in curve.points), default=0.0)
        days += [p.day for p in curve.points if 0.01 < p.chance < highest - 0.01]
    if chart.marker:
        days.append(chart.marker)
    if not days:
        days = [point.day for curve in chart.curves for point in curve.points]
    return Ruler(month_start(min(days) - margin), month_end(max(days) + margin), _AXIS, width - 0.5)


def _scale(ruler: Ruler, floor: float, ceiling: float) -> list[Shape]:
    shapes: list[Shape] = []
    for start, x, name in ruler.months():
        if start != ruler.first:
            shapes.append(ink.line((x, floor), (x, ceiling), ink.RULE, 0.5))
        shapes.append(ink.words(x + 3, floor - TEXT - 3, name, TEXT, color=ink.QUIET))
        shapes.append(ink.line((x, floor), (x, floor - 5), ink.QUIET, 0.8))
        shapes += _days(start, name, ruler, floor)
    for share in _RULES:
        y = floor + share * (ceiling - floor)
        shapes.append(ink.line((ruler.left, y), (ruler.right, y), ink.RULE, 0.5))
        label = gettext("{number} %").format(number=round(share * 100))
        shapes.append(ink.words(ruler.left - 6, y - TEXT * 0.35, label, TEXT, color=ink.QUIET, anchor="end"))
    shapes.append(ink.line((ruler.left, floor), (ruler.right, floor), width=1))
    return shapes


def _days(start: date, name: str, ruler: Ruler, floor: float) -> list[Shape]:
    """Ticks within a month, so that a day can be found; numbered where the month's name leaves room."""
    shapes: list[Shape] = []
    after_name = ruler.at(start) + 3 + fonts.width_of(name, TEXT) * ink.SLACK
    for day in _TICKS:
        x, text = ruler.at(start.replace(day=day)), str(day)
        shapes.append(ink.line((x, floor), (x, floor - 3), ink.QUIET, 0.8))
        half = fonts.width_of(text, TEXT) * ink.SLACK / 2
        if ruler.at(start.replace(day=_TICKS[0])) - half - 4 > after_name:
            shapes.append(ink.words(x, floor - TEXT - 3, text, TEXT, color=ink.QUIET, anchor="middle"))
    return shapes


def _curves(chart: FrostChart, ruler: Ruler, floor: float, ceiling: float) -> list[Shape]:
    shapes: list[Shape] = []
    names: list[Shape] = []
    for n, curve in enumerate(chart.curves):
        width, dash = _LINES[n % len(_LINES)]
        points = [
            (ruler.at(p.day, 0.5), floor + p.chance * (ceiling - floor))
            for p in curve.points
            if ruler.first <= p.day <= ruler.last
        ]
        for point in dot_heights(curve, falling=chart.falling):
            y = floor + point.chance * (ceiling - floor)
            shapes += _year_dot(n, ruler.at(point.day, 0.5), y)
        if len(points) > 1:
            shapes.append(ink.polyline(points, ink.INK, width, dash))
            along = points[::-1] if chart.named_late else points
            names += _name(curve, along, 0.34 + 0.16 * n, ruler)
    return shapes + names


def _year_dot(curve: int, x: float, y: float) -> list[Shape]:
    """One year: a filled dot, a ring, or a cross, by curve."""
    if curve == 0:
        return [ink.dot(x, y, 2.8, ink.QUIET)]
    if curve == 1:
        return [ink.dot(x, y, 2.7, ink.PAPER, ink.QUIET)]
    arm = 2.6
    return [
        ink.strokes(
            [[(x - arm, y - arm), (x + arm, y + arm)], [(x - arm, y + arm), (x + arm, y - arm)]],
            ink.QUIET,
            1.1,
        )
    ]


def _name(curve: FrostCurve, points: ink.Points, share: float, ruler: Ruler) -> list[Shape]:
    """The threshold's name set into its curve, as a height is set into a contour line."""
    low, high = min(y for _x, y in points), max(y for _x, y in points)
    x, y = _crossing(points, low + share * (high - low))
    text = fonts.legible(curve.name)
    half = fonts.width_of(text, TEXT, fonts.BOLD) * ink.SLACK / 2 + 2
    x = min(max(x, ruler.left + half), ruler.right - half)
    return [
        ink.box(x - half, y - 9, 2 * half, 18),
        ink.words(x, y - TEXT * 0.36, text, TEXT, anchor="middle", font=fonts.BOLD),
    ]


def _crossing(points: ink.Points, height: float) -> tuple[float, float]:
    """Where the curve first passes `height`."""
    for (x1, y1), (x2, y2) in pairwise(points):
        if y1 != y2 and min(y1, y2) <= height <= max(y1, y2):
            return x1 + (height - y1) / (y2 - y1) * (x2 - x1), height
    return points[len(points) // 2]


def _marker(chart: FrostChart, ruler: Ruler, floor: float, ceiling: float) -> list[Shape]:
    """The day the reader asks about, its words above, and a ring where it meets each curve."""
    if chart.marker is None:
        return []
    x = ruler.at(chart.marker, 0.5)
    text = fonts.legible(chart.marker_text)
    half = fonts.width_of(text, TEXT, fonts.BOLD) * ink.SLACK / 2
    place = min(max(x, half), ruler.right - half)
    shapes: list[Shape] = [
        ink.line((x, floor), (x, ceiling + 3), width=1.2),
        ink.words(place, ceiling + 8, text, TEXT, anchor="middle", font=fonts.BOLD),
    ]
    for curve in chart.curves:
        chance = _chance_on(curve.points, chart.marker.toordinal())
        if chance is not None:
            shapes.append(ink.dot(x, floor + chance * (ceiling - floor), 4, ink.PAPER, ink.INK))
    return shapes


def _chance_on(points: tuple[FrostPoint, ...], day: int) -> float | None:
    for before, after in pairwise(points):
        start, stop = before.day.toordinal(), after.day.toordinal()
        if start <= day <= stop and stop > start:
            return before.chance + (day - start) / (stop - start) * (after.chance - before.chance)
    return None
