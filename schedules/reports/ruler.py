"""The ruler along a drawing: where days stand, and the months written over it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext
from reportlab.graphics.shapes import Shape

from schedules.months import month_starts
from schedules.reports import fonts, ink

TEXT = 15.0
MONTHS_HEIGHT = 24.0
FOOT_HEIGHT = 19.0


@dataclass(frozen=True, slots=True)
class Ruler:
    """Days from `first` to `last`, both included, laid between `left` and `right` units."""

    first: date
    last: date
    left: float
    right: float

    @property
    def day_width(self) -> float:
        """Units to a day."""
        return (self.right - self.left) / ((self.last - self.first).days + 1)

    def at(self, day: date, part: float = 0.0) -> float:
        """The beginning of `day`, or `part` of the way through it; days outside stand at the edge."""
        place = self.left + ((day - self.first).days + part) * self.day_width
        return min(max(place, self.left), self.right)

    def months(self) -> list[tuple[date, float, str]]:
        """Each month's first day, its place, and its name where there is room: Jan, J, or each third J."""
        starts = month_starts(self.first, self.last)
        names = [date_format(start, "M").rstrip(".") for start in starts]
        room = min((self.right - self.left) / len(starts), 28 * self.day_width) - 4
        if max(fonts.width_of(name, TEXT) for name in names) * ink.SLACK > room:
            names = [name[0].upper() for name in names]
            if max(fonts.width_of(name, TEXT) for name in names) * ink.SLACK > room + 1:
                names = [
                    name if start.month % 3 == 1 else "" for start, name in zip(starts, names, strict=True)
                ]
        return [(start, self.at(start), name) for start, name in zip(starts, names, strict=True)]


def month_lines(ruler: Ruler, bottom: float, top: float, height: float) -> list[Shape]:
    """The months of a drawing `height` high: lines down to `bottom`, names above `top`, ruled either side."""
    base = height - MONTHS_HEIGHT + 7
    shapes: list[Shape] = [
        ink.line((0, top), (ruler.right, top), width=1),
        ink.line((0, bottom), (ruler.right, bottom)),
    ]
    for start, x, name in ruler.months():
        heavy = start.month == 1
        shapes.append(
            ink.line((x, bottom), (x, height - 4), ink.QUIET if heavy else ink.RULE, 0.9 if heavy else 0.5)
        )
        if name:
            shapes.append(ink.words(x + 3, base, name, TEXT, color=ink.QUIET))
    return shapes


def foot(today: date | None, ruler: Ruler, bottom: float, top: float) -> list[Shape]:
    """Today's line with its word, and each year's number where it begins, if the strip runs over New Year."""
    shapes: list[Shape] = []
    base, taken = bottom - TEXT - 1, (0.0, 0.0)
    if today is not None and ruler.first <= today <= ruler.last:
        x, text = ruler.at(today, 0.5), gettext("today")
        half = fonts.width_of(text, TEXT, fonts.BOLD) * ink.SLACK / 2
        place = min(max(x, half), ruler.right - half)
        taken = (place - half - 4, place + half + 4)
        shapes.append(ink.line((x, bottom - 2), (x, top), ink.ACCENT, 1.4))
        shapes.append(ink.words(place, base, text, TEXT, color=ink.ACCENT, anchor="middle", font=fonts.BOLD))
    if ruler.first.year != ruler.last.year:
        for start, x, _name in ruler.months():
            year, end = str(start.year), x + 3 + 4 * TEXT * 0.6 * ink.SLACK
            if (
                (start.month == 1 or start == ruler.first)
                and (end < taken[0] or x > taken[1])
                and end < ruler.right
            ):
                shapes.append(ink.words(x + 3, base, year, TEXT, color=ink.QUIET, font=fonts.ITALIC))
    return shapes
