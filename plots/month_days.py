"""Days of the year without a year, as gardens set their deadlines: `06-30`."""

from __future__ import annotations

from datetime import date, timedelta


def parse_month_day(text: str) -> tuple[int, int] | None:
    """Month and day of `MM-DD`, `None` where there is no such day; 29 February exists.

    >>> parse_month_day("02-29"), parse_month_day("06-31"), parse_month_day("")
    ((2, 29), None, None)
    """
    try:
        day = date.fromisoformat(f"2024-{text}")
    except ValueError:
        return None
    return (day.month, day.day) if text == f"{day:%m-%d}" else None


def in_year(text: str, year: int) -> date | None:
    """The day in that year, `None` for an empty or wrong text; 29 February falls on the 28th in other years.

    >>> in_year("02-29", 2023)
    datetime.date(2023, 2, 28)
    """
    found = parse_month_day(text)
    if found is None:
        return None
    month, day = found
    if (month, day) == (2, 29):
        return date(year, 3, 1) - timedelta(days=1)
    return date(year, month, day)


def within(text: str, first: date, last: date) -> date | None:
    """The first time the day comes between two days, both counted; `None` when it does not.

    >>> within("03-01", date(2023, 11, 1), date(2024, 10, 31))
    datetime.date(2024, 3, 1)
    """
    for year in range(first.year, last.year + 1):
        day = in_year(text, year)
        if day is not None and first <= day <= last:
            return day
    return None
