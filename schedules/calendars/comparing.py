"""Published planting calendars held against the windows derived from their frost dates alone.

A row overlaps when the days shared are at least half of the shorter of the two windows; a row with one bound
when that bound lies inside ours. The best of several windows counts; no window is a miss.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from statistics import median

from crops.catalogue import load_catalogue
from crops.facts import CropFacts, Method
from schedules.bases import from_mean
from schedules.seasons import Hemisphere
from schedules.windows import AS_PUBLISHED, Operation, Window, derive
from schedules.windows.practice import FITTED, Practice

CALENDARS = Path(__file__).parents[2] / "fixtures" / "calendars" / "calendars_open.csv"
YEAR = 2025
OPERATIONS = {
    "sow outdoors": Operation.SOW,
    "transplant": Operation.TRANSPLANT,
    "fall sow": Operation.SOW,
    "fall transplant": Operation.TRANSPLANT,
    "sow indoors": Operation.START_INDOORS,
}


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a published calendar; a bound that the page does not give is `None`."""

    region: str
    activity: str
    crop: str
    last_frost: tuple[int, int]
    first_frost: tuple[int, int] | None
    start: date | None
    end: date | None


@dataclass(frozen=True, slots=True)
class Comparison:
    """A row held against our best window: differences in days, ours later when positive."""

    row: Row
    overlaps: bool
    starts_differ: int | None
    ends_differ: int | None


@dataclass(frozen=True, slots=True)
class Summary:
    """What a set of comparisons comes to."""

    count: int
    overlap: float
    start_difference: float | None
    end_difference: float | None


def read_rows() -> list[Row]:
    """Every line of the calendars."""
    with CALENDARS.open(encoding="utf-8", newline="") as lines:
        return [
            Row(
                region=line["region"],
                activity=line["activity"],
                crop=line["crop"],
                last_frost=_month_day(line["mean_last_frost"]),
                first_frost=_month_day(line["mean_first_frost"]) if line["mean_first_frost"] else None,
                start=date(YEAR, *_month_day(line["start"])) if line["start"] else None,
                end=date(YEAR, *_month_day(line["end"])) if line["end"] else None,
            )
            for line in csv.DictReader(lines)
        ]


def comparable(rows: Iterable[Row]) -> list[Row]:
    """The rows of crops we have, without autumn rows whose first frost nobody states."""
    return [
        row
        for row in rows
        if row.crop in crops() and (row.first_frost is not None or not row.activity.startswith("fall"))
    ]


def compare(row: Row, practice: Practice = FITTED) -> Comparison:
    """Our best window for a row, given only the row's frost dates."""
    candidates = [
        _against(row, window.earliest + shift, window.latest + shift)
        for window in matching_windows(row, practice)
        if window.earliest is not None and window.latest is not None
        for shift in (timedelta(0), timedelta(days=365), timedelta(days=-365))
    ]
    if not candidates:
        return Comparison(row, False, None, None)
    return max(candidates, key=lambda one: (one.overlaps, -_distance(one)))


def matching_windows(row: Row, practice: Practice) -> Iterator[Window]:
    """The windows for a row's activity; pages call setting tubers and sets either sowing or transplanting."""
    facts = crops()[row.crop]
    operation = OPERATIONS[row.activity]
    if facts.method is Method.VEGETATIVE:
        operation = Operation.SOW
    elif row.activity == "fall sow" and facts.method is Method.TRANSPLANT:
        operation = Operation.START_INDOORS
    return (w for w in _windows(facts, row.last_frost, row.first_frost, practice) if w.operation is operation)


def summarise(comparisons: Iterable[Comparison]) -> Summary:
    """Share of overlaps, and the median distances of starts and of ends."""
    compared = list(comparisons)
    starts = [abs(one.starts_differ) for one in compared if one.starts_differ is not None]
    ends = [abs(one.ends_differ) for one in compared if one.ends_differ is not None]
    return Summary(
        count=len(compared),
        overlap=sum(one.overlaps for one in compared) / len(compared),
        start_difference=median(starts) if starts else None,
        end_difference=median(ends) if ends else None,
    )


@cache
def crops() -> dict[str, CropFacts]:
    """The catalogue."""
    return dict(load_catalogue().crops)


@cache
def _windows(
    facts: CropFacts, last: tuple[int, int], first: tuple[int, int] | None, practice: Practice
) -> tuple[Window, ...]:
    climate = from_mean(Hemisphere.NORTH, last=last, first=first)
    return derive(facts, climate, year=YEAR, nerve=AS_PUBLISHED, practice=practice)


def _against(row: Row, earliest: date, latest: date) -> Comparison:
    if row.start is not None and row.end is not None:
        shared = (min(row.end, latest) - max(row.start, earliest)).days + 1
        shorter = min((row.end - row.start).days, (latest - earliest).days) + 1
        overlaps = shared * 2 >= shorter
    else:
        bound = row.start or row.end
        overlaps = bound is not None and earliest <= bound <= latest
    return Comparison(
        row,
        overlaps,
        None if row.start is None else (earliest - row.start).days,
        None if row.end is None else (latest - row.end).days,
    )


def _distance(comparison: Comparison) -> int:
    return abs(comparison.starts_differ or 0) + abs(comparison.ends_differ or 0)


def _month_day(text: str) -> tuple[int, int]:
    month, day = text.split("-")
    return int(month), int(day)
