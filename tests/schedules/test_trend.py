"""The last fifteen years against all, told from chance."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

import pytest

from schedules.frost import FrostRecord
from schedules.seasons import Hemisphere, Side
from schedules.trend import rank_sum_chance, recent_since, trend


def record(*, years: int, earlier_by: int, spread: float = 10.0) -> FrostRecord:
    """Winters from 1980 on that end about 10 May, in the last fifteen years `earlier_by` days before that."""
    random = Random(4)  # noqa: S311
    minimums = {}
    for year in range(1980, 1980 + years):
        recent = year >= 1980 + years - 15
        last = date(year, 5, 10) + timedelta(days=round(random.gauss(-earlier_by if recent else 0, spread)))
        first = date(year, 10, 1) + timedelta(days=round(random.gauss(0, spread)))
        for step in range(365):
            day = date(year, 1, 1) + timedelta(days=step)
            minimums[day] = -5.0 if day <= last or day >= first else 5.0
    return FrostRecord(minimums, Hemisphere.NORTH)


def test_a_shift_is_told_from_chance() -> None:
    shifted = record(years=45, earlier_by=14)
    assert recent_since(shifted) == 2010
    last, first = (trend(shifted, side) for side in Side)
    assert (last.recent_years, last.every_years) == (15, 45)
    assert -16 < last.days_later < -5
    assert last.by_chance < 0.01
    assert first.by_chance > 0.05


def test_a_short_record_has_no_trend() -> None:
    assert trend(record(years=24, earlier_by=9), Side.LAST) is None
    assert recent_since(FrostRecord({}, Hemisphere.NORTH)) is None


def test_years_before_the_first_that_counts_are_left_out() -> None:
    whole = record(years=30, earlier_by=0)
    minimums = {
        whole.first_day + timedelta(days=step): value
        for step, value in enumerate(whole._minimums)
        if value is not None
    }
    recent = FrostRecord(minimums, Hemisphere.NORTH, since=1995)
    assert next(year.year for year in recent.years(0.0)) == 1995
    assert recent.curve(Side.LAST, 0.0).used == 15


def test_rank_sums_as_worked_by_hand() -> None:
    """Ranks 1 to 5 against 6 to 10: U = 0, z = (12.5 - 0.5) / 4.787 = 2.507; two-sided 0.0122."""
    assert rank_sum_chance([1, 2, 3, 4, 5], [6, 7, 8, 9, 10]) == pytest.approx(0.0122, abs=0.0002)
    assert rank_sum_chance([3, 3, 3], [3, 3, 3]) == 1.0
