"""The season strip and the key to its marks, drawn once for page and paper.

Narrow (a phone, below `WIDE` units) writes each row's name above its marks, wide writes it to their left.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta

from django.utils.translation import gettext
from reportlab.graphics.shapes import Drawing, Shape

from schedules.reports import fonts, ink, marks
from schedules.reports.days import short_day
from schedules.reports.ruler import FOOT_HEIGHT, MONTHS_HEIGHT, TEXT, Ruler, foot, month_lines
from schedules.reports.season import FrostPoint, SeasonStrip, StripMark, StripRow

WIDE = 480
_LEADING = 17.5
_PAD = 5.0
_FLAGS_HEIGHT = 19.0
_GAP = timedelta(days=31)
KEY_WIDTH, KEY_HEIGHT = 46.0, 16.0


@dataclass(frozen=True, slots=True)
class _Row:
    """A row with its name broken into lines and its marks spread over lanes."""

    names: list[str]
    lanes: list[list[StripMark]]
    names_above: bool

    @property
    def height(self) -> float:
        drawn = max(1, len(self.lanes)) * marks.LANE
        named = len(self.names) * _LEADING
        return 2 * _PAD + (drawn + named if self.names_above else max(drawn, named))


def lanes_of(row: StripRow) -> list[list[StripMark]]:
    """The row's marks on as few lanes as keep them apart, the earliest first.

    Overlapping windows of one operation, such as a succession's sowings, share a lane.
    """
    lanes: list[list[StripMark]] = []
    for mark in sorted(row.marks, key=lambda m: (m.earliest, m.latest, m.operation)):
        alike = [lane for lane in lanes if lane[-1].operation == mark.operation]
        free = [lane for lane in lanes if all(m.latest < mark.earliest for m in lane)]
        if found := alike or free:
            found[0].append(mark)
        else:
            lanes.append([mark])
    return lanes


def season_strip(strip: SeasonStrip, width: float) -> Drawing:
    """The strip `width` units wide, as high as its rows need."""
    rows = [_laid_out(row, width) for row in strip.rows]
    ruler = Ruler(strip.first, strip.last, _names_width(width), width - 0.5)
    body = sum(row.height for row in rows) or 2 * marks.LANE
    head = MONTHS_HEIGHT + (_FLAGS_HEIGHT if strip.frost else 0)
    drawing = Drawing(width, FOOT_HEIGHT + body + head)
    for shape in [
        *_frost(strip, ruler, FOOT_HEIGHT, FOOT_HEIGHT + body + head - MONTHS_HEIGHT),
        *month_lines(ruler, FOOT_HEIGHT, FOOT_HEIGHT + body, drawing.height),
        *_rows(rows, ruler, FOOT_HEIGHT + body, width),
        *foot(strip.today, ruler, FOOT_HEIGHT, FOOT_HEIGHT + body),
    ]:
        drawing.add(shape)
    return drawing


def _names_width(width: float) -> float:
    return 0.0 if width < WIDE else round(width * 0.23)


def _laid_out(row: StripRow, width: float) -> _Row:
    above = width < WIDE
    room = (width if above else _names_width(width) - 10) / ink.SLACK
    return _Row(fonts.wrapped(fonts.legible(row.label), TEXT, room, 1 if above else 3), lanes_of(row), above)


def _rows(rows: list[_Row], ruler: Ruler, top: float, width: float) -> list[Shape]:
    shapes: list[Shape] = []
    for index, row in enumerate(rows):
        if index:
            shapes.append(ink.line((0, top), (width - 0.5, top), ink.RULE, 0.6))
        base = top - _PAD - TEXT + 2
        for n, name in enumerate(row.names):
            shapes.append(ink.words(0, base - n * _LEADING, name, TEXT))
        y = top - _PAD - marks.LANE / 2 - (len(row.names) * _LEADING if row.names_above else 0)
        for lane in row.lanes:
            shapes += _lane(lane, ruler, y)
            y -= marks.LANE
        top -= row.height
    return shapes


def _lane(lane: list[StripMark], ruler: Ruler, y: float) -> list[Shape]:
    shapes: list[Shape] = []
    for mark in merged(lane):
        if mark.latest < ruler.first or mark.earliest > ruler.last:
            continue
        x1, x2 = ruler.at(mark.earliest), ruler.at(mark.latest, 1)
        before, after = mark.earliest < ruler.first, mark.latest > ruler.last
        shapes += marks.window(mark.operation, x1, x2, y, before=before, after=after)
    for mark in lane:
        if ruler.first <= mark.best <= ruler.last:
            x = ruler.at(mark.best, 0.5)
            shapes += marks.done_day(x, y) if mark.done else marks.best_day(mark.operation, x, y)
    return shapes


def merged(lane: list[StripMark]) -> list[StripMark]:
    """The lane with overlapping windows of one operation run together."""
    runs: list[StripMark] = []
    for mark in lane:
        if (
            runs
            and runs[-1].operation == mark.operation
            and mark.earliest <= runs[-1].latest + timedelta(days=1)
        ):
            last = runs.pop()
            mark = replace(mark, earliest=last.earliest, best=last.best, latest=max(last.latest, mark.latest))
        runs.append(mark)
    return runs


def frost_curve(strip: SeasonStrip, ruler: Ruler, bottom: float, top: float) -> list[Shape]:
    """The risk of frost along the strip, none at the bottom, every year at the top."""
    inside = [point for point in strip.frost if ruler.first <= point.day <= ruler.last]
    shapes: list[Shape] = []
    for run in _unbroken(inside):
        curve = [(ruler.at(p.day, 0.5), bottom + p.chance * (top - bottom)) for p in run]
        shapes.append(ink.area([(curve[0][0], bottom), *curve, (curve[-1][0], bottom)]))
        shapes.append(ink.polyline(curve, ink.RULE, 1.2))
    return shapes


def _frost(strip: SeasonStrip, ruler: Ruler, bottom: float, top: float) -> list[Shape]:
    """The curve behind the rows and its middle dates."""
    shapes = frost_curve(strip, ruler, bottom, top)
    taken = ruler.left
    for middle in strip.middles:
        text = short_day(middle.day)
        x, room = ruler.at(middle.day, 0.5), fonts.width_of(text, TEXT) * ink.SLACK + 6
        to_the_right = (middle.falling and x + room <= ruler.right) or x - room < taken
        shapes.append(ink.line((x, bottom), (x, top), ink.QUIET, 0.7, (1.5, 3)))
        if (x + room <= ruler.right) if to_the_right else (x - room >= taken):
            place, anchor = (x + 4, "start") if to_the_right else (x - 4, "end")
            shapes.append(ink.words(place, top - TEXT + 1, text, TEXT, color=ink.QUIET, anchor=anchor))
            taken = x + room if to_the_right else x
    return shapes


def _unbroken(points: list[FrostPoint]) -> list[list[FrostPoint]]:
    """The points in runs: over a gap, such as an autumn of which nothing is known, no line is drawn."""
    runs: list[list[FrostPoint]] = []
    for point in points:
        if runs and point.day - runs[-1][-1].day <= _GAP:
            runs[-1].append(point)
        else:
            runs.append([point])
    return [run for run in runs if len(run) > 1]


def key_to_marks(strip: SeasonStrip) -> list[tuple[Drawing, str]]:
    """Each mark drawn small beside its word; the frost curve and its middle date where the strip has them."""
    names = {
        "start-indoors": gettext("start indoors"),
        "harden-off": gettext("harden off"),
        "sow": gettext("sow"),
        "transplant": gettext("transplant"),
        "thin": gettext("thin"),
        "harvest": gettext("harvest"),
    }
    key = [(small_mark(operation), name) for operation, name in names.items()]
    key.append((_small(marks.best_day("sow", KEY_WIDTH / 2, KEY_HEIGHT / 2)), gettext("best day")))
    if any(mark.done for row in strip.rows for mark in row.marks):
        key.append((_small(marks.done_day(KEY_WIDTH / 2, KEY_HEIGHT / 2)), gettext("done")))
    if any(point.chance for point in strip.frost):
        hill = [(1.0, 1.0), (1.0, 15.0), (10.0, 14.0), (22.0, 8.0), (34.0, 2.0), (45.0, 1.0)]
        key.append(
            (_small([ink.area(hill), ink.polyline(hill[1:], ink.RULE, 1.2)]), gettext("risk of frost"))
        )
    if strip.middles:
        middle = ink.line((KEY_WIDTH / 2, 0), (KEY_WIDTH / 2, KEY_HEIGHT), ink.QUIET, 0.9, (1.5, 3))
        key.append((_small([middle]), gettext("half of the years have their last, or first, frost by then")))
    return key


def small_mark(operation: str) -> Drawing:
    """The mark of one operation, to stand beside a word."""
    return _small(marks.draw(operation, 1, KEY_WIDTH - 1, KEY_HEIGHT / 2))


def _small(shapes: list[Shape]) -> Drawing:
    drawing = Drawing(KEY_WIDTH, KEY_HEIGHT)
    for shape in shapes:
        drawing.add(shape)
    return drawing
