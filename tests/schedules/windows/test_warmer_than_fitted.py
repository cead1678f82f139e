"""A place warmer than any that the practice was fitted on: north Florida (tests/reference/SOURCES.txt).

The published season of cool-season crops there runs through winter, so that the best of several windows
decides.
"""

from __future__ import annotations

import csv
from datetime import date, timedelta
from statistics import median

from schedules.bases import from_mean
from schedules.calendars.comparing import crops
from schedules.seasons import Hemisphere
from schedules.windows import AS_PUBLISHED, Operation, Window, derive
from tests.schedules.records import ROOT

GAINESVILLE = from_mean(Hemisphere.NORTH, last=(2, 12), first=(12, 1))
YEAR = timedelta(days=365)


def published() -> list[tuple[str, date, date]]:
    """Crop, first and last day of each published season, the first in 2025."""
    seasons = []
    with (ROOT / "tests/reference/calendar_north_florida.csv").open(encoding="utf-8", newline="") as lines:
        for line in csv.DictReader(lines):
            start, end = (date.fromisoformat(f"2025-{line[edge]}") for edge in ("start", "end"))
            seasons.append((line["crop"], start, end if start <= end else end + YEAR))
    return seasons


def plantings(crop: str) -> list[Window]:
    """The windows for sowing and transplanting a crop."""
    return [
        window
        for window in derive(crops()[crop], GAINESVILLE, year=2025, nerve=AS_PUBLISHED)
        if window.operation in (Operation.SOW, Operation.TRANSPLANT) and window.earliest is not None
    ]


def overlaps(window: Window, start: date, end: date, shift: timedelta) -> bool:
    earliest, latest = window.earliest + shift, window.latest + shift
    shared = (min(end, latest) - max(start, earliest)).days + 1
    return shared * 2 >= min((end - start).days, (latest - earliest).days) + 1


def test_the_calendar_of_north_florida_is_met():
    met = [
        any(
            overlaps(window, start, end, shift)
            for window in plantings(crop)
            for shift in (-YEAR, YEAR, timedelta(0))
        )
        for crop, start, end in published()
    ]
    assert len(met) == 28
    assert sum(met) / len(met) >= 0.85


def test_starts_do_not_run_away():
    distances = [
        min(
            abs((window.earliest + shift - start).days)
            for window in plantings(crop)
            for shift in (-YEAR, YEAR, timedelta(0))
        )
        for crop, start, _ in published()
    ]
    assert median(distances) <= 21
