"""The season strip as printed calendars have it: rows as high as their sheet allows, marks put in place.

The marks, their lanes and the frost behind them are those of `season_strip`; here each is written out once
in a file and put where it belongs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache, partial

from django.utils.formats import date_format
from django.utils.translation import get_language

from schedules.months import month_starts
from schedules.reports import fonts, ink, marks, season_strip
from schedules.reports.days import short_day
from schedules.reports.leaves import Leaf, legible, lines_of, width_of
from schedules.reports.operators import operators
from schedules.reports.ruler import Ruler
from schedules.reports.season import FrostMiddle, FrostPoint, SeasonStrip, StripMark, StripRow

_YEAR_BAND, _MONTHS_BAND, _FLAGS_BAND = 1.35, 1.55, 1.3  # of the size of their letters
_KEY_SCALE = 0.62
_GAP = 6.0  # between a name and its tag


@dataclass(frozen=True, slots=True)
class Ruling:
    """How a strip is ruled: heights in points of a lane and of letters, the width for names at its left."""

    lane: float
    text: float
    names: float
    pad: float = 3.0

    @property
    def leading(self) -> float:
        """From one line of a name to the next."""
        return self.text * 1.16


@dataclass(frozen=True, slots=True)
class RuledRow:
    """A row with its name in lines, what stands quietly behind and below it, and its marks in lanes."""

    names: tuple[str, ...]
    behind: str
    below: tuple[str, ...]
    lanes: tuple[tuple[StripMark, ...], ...]
    height: float


def ruled_row(row: StripRow, tag: str, ruling: Ruling, below: Sequence[str] = ()) -> RuledRow:
    """The row laid out, its height worked out; the tag stands behind the name's last word, else below."""
    size, room = ruling.text, ruling.names - 8
    names = lines_of(row.label, size, room)
    behind = legible(tag)
    if behind and width_of(names[-1], size) + _GAP + width_of(behind, size) > room:
        both = lines_of(f"{row.label}\u00a0{tag}", size, room - _GAP)
        if both[-1].endswith(f" {behind}"):  # the name's last word goes on to the tag's line
            names = (*both[:-1], both[-1].removesuffix(f" {behind}"))
        else:
            behind, below = "", (tag, *below)
    lower = tuple(line for text in below for line in lines_of(text, size, room))
    lanes = tuple(tuple(lane) for lane in season_strip.lanes_of(row))
    drawn = max(1, len(lanes)) * ruling.lane
    high = (len(names) + len(lower)) * ruling.leading
    return RuledRow(names, behind, lower, lanes, 2 * ruling.pad + max(drawn, high))


def head_height(strip: SeasonStrip, ruling: Ruling) -> float:
    """What the months and the days of frost take above the rows."""
    return ruling.text * (_MONTHS_BAND + (_FLAGS_BAND if strip.middles else 0.0))


def foot_height(strip: SeasonStrip, ruling: Ruling) -> float:
    """What the numbers of the years take below the rows, where there are two."""
    return ruling.text * _YEAR_BAND if strip.first.year != strip.last.year else 2.0


def draw_strip(
    leaf: Leaf, strip: SeasonStrip, rows: Sequence[RuledRow], ruling: Ruling, *, left: float, top: float,
    width: float, least: float = 0.0, beyond: float = 0.0,
) -> float:  # fmt: skip
    """Draws the rows below `top`, their months above them; returns the y below all.

    With `least`, the ruled part is at least so high, as for a plan that is still empty; rules go on so far
    `beyond` the strip's right end.
    """
    right = left + width
    body_top = top - head_height(strip, ruling)
    bottom = body_top - max(sum(row.height for row in rows), least)
    frame = _Frame(strip, left + ruling.names, right, bottom, body_top, top, ruling)
    _behind(leaf, frame)
    end = right + beyond
    leaf.rule(left, body_top, end, body_top, width=1)
    leaf.rule(left, bottom, end, bottom)
    y = body_top
    for at, row in enumerate(rows):
        if at:
            leaf.rule(left, y, end, y, color=ink.RULE, width=0.5)
        _row(leaf, row, frame, left, y)
        y -= row.height
    return bottom - foot_height(strip, ruling)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where a strip stands on its page."""

    strip: SeasonStrip
    left: float
    right: float
    bottom: float
    body_top: float
    top: float
    ruling: Ruling

    @property
    def day(self) -> float:
        """Points to a day."""
        return (self.right - self.left) / ((self.strip.last - self.strip.first).days + 1)

    def at(self, day: date, part: float = 0.0) -> float:
        place = self.left + ((day - self.strip.first).days + part) * self.day
        return min(max(place, self.left), self.right)


@lru_cache(maxsize=256)
def _months(
    first: date, last: date, width: float, size: float, _language: str | None
) -> tuple[tuple[float, str, date], ...]:
    """Place, name and first day of each month of a strip `width` points wide, its letters of `size`."""
    ruler = Ruler(first, last, 0, width)
    starts = month_starts(first, last)
    names = [date_format(start, "M").rstrip(".") for start in starts]
    if max(width_of(legible(name), size) for name in names) + 4.5 > 28 * ruler.day_width:
        names = [name[0].upper() for name in names]
    return tuple((ruler.at(start), name, start) for start, name in zip(starts, names, strict=True))


def _behind(leaf: Leaf, frame: _Frame) -> None:
    """The frost, the months' lines and names, the years' numbers."""
    strip, size = frame.strip, frame.ruling.text
    width, height = frame.right - frame.left, frame.top - size * _MONTHS_BAND - frame.bottom
    ruler = Ruler(strip.first, strip.last, 0, width)
    key = "frost", strip.frost, strip.first, round(width, 2), round(height, 2)
    if strip.frost:
        leaf.place(
            leaf.book.kept(key, lambda: season_strip.frost_curve(strip, ruler, 0, height)),
            frame.left,
            frame.bottom,
        )
    years = strip.first.year != strip.last.year
    for x, name, start in _months(strip.first, strip.last, width, size, get_language()):
        place, heavy = frame.left + x, start.month == 1 and years
        leaf.rule(
            place, frame.bottom, place, frame.top - 2,
            color=ink.QUIET if heavy else ink.RULE, width=0.9 if heavy else 0.5,
        )  # fmt: skip
        leaf.text(place + 2.5, frame.top - size * 1.1, name, size, color=ink.QUIET)
        if years and (start.month == 1 or start == strip.first):
            text = str(start.year)
            if place + 2.5 + width_of(text, size, fonts.ITALIC) <= frame.right:
                y = frame.bottom - size * 1.05
                leaf.text(place + 2.5, y, text, size, color=ink.QUIET, font=fonts.ITALIC)
    _flags(leaf, frame)


def _flags(leaf: Leaf, frame: _Frame) -> None:
    """The days that half of the years have their last and first frost by."""
    size, taken = frame.ruling.text, frame.left
    top = frame.top - size * _MONTHS_BAND
    for middle in frame.strip.middles:
        text = legible(short_day(middle.day))
        x, room = frame.at(middle.day, 0.5), width_of(text, size) + 5
        fits_right = x + room <= frame.right
        to_the_right = (middle.falling and fits_right) or x - room < taken
        leaf.rule(x, frame.bottom, x, top, color=ink.QUIET, width=0.7, dash="1.5 3")
        if fits_right if to_the_right else x - room >= taken:
            place, anchor = (x + 3, "start") if to_the_right else (x - 3, "end")
            leaf.text(place, top - size * 0.95, text, size, color=ink.QUIET, anchor=anchor)
            taken = x + room if to_the_right else x


def _row(leaf: Leaf, row: RuledRow, frame: _Frame, left: float, top: float) -> None:
    ruling, size = frame.ruling, frame.ruling.text
    drawn = max(1, len(row.lanes)) * ruling.lane
    count = len(row.names) + len(row.below)
    y = top - row.height / 2 + count * ruling.leading / 2 - size * 0.9
    leaf.lines(left, y, row.names, size, ruling.leading)
    y -= len(row.names) * ruling.leading
    if row.behind:
        x = left + width_of(row.names[-1], size) + _GAP
        leaf.text(x, y + ruling.leading, row.behind, size, color=ink.QUIET)
    leaf.lines(left, y, row.below, size, ruling.leading, color=ink.QUIET)
    place = top - row.height / 2 + drawn / 2 - ruling.lane / 2
    for lane in row.lanes:
        _lane(leaf, lane, frame, place)
        place -= ruling.lane


def _lane(leaf: Leaf, lane: Sequence[StripMark], frame: _Frame, y: float) -> None:
    strip, scale = frame.strip, min(frame.ruling.lane / marks.LANE, 0.85)
    book = leaf.book
    for mark in season_strip.merged(list(lane)):
        if mark.latest < strip.first or mark.earliest > strip.last:
            continue
        x1, x2 = frame.at(mark.earliest), frame.at(mark.latest, 1)
        before, after = mark.earliest < strip.first, mark.latest > strip.last
        long = round((x2 - x1) / scale, 1)
        drawn = book.kept(
            ("window", mark.operation, long, before, after),
            partial(marks.window, mark.operation, 0, long, 0, before=before, after=after),
        )
        leaf.place(drawn, x1, y, scale)
    for mark in lane:
        if strip.first <= mark.best <= strip.last:
            made = (
                partial(marks.done_day, 0, 0) if mark.done else partial(marks.best_day, mark.operation, 0, 0)
            )
            drawn = book.kept(("day", mark.done, mark.operation), made)
            leaf.place(drawn, frame.at(mark.best, 0.5), y, scale)


Word = tuple[float, float, str, tuple[str, ...]]


def draw_key(leaf: Leaf, strip: SeasonStrip, *, left: float, top: float, width: float, size: float) -> float:
    """The marks and what each means, in as few lines as the width allows; returns the y below."""
    scale, height = _KEY_SCALE * max(1.0, size / 10), key_height(strip, width, size)
    for x, y, drawn, lines in _key_places(strip, width, size):
        base = top + y
        leaf.place(drawn, left + x, base + size * 0.36 - season_strip.KEY_HEIGHT * scale / 2, scale)
        beside = left + x + season_strip.KEY_WIDTH * scale + 5
        leaf.lines(beside, base, lines, size, size * 1.2)
    return top - height


def key_height(strip: SeasonStrip, width: float, size: float) -> float:
    """How high the key is."""
    places = _key_places(strip, width, size)
    return -min(y - (len(lines) - 1) * size * 1.2 for _x, y, _drawn, lines in places) + size * 0.4


def _key_places(strip: SeasonStrip, width: float, size: float) -> tuple[Word, ...]:
    done = any(mark.done for row in strip.rows for mark in row.marks)
    frost = any(point.chance for point in strip.frost)
    return _key(done, frost, bool(strip.middles), get_language(), width, size)


@lru_cache(maxsize=64)
def _key(
    done: bool, frost: bool, middles: bool, _language: str | None, width: float, size: float
) -> tuple[Word, ...]:
    """Place, drawn mark and lines of each entry, from (0, 0) down; remembered for each language."""
    scale = _KEY_SCALE * max(1.0, size / 10)
    mark = season_strip.KEY_WIDTH * scale + 5
    line = max(size * 1.5, season_strip.KEY_HEIGHT * scale + 2)
    x, y, found = 0.0, -line, []
    for drawing, word in season_strip.key_to_marks(_sample(done, frost, middles)):
        lines = lines_of(word, size, width - mark)
        run = mark + max(width_of(one, size) for one in lines)
        if x and x + run > width:
            x, y = 0.0, y - line
        found.append((x, y, operators(drawing.contents), lines))
        y -= (len(lines) - 1) * size * 1.2
        x += run + 14
    return tuple(found)


def _sample(done: bool, frost: bool, middles: bool) -> SeasonStrip:
    day = date(2001, 1, 1)
    row = StripRow("", (StripMark("sow", day, day, day, done=done),))
    return SeasonStrip(
        (row,),
        day,
        day,
        frost=(FrostPoint(day, 1.0),) if frost else (),
        middles=(FrostMiddle(day, falling=True),) if middles else (),
    )
