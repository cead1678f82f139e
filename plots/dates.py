"""The garden's year as one list of dates, whatever each comes from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from enum import StrEnum


class Certainty(StrEnum):
    """Whether a date is sure to take place."""

    FIRM = "firm"
    IF_RAIN = "if rain"  # only if another day is rained off
    OFF = "off"


@dataclass(frozen=True, slots=True)
class GardenDay:
    """One date: `key` is the same for ever, `title` says what it is; it never holds a person's name.

    `kind` is the word of a date's kind, `season`, `renewal`, `hours` or `workday`; `pk` is the workday or
    date it comes from. `changed_at` is when it was last written, where that is known.
    """

    key: str
    kind: str
    title: str
    day: date
    last_day: date | None = None
    starts_at: time | None = None
    ends_at: time | None = None
    place: str = ""
    note: str = ""
    certainty: Certainty = Certainty.FIRM
    public: bool = True
    pk: int | None = None
    changed_at: datetime | None = None

    @property
    def until(self) -> date:
        return self.last_day or self.day


def in_order(days: Iterable[GardenDay]) -> list[GardenDay]:
    """By day, whole days before those with an hour."""
    return sorted(days, key=lambda one: (one.day, one.starts_at or time.min, one.title))


def ahead(days: Iterable[GardenDay], today: date, within: int | None = None) -> list[GardenDay]:
    """Those that are not over, in order; with `within`, only what begins in so many days from today."""
    last = None if within is None else today + timedelta(days=within)
    return [one for one in in_order(days) if one.until >= today and (last is None or one.day <= last)]


def in_later_year(day: date, years: int, *, same_weekday: bool) -> date:
    """The day so many years later: of the same date, or of the nearest date that is the same weekday.

    >>> in_later_year(date(2026, 4, 11), 1, same_weekday=True)  # a Saturday
    datetime.date(2027, 4, 10)
    >>> in_later_year(date(2028, 2, 29), 1, same_weekday=False)
    datetime.date(2029, 2, 28)
    """
    if same_weekday:
        return day + timedelta(weeks=round(years * 365.2425 / 7))
    if (day.month, day.day) == (2, 29):
        return date(day.year + years, 3, 1) - timedelta(days=1)
    return day.replace(year=day.year + years)
