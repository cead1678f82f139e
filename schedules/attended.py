"""How long nothing was logged at a plot, and whether that asks for a look; never what it says about anybody.

Days that nobody expects work do not count: before the holder had the plot, before the season of care rounds
opened, and while there is a pause for illness or travel.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from plots.month_days import in_year

Days = tuple[date, date | None]


@dataclass(frozen=True, slots=True)
class Attended:
    """`ago`: days since the latest work that was logged, `None` where none is; `quiet`: days that count."""

    ago: int | None
    quiet: int
    asks: bool


def attended(
    last: date | None,
    *,
    held_since: date | None,
    pauses: Iterable[Days],
    season_opens: str,
    limit: int,
    today: date,
) -> Attended:
    """What is known of a plot; it asks for a look from `limit` quiet days on, while somebody holds it.

    `pauses` are first and last days, both counted, without a last one still open; `season_opens` is a day of
    the year (`MM-DD`), or empty where rounds are held all year.

    >>> attended(date(2024, 5, 1), held_since=date(2024, 1, 1), pauses=[], season_opens="04-01", limit=21,
    ...          today=date(2024, 5, 20))
    Attended(ago=19, quiet=19, asks=False)
    """
    ago = (today - last).days if last else None
    if held_since is None:
        return Attended(ago, 0, asks=False)
    since = max(day for day in (last, held_since, opened(season_opens, today)) if day)
    away = _days_within(pauses, since, today)
    quiet = max(0, (today - since).days - len(away))
    return Attended(ago, quiet, asks=quiet >= limit > 0 and today not in away)


def opened(month_day: str, today: date) -> date | None:
    """The latest day that a season opening each year on that day did so.

    >>> opened("04-01", date(2024, 3, 1))
    datetime.date(2023, 4, 1)
    """
    days = [in_year(month_day, year) for year in (today.year - 1, today.year)]
    return max((day for day in days if day and day <= today), default=None)


def _days_within(spans: Iterable[Days], after: date, until: date) -> set[date]:
    """The days of any of the spans, later than the one day and no later than the other."""
    found: set[date] = set()
    for first, last in spans:
        begin, end = max(first, after + timedelta(days=1)), min(last or until, until)
        found.update(begin + timedelta(days=step) for step in range((end - begin).days + 1))
    return found
