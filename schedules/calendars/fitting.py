"""Fits `schedules.windows.practice` to published calendars again, by least absolute deviations.

A grid of whole days and tenths is searched; a small price on the size of each parameter keeps a handful of
rows from bending the rule. Rows whose edge lies more than 45 days from the unfitted rule mean something else
("last practical date") and are left out. Only first sowings of spring are fitted.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from schedules.calendars.comparing import YEAR, Row, crops, matching_windows
from schedules.seasons import day_number
from schedules.windows import Turn
from schedules.windows.practice import COOL_SEASON, UNFITTED, Practice, Shift, mild_days

FURTHEST_DAYS = 45
PRICE_PER_WEEK = 1.0
PRICE_PER_SLOPE = 1.0
SLOPES = [tenths / 10 for tenths in range(-10, 1)]
Residual = tuple[int, int]  # mild days, days by which the published edge comes later than the unfitted one


def fit(rows: Iterable[Row]) -> Practice:
    """The practice that comes nearest to the rows."""
    early, late = _residuals(rows)
    return Practice(early=_best(early, [0]), late=_best(late, range(-14, 15)))


def _residuals(rows: Iterable[Row]) -> tuple[list[Residual], list[Residual]]:
    early: list[Residual] = []
    late: list[Residual] = []
    for row in rows:
        cool = crops()[row.crop].hardiness in COOL_SEASON
        if not cool or row.activity not in ("sow outdoors", "transplant"):
            continue
        first_sowings = (
            window
            for window in matching_windows(row, UNFITTED)
            if window.turn is Turn.SPRING and window.succession == 1
        )
        for window in first_sowings:
            mild = mild_days(day_number(date(YEAR, *row.last_frost), YEAR))
            if row.start is not None and window.earliest is not None:
                early.append((mild, (row.start - window.earliest).days))
            if row.end is not None and window.latest is not None:
                late.append((mild, (row.end - window.latest).days))
    return early, late


def _best(residuals: Sequence[Residual], bases: Iterable[int]) -> Shift:
    near = [(mild, days) for mild, days in residuals if abs(days) <= FURTHEST_DAYS]

    def cost(shift: Shift) -> float:
        misses = sum(abs(days - shift.days - shift.per_mild_day * mild) for mild, days in near)
        price = PRICE_PER_WEEK * abs(shift.days) / 7 + PRICE_PER_SLOPE * abs(shift.per_mild_day)
        return misses / len(near) + price

    return min((Shift(base, slope) for base in bases for slope in SLOPES), key=cost)
