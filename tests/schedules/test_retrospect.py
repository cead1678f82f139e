"""A year's real freezes, found and placed on the curve."""

from __future__ import annotations

from datetime import date

from schedules.bases import from_mean
from schedules.frost import FrostYear, Outcome, RecordCurve
from schedules.retrospect import Minimum, is_settled, nights_unread, placed, real_freeze
from schedules.seasons import Hemisphere, Side

LASTS = [FrostYear(2010 + step, last=date(2010 + step, 5, 1 + step)) for step in range(9)]
CURVE = RecordCurve(Side.LAST, 0.0, [*LASTS, FrostYear(2019, last=Outcome.NONE)])


def test_the_last_freeze_lies_later_than_in_nine_years_of_ten() -> None:
    late = placed(CURVE, date(2024, 5, 14), 2024)
    assert (late.earlier, late.later, late.years, late.is_late) == (10, 0, 10, True)
    middle = placed(CURVE, date(2024, 5, 5), 2024)
    assert (middle.earlier, middle.later, middle.years) == (5, 4, 10)
    own_year_left_out = placed(CURVE, date(2018, 5, 9), 2018)
    assert (own_year_left_out.earlier, own_year_left_out.years) == (9, 9)
    read_in_the_garden_alone = placed(CURVE, date(2019, 5, 14), 2019)
    assert (read_in_the_garden_alone.earlier, read_in_the_garden_alone.years) == (9, 9)


def test_a_first_freeze_counts_years_without_one_as_later() -> None:
    firsts = [FrostYear(2010, first=date(2010, 10, 4)), FrostYear(2011, first=Outcome.NONE)]
    found = placed(RecordCurve(Side.FIRST, 0.0, firsts), date(2024, 9, 30), 2024)
    assert (found.earlier, found.later, found.is_late) == (0, 2, False)


def test_mean_dates_give_shares_and_no_counts() -> None:
    curve = from_mean(Hemisphere.NORTH, last=(5, 10), spread_days=10).risk(Side.LAST, 0.0)
    found = placed(curve, date(2024, 5, 20), 2024)
    assert found.years is None
    assert round(found.earlier_share, 2) == 0.84  # one standard deviation late
    assert placed(RecordCurve(Side.LAST, 0.0, LASTS[:1]), date(2010, 5, 1), 2010) is None


def test_real_freezes_are_those_of_their_cold_season() -> None:
    nights = {
        date(2023, 10, 2): Minimum(-1.0, in_garden=False),
        date(2024, 4, 20): Minimum(-2.0, in_garden=False),
        date(2024, 5, 14): Minimum(0.0, in_garden=True),
        date(2024, 6, 1): Minimum(4.0, in_garden=True),
        date(2024, 9, 30): Minimum(-0.5, in_garden=True),
        date(2024, 10, 8): Minimum(-3.0, in_garden=False),
    }
    north = Hemisphere.NORTH
    last = real_freeze(nights, Side.LAST, 2024, north)
    assert (last.day, last.minimum.in_garden, last.nights) == (date(2024, 5, 14), True, 4)
    assert real_freeze(nights, Side.FIRST, 2024, north).day == date(2024, 9, 30)
    assert real_freeze(nights, Side.LAST, 2024, north, celsius=-2.2) is None
    south = {day.replace(month=(day.month + 5) % 12 + 1, day=1): low for day, low in nights.items()}
    assert real_freeze(south, Side.LAST, 2024, Hemisphere.SOUTH).day == date(2024, 11, 1)


def test_a_spring_is_settled_once_no_year_froze_later() -> None:
    assert not is_settled(CURVE, 2024, date(2024, 5, 9))
    assert is_settled(CURVE, 2024, date(2024, 5, 10))


def test_a_freeze_is_the_last_only_where_the_nights_after_it_are_known() -> None:
    last = real_freeze({date(2024, 4, 20): Minimum(-1.0, in_garden=True)}, Side.LAST, 2024, Hemisphere.NORTH)
    here = {"hemisphere": Hemisphere.NORTH, "today": date(2024, 7, 1)}
    assert nights_unread([], last, CURVE, 2024, **here) == 19  # to 9 May, the latest ever known
    assert nights_unread([date(2024, 5, 1)], last, CURVE, 2024, **here) == 18
    assert nights_unread([], last, CURVE, 2024, **here | {"today": date(2024, 4, 22)}) == 2
    firsts = RecordCurve(Side.FIRST, 0.0, [FrostYear(2010, first=date(2010, 10, 4))])
    first = real_freeze(
        {date(2024, 10, 20): Minimum(-1.0, in_garden=True)}, Side.FIRST, 2024, Hemisphere.NORTH
    )
    assert nights_unread([], first, firsts, 2024, hemisphere=Hemisphere.NORTH, today=date(2024, 12, 1)) == 16
