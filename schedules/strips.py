"""What the season strip shows of a plot or a crop: its rows, its months and the frost behind them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from schedules.climate import Climate
from schedules.entries import Entry, by_date
from schedules.reports.season import FrostMiddle, FrostPoint, SeasonStrip, StripMark, StripRow, strip_span
from schedules.seasons import Hemisphere, Side, day_number, from_day_number
from schedules.windows import Window

FREEZING_C = 0.0
_STEP = timedelta(days=5)
# The half of the year, by calendar month, in which the last freeze falls; the first falls in the other.
_LAST_FREEZE_MONTHS = {Hemisphere.NORTH: range(1, 8), Hemisphere.SOUTH: (8, 9, 10, 11, 12, 1)}


def rows_of_entries(entries: Iterable[Entry]) -> tuple[StripRow, ...]:
    """One row for each sowing of each planting, in the order in which they begin."""
    rows: dict[tuple[int, int], list[Entry]] = {}
    for entry in sorted(entries, key=by_date):
        rows.setdefault((entry.planting, entry.succession), []).append(entry)
    return tuple(
        StripRow(
            label=f"{own[0].succession}. {own[0].name}" if own[0].successions > 1 else own[0].name,
            marks=tuple(_mark(one) for one in own),
        )
        for own in rows.values()
    )


def rows_of_plantings(entries: Iterable[Entry]) -> tuple[StripRow, ...]:
    """One row for each planting with all its sowings, in the order in which they begin."""
    rows: dict[int, list[Entry]] = {}
    for entry in sorted(entries, key=by_date):
        rows.setdefault(entry.planting, []).append(entry)
    return tuple(StripRow(own[0].name, tuple(_mark(one) for one in own)) for own in rows.values())


def _mark(entry: Entry) -> StripMark:
    return StripMark(entry.operation.value, entry.earliest, entry.best, entry.latest, entry.done is not None)


def row_of_windows(label: str, windows: Iterable[Window]) -> StripRow:
    """One row for a way to grow a crop, with the windows of its first sowing."""
    return StripRow(
        label,
        tuple(
            StripMark(window.operation.value, window.earliest, window.best, window.latest)
            for window in windows
            if window.succession == 1
            and window.earliest is not None
            and window.best is not None
            and window.latest is not None
        ),
    )


def season_strip(
    rows: tuple[StripRow, ...], climate: Climate, *, year: int, today: date | None
) -> SeasonStrip:
    """The strip of `rows`, as long as they need; `today` is drawn where it lies within."""
    first, last = strip_span(rows, year)
    shown = today if today is not None and first <= today <= last else None
    return SeasonStrip(
        rows, first, last, frost_points(climate, first, last), shown, frost_middles(climate, first, last)
    )


def frost_points(climate: Climate, first: date, last: date) -> tuple[FrostPoint, ...]:
    """The risk of a freeze (0 °C) along the days from `first` to `last`; empty where nothing is known."""
    points = []
    day = first
    while day <= last:
        side, label_year = _side_of(day, climate.hemisphere)
        curve = climate.risk(side, FREEZING_C)
        if curve is not None:
            points.append(FrostPoint(day, curve.chance(day_number(day, label_year))))
        day += _STEP
    return tuple(points)


def frost_middles(climate: Climate, first: date, last: date) -> tuple[FrostMiddle, ...]:
    """The 50 % dates of a freeze (0 °C) from `first` to `last`, in order: those that the frost page names."""
    curves = [(side, climate.risk(side, FREEZING_C)) for side in Side]
    numbers = [(side, curve.day(50)) for side, curve in curves if curve is not None]
    days = sorted(
        (from_day_number(number, year), side is Side.LAST)
        for year in range(first.year - 1, last.year + 2)  # a first freeze may come after New Year
        for side, number in numbers
        if number is not None
    )
    return tuple(FrostMiddle(day, falling) for day, falling in days if first <= day <= last)


def _side_of(day: date, hemisphere: Hemisphere) -> tuple[Side, int]:
    """The freeze that a day is looked up against, and the year that labels its season.

    A southern January still belongs to the spring of the year before.
    """
    if day.month not in _LAST_FREEZE_MONTHS[hemisphere]:
        return Side.FIRST, day.year
    january_in_the_south = hemisphere is Hemisphere.SOUTH and day.month == 1
    return Side.LAST, day.year - 1 if january_in_the_south else day.year
