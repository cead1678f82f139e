"""What must hold of each crop anywhere: whatever the nerve, the offset, the cover and the hemisphere."""

from __future__ import annotations

import random
from datetime import date, timedelta
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.bases import from_record
from schedules.climate import Climate
from schedules.days import DayWeather
from schedules.seasons import Hemisphere, Side, day_number, from_day_number
from schedules.windows import Nerve, Operation, Start, Turn, Window, derive
from tests.schedules.records import catalogue, champion
from tests.schedules.windows.climates import CLIMATES, weather

CROPS = catalogue()
HALF_YEAR = 182
RECORDS = {
    "Champion": lambda: champion().days,
    "mild winter": lambda: weather(18, 8),
    "cool sea coast": lambda: weather(10, 7, daily_range_c=7, weather_c=3),
}
crops = st.sampled_from(sorted(CROPS))
records = st.sampled_from(sorted(RECORDS))
percents = st.sampled_from([5.0, 10.0, 30.0, 50.0, 70.0])
offsets = st.sampled_from([-4.0, -2.1, 0.0, 1.2, 3.0])
covers = st.sampled_from([0.0, 1.1, 2.2, 4.4])
IN_ORDER = (
    Operation.START_INDOORS,
    Operation.HARDEN_OFF,
    Operation.SOW,
    Operation.TRANSPLANT,
    Operation.HARVEST,
)


@cache
def gappy(offset_c: float) -> Climate:
    """The cool sea coast by an observer who was away now and then for up to two weeks.

    Hardly more seasons freeze there than a nerve asks for, and the fewer the colder count at all.
    """
    dice, days = random.Random(5), RECORDS["cool sea coast"]()  # noqa: S311 - gaps, not secrets
    away = {n + step for n in range(len(days)) if dice.random() < 0.02 for step in range(dice.randint(1, 14))}
    seen = [day for n, day in enumerate(days) if n not in away]
    return from_record(seen, Hemisphere.NORTH, offset_c=offset_c)


@cache
def garden(record: str, offset_c: float) -> Climate:
    return from_record(RECORDS[record](), Hemisphere.NORTH, offset_c=offset_c)


def begins(windows: tuple[Window, ...], turn: Turn = Turn.SPRING) -> dict[Start, date]:
    """The first day of each way of beginning, where there is a window."""
    return {
        window.start: window.earliest
        for window in windows
        if window.turn is turn
        and window.succession == 1
        and window.operation in (Operation.SOW, Operation.TRANSPLANT)
        and window.earliest is not None
    }


def never_later(sooner: dict[Start, date], later: dict[Start, date]) -> None:
    for start in sooner.keys() & later.keys():
        assert sooner[start] <= later[start]


@given(crops, st.sampled_from(sorted(CLIMATES)), st.tuples(percents, percents), covers)
@settings(max_examples=80, deadline=None)
def test_more_nerve_never_makes_a_spring_start_later(crop, climate, nerves, cover_c):
    careful, bold = (
        derive(CROPS[crop], CLIMATES[climate](), year=2026, nerve=Nerve(percent), cover_c=cover_c)
        for percent in sorted(nerves)
    )
    never_later(begins(bold), begins(careful))


@given(crops, records, st.tuples(offsets, offsets), percents, covers)
@settings(max_examples=80, deadline=None)
def test_a_colder_offset_never_makes_a_spring_start_earlier(crop, record, both, percent, cover_c):
    colder, warmer = (
        derive(CROPS[crop], garden(record, offset), year=2026, nerve=Nerve(percent), cover_c=cover_c)
        for offset in sorted(both)
    )
    never_later(begins(warmer), begins(colder))


@given(
    crops, st.sampled_from([(0.6, 0.8), (2.2, 2.4), (5.0, 5.2)]), st.sampled_from([10.0, 30.0, 50.0]), covers
)
@settings(max_examples=60, deadline=None)
def test_nor_where_a_step_of_it_tips_which_seasons_count(crop, step, percent, cover_c):
    colder, warmer = (
        derive(CROPS[crop], gappy(offset), year=2026, nerve=Nerve(percent), cover_c=cover_c)
        for offset in step
    )
    never_later(begins(warmer), begins(colder))


def test_where_most_springs_are_free_of_frost_a_careful_nerve_still_minds_the_others():
    climate = garden("mild winter", 5.5)
    freezes = climate.risk(Side.LAST, 0.0)
    assert freezes.day(50) is None
    careful, bold = (
        begins(derive(CROPS["bean-bush"], climate, year=2026, nerve=Nerve(percent)))[Start.SOW]
        for percent in (10.0, 50.0)
    )
    assert freezes.chance(day_number(bold, 2026)) > 0.2
    shows = careful + timedelta(days=freezes.day(10) - day_number(careful, 2026))
    assert bold < careful < shows
    assert freezes.chance(day_number(shows, 2026)) <= 0.11  # a plain count beside a quantile


def test_seed_waits_for_no_warmth_that_the_soil_never_has():
    cold, warmer = (
        derive(CROPS["bean-bush"], garden("cool sea coast", offset), year=2026, nerve=Nerve(50))
        for offset in (-7.0, 1.2)
    )
    codes = {reason.code for window in cold for reason in window.reasons if window.turn is Turn.SPRING}
    assert codes == {"soil-never-warm-enough"}
    assert Start.SOW in begins(warmer)


def test_nothing_stands_through_a_winter_that_is_too_cold_to_grow_in():
    windows = derive(CROPS["watermelon"], garden("cool sea coast", 7.8), year=2026, nerve=Nerve(10))
    sown = [window for window in windows if window.start is Start.SOW]
    assert [reason.code for window in sown for reason in window.reasons] == 2 * ["never-right-warmth"]


@given(crops, st.sampled_from(sorted(CLIMATES)), st.tuples(covers, covers), percents)
@settings(max_examples=60, deadline=None)
def test_a_better_cover_never_makes_a_spring_start_later(crop, climate, both, percent):
    thin, thick = (
        derive(CROPS[crop], CLIMATES[climate](), year=2026, nerve=Nerve(percent), cover_c=cover_c)
        for cover_c in sorted(both)
    )
    never_later(begins(thick), begins(thin))


@given(crops, records, offsets, percents, covers)
@settings(max_examples=80, deadline=None)
def test_operations_keep_their_order(crop, record, offset_c, percent, cover_c):
    courses: dict[tuple[Turn, Start, int], dict[Operation, Window]] = {}
    windows = derive(CROPS[crop], garden(record, offset_c), year=2026, nerve=Nerve(percent), cover_c=cover_c)
    for window in windows:
        if window.earliest is not None:
            assert window.earliest <= window.best <= window.latest
            key = window.turn, window.start, window.succession
            courses.setdefault(key, {})[window.operation] = window
    for course in courses.values():
        in_turn = [course[operation] for operation in IN_ORDER if operation in course]
        for one, after in pairwise(in_turn):
            assert one.earliest <= after.earliest
            assert one.best <= after.best
            assert one.latest <= after.latest
        if Operation.THIN in course:
            assert course[Operation.SOW].earliest < course[Operation.THIN].earliest


@cache
def both_hemispheres(record: str) -> tuple[Climate, Climate]:
    """The same weather in the north, and half a year later in the south."""
    days = [day for day in RECORDS[record]() if (day.day.month, day.day.day) != (2, 29)]
    moved = [
        DayWeather(
            from_day_number(day_number(day.day, day.day.year) + HALF_YEAR, day.day.year),
            day.tmin_c,
            day.tmax_c,
            day.precip_mm,
        )
        for day in days
    ]
    return from_record(days, Hemisphere.NORTH), from_record(moved, Hemisphere.SOUTH)


@pytest.mark.parametrize("record", RECORDS)
def test_the_south_does_the_same_half_a_year_later(record):
    north, south = both_hemispheres(record)
    for facts in CROPS.values():
        for turn, year in ((Turn.SPRING, 2026), (Turn.AUTUMN, 2027)):
            ours = [w for w in derive(facts, north, year=2026, nerve=Nerve(30)) if w.turn is turn]
            theirs = [w for w in derive(facts, south, year=year, nerve=Nerve(30)) if w.turn is turn]
            for one, other in zip(ours, theirs, strict=True):
                assert one.operation is other.operation
                for edge in ("earliest", "best", "latest"):
                    day, half_a_year_on = getattr(one, edge), getattr(other, edge)
                    assert (day is None) == (half_a_year_on is None), (facts.slug, one, other)
                    if day is not None:
                        moved = from_day_number(day_number(day, 2026) + HALF_YEAR, 2026)
                        assert abs(half_a_year_on - moved) <= timedelta(days=2), (facts.slug, one, other)
