"""The comparison with published calendars line by line, for the rule in use or for one fitted elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from schedules.calendars.comparing import Comparison, Row, Summary, compare, summarise
from schedules.calendars.fitting import fit


@dataclass(frozen=True, slots=True)
class Line:
    """What the comparisons of one region and activity come to."""

    region: str
    activity: str
    summary: Summary


def in_use(rows: Iterable[Row]) -> list[Comparison]:
    """The rows held against the rule in use."""
    return [compare(row) for row in rows]


def left_out(rows: Iterable[Row]) -> list[Comparison]:
    """The rows of each region held against a practice fitted to the other regions alone."""
    known = list(rows)
    compared: list[Comparison] = []
    for region in sorted({row.region for row in known}):
        practice = fit(row for row in known if row.region != region)
        compared += [compare(row, practice) for row in known if row.region == region]
    return compared


def lines(comparisons: Iterable[Comparison]) -> Iterator[Line]:
    """A line for each region and activity, in their order."""

    def by(one: Comparison) -> tuple[str, str]:
        return one.row.region, one.row.activity

    for (region, activity), group in groupby(sorted(comparisons, key=by), key=by):
        yield Line(region, activity, summarise(group))
