"""What was done in a year, a row for each kind of work and a mark at each day, drawn for page and paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import fonts, ink, marks
from schedules.reports.day_marks import day_mark
from schedules.reports.ruler import FOOT_HEIGHT, MONTHS_HEIGHT, TEXT, Ruler, foot, month_lines
from schedules.reports.season_strip import WIDE

_PAD = 5.0
_NAME = 18.0
_LEAST_NAMES, _MOST_NAMES = 190.0, 0.35  # the latter of the width
_BETWEEN = 10.0  # name and number, number and marks


@dataclass(frozen=True, slots=True)
class GlanceRow:
    """One kind of work: its word and the days on which it was done; `work` is a value of `work.Work`."""

    work: str
    label: str
    days: tuple[date, ...]


@dataclass(frozen=True, slots=True)
class YearGlance:
    """A year's rows over whole months from `first` to `last`; `today` is drawn where it lies within."""

    rows: tuple[GlanceRow, ...]
    first: date
    last: date
    today: date | None = None


def year_glance(glance: YearGlance, width: float) -> Drawing:
    """The year `width` units wide: names above their marks where that is narrow, else to their left."""
    above = width < WIDE
    names = width if above else _names_width(glance.rows, width)
    ruler = Ruler(glance.first, glance.last, 0.0 if above else names, width - 0.5)
    height = 2 * _PAD + marks.LANE + (_NAME if above else 0)
    body = height * len(glance.rows)
    drawing = Drawing(width, FOOT_HEIGHT + body + MONTHS_HEIGHT)
    top = FOOT_HEIGHT + body
    shapes = month_lines(ruler, FOOT_HEIGHT, top, drawing.height)
    for number, row in enumerate(glance.rows):
        shapes += _row(row, ruler, top - number * height, names, ruled=number > 0)
    for shape in shapes + foot(glance.today, ruler, FOOT_HEIGHT, top):
        drawing.add(shape)
    return drawing


def _names_width(rows: Sequence[GlanceRow], width: float) -> float:
    """So wide that the longest name fits, within bounds."""
    asked = [fonts.width_of(fonts.legible(row.label), TEXT) * ink.SLACK + _count_width(row) for row in rows]
    return min(max([_LEAST_NAMES, *(one + _BETWEEN + 1 for one in asked)]), _MOST_NAMES * width)


def _count_width(row: GlanceRow) -> float:
    return fonts.width_of(str(len(row.days)), TEXT) + _BETWEEN


def _row(row: GlanceRow, ruler: Ruler, top: float, names: float, *, ruled: bool) -> list[Shape]:
    """The name with the number of days, and the marks; `names` is where the names end."""
    shapes: list[Shape] = [ink.line((0, top), (ruler.right, top), ink.RULE)] if ruled else []
    above = ruler.left == 0
    right = ruler.right if above else names - _BETWEEN
    count = str(len(row.days))
    room = (right - _count_width(row)) / ink.SLACK
    name = fonts.wrapped(fonts.legible(row.label), TEXT, room, 1)[0]
    base = top - _PAD - TEXT + 2
    shapes.append(ink.words(0, base, name, TEXT))
    shapes.append(ink.words(right, base, count, TEXT, color=ink.QUIET, anchor="end"))
    middle = top - _PAD - marks.LANE / 2 - (_NAME if above else 0)
    for day in row.days:
        # Signs at either edge stay whole within the drawing.
        x = min(max(ruler.at(day, 0.5), ruler.left + 4), ruler.right - 4)
        shapes += day_mark(row.work, x, middle)
    return shapes
