"""The ruler along a drawing: where days stand, and the months written over it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.formats import date_format

from schedules.reports import fonts, ink
from schedules.reports.season import month_starts

TEXT = 15.0


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
        """Each month's first day, its place, and its name as long as all of them have room: Jan, or J."""
        starts = month_starts(self.first, self.last)
        names = [date_format(start, "M").rstrip(".") for start in starts]
        room = min((self.right - self.left) / len(starts), 28 * self.day_width) - 4
        if max(fonts.width_of(name, TEXT) for name in names) * ink.SLACK > room:
            names = [name[0].upper() for name in names]
        return [(start, self.at(start), name) for start, name in zip(starts, names, strict=True)]
