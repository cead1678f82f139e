"""What must hold of every record, table and mean, whatever its values."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.frost import FrostRecord
from schedules.frost_tables import AssumedCurve, TableCurve, TablePoint
from schedules.seasons import Hemisphere, Side

sides = st.sampled_from(Side)
percents = st.integers(1, 99)


@st.composite
def records(draw: st.DrawFn) -> FrostRecord:
    """A few years of weather: mild, with frost nights and gaps anywhere."""
    start = date(draw(st.integers(1990, 2005)), draw(st.integers(1, 12)), 1)
    length = draw(st.integers(200, 2000))
    values = {start + timedelta(days=n): 6.0 for n in range(length)}
    for offset, minimum in draw(
        st.dictionaries(st.integers(0, length - 1), st.floats(-9, 1), max_size=25)
    ).items():
        values[start + timedelta(days=offset)] = minimum
    for offset, gap in draw(
        st.dictionaries(st.integers(0, length - 1), st.integers(1, 14), max_size=4)
    ).items():
        for day in range(offset, offset + gap):
            values.pop(start + timedelta(days=day), None)
    return FrostRecord(
        values, draw(st.sampled_from(Hemisphere)), offset_c=draw(st.sampled_from([0, -1.5, 2]))
    )


@given(records(), sides)
@settings(max_examples=40, deadline=None)
def test_counts_never_exceed_the_seasons_and_a_colder_threshold_never_freezes_more(record, side):
    warm, cold = record.curve(side, 0.0), record.curve(side, -4.4)
    assert 0 <= warm.frozen <= warm.used
    for day in range(-150, 550, 7):
        assert 0 <= warm.count(day) <= warm.frozen
    assert set(cold.dates) <= set(warm.dates) | set(warm.left_out)
    for year in set(warm.dates) & set(cold.dates):
        ordered = (cold.dates[year], warm.dates[year])
        assert ordered == tuple(sorted(ordered, reverse=side is Side.FIRST))


@given(records(), sides, st.lists(percents, min_size=2, max_size=6))
@settings(max_examples=40, deadline=None)
def test_a_rarer_freeze_is_later_in_spring_and_earlier_in_autumn(record, side, asked):
    curve = record.curve(side, 0.0)
    days = [day for percent in sorted(asked) if (day := curve.day(percent)) is not None]
    assert days == sorted(days, reverse=side is Side.LAST)
    missing = [curve.day(percent) is None for percent in sorted(asked)]
    assert missing == sorted(missing)  # once too rare, too rare for every greater chance


@st.composite
def rare_freezes(draw: st.DrawFn) -> FrostRecord:
    """Seven northern seasons of two or three cold nights each, some with a gap: any night may decide."""
    nights = st.tuples(st.integers(60, 300), st.integers(-5, 5).map(float))
    values: dict[date, float] = {}
    for year in range(2001, 2008):
        season = [date(year, 8, 1) + timedelta(days=n) for n in range(365)]
        gap = draw(st.integers(0, 900))
        values |= {day: 9.0 for n, day in enumerate(season) if not gap <= n < gap + 12}
        for n, minimum in draw(st.lists(nights, min_size=2, max_size=3)):
            values[season[n]] = minimum
    return FrostRecord(values, Hemisphere.NORTH)


@given(rare_freezes(), sides, st.sampled_from([10.0, 30.0, 42.0, 50.0, 70.0]))
@settings(max_examples=25, deadline=None)
def test_a_colder_freeze_is_never_told_to_last_longer_than_a_milder_one(record, side, percent):
    every = [record.curve(side, float(celsius)).day(percent) for celsius in range(-6, 7)]
    days = [day for day in every if day is not None]
    assert days == sorted(days, reverse=side is Side.FIRST)
    assert every[len(every) - len(days) :] == days  # once too rare, too rare for every colder one


@given(sides, st.floats(-200, 500), st.floats(0.5, 60), percents)
def test_an_assumed_curve_gives_back_its_own_chance(side, mean, spread, percent):
    curve = AssumedCurve(side, 0.0, mean, spread)
    day = curve.day(percent)
    chances = sorted((curve.chance(day - 1), curve.chance(day + 1)))
    assert chances[0] <= percent / 100 <= chances[1]


@given(sides, st.dictionaries(percents, st.just(None), min_size=1, max_size=9), st.data())
def test_a_table_goes_through_its_dates_and_runs_one_way(side, chances, data):
    ordered = sorted(chances, reverse=side is Side.LAST)
    days = sorted(data.draw(st.sets(st.integers(1, 365), min_size=len(ordered), max_size=len(ordered))))
    points = [TablePoint(percent, day) for percent, day in zip(ordered, days, strict=True)]
    curve = TableCurve(side, 0.0, points)
    assert [curve.day(point.percent) for point in points] == days
    drawn = [curve.chance(day) for day in range(-60, 430, 5)]
    assert drawn == sorted(drawn, reverse=side is Side.LAST)
    assert all(0 <= chance <= 1 for chance in drawn)
