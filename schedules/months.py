"""Months as spans of days: where they begin and end."""

from __future__ import annotations

import calendar
from datetime import date


def month_start(day: date, months: int = 0) -> date:
    """The first of the month that lies `months` after the month of `day`."""
    years, month = divmod(day.month - 1 + months, 12)
    return date(day.year + years, month + 1, 1)


def month_end(day: date) -> date:
    """The last day of the month of `day`."""
    return day.replace(day=calendar.monthrange(day.year, day.month)[1])


def month_starts(first: date, last: date) -> list[date]:
    """The first of every month from that of `first` to that of `last`, both included."""
    start, stop = month_start(first), month_start(last)
    count = (stop.year - start.year) * 12 + stop.month - start.month + 1
    return [month_start(start, n) for n in range(count)]
