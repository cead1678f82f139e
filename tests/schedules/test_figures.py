"""Sums of logs, worked out by hand; nothing is filled in and nothing counts twice."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from schedules.figures import (
    Gift,
    Logged,
    Share,
    days_by_work,
    gifts,
    grouped,
    months,
    share_that_logged,
    totals,
)
from schedules.seasons import Hemisphere
from schedules.work import Work
from schedules.years import span_of, year_of

A, B = 1, 2
KALE, LEEK = 10, 11
YEAR = [
    Logged(date(2026, 3, 30), "note", plot=A),
    Logged(date(2026, 4, 2), "sow", plot=A, crop=KALE, minutes=30),
    Logged(date(2026, 6, 1), "water", plot=A, litres=60.5),
    Logged(date(2026, 6, 1), "water", plot=A, litres=20.0, minutes=10),
    Logged(date(2026, 6, 9), "water", plot=B),
    Logged(date(2026, 6, 9), "hours", person=7, minutes=90),
    Logged(date(2026, 7, 4), "harvest", plot=A, crop=KALE, grams=800.0),
    Logged(date(2026, 7, 20), "harvest", plot=A, crop=KALE, grams=200.0, given_away=True, given_to="Pantry"),
    Logged(date(2026, 7, 20), "harvest", plot=B, crop=LEEK, pieces=12, given_away=True, given_to=" pantry"),
    Logged(date(2026, 8, 2), "harvest", plot=B, crop=LEEK, given_away=True),
]


def test_a_year_adds_up():
    found = totals(YEAR)
    assert (found.logs, found.waterings, found.unmeasured, found.litres) == (10, 3, 1, 80.5)
    assert (found.pickings, found.unweighed, found.grams, found.pieces) == (4, 1, 1000.0, 12)
    assert (found.given_grams, found.given_pieces) == (200.0, 12)
    assert (found.minutes, found.garden_minutes) == (40, 90)
    # 30 March has a note alone; 9 June was a watering, too
    assert (found.days_worked, found.last_worked) == (6, date(2026, 8, 2))
    assert (found.first_picked, found.last_picked) == (date(2026, 7, 4), date(2026, 8, 2))


def test_of_nothing_there_is_nothing():
    found = totals([])
    assert (found.logs, found.litres, found.grams, found.last_worked, found.first_picked) == (
        0,
        0,
        0,
        None,
        None,
    )
    assert gifts([]) == []
    assert days_by_work([]) == {}
    assert share_that_logged([], [A]) == Share(0, 1)


def test_groups_are_by_whatever_is_asked():
    by_plot = grouped(YEAR, lambda one: one.plot)
    assert {key: (sums.grams, sums.pieces, sums.litres) for key, sums in by_plot.items()} == {
        A: (1000.0, 0, 80.5),
        None: (0.0, 0, 0.0),
        B: (0.0, 12, 0.0),
    }
    assert grouped(YEAR, lambda one: one.crop)[LEEK].first_picked == date(2026, 7, 20)
    assert grouped(YEAR, lambda one: one.person)[7].garden_minutes == 90
    assert share_that_logged(YEAR, [A, 3]) == Share(1, 2)


def test_gifts_are_by_receiver_however_their_name_is_written():
    assert gifts(YEAR) == [Gift("Pantry", 2, 200.0, 12), Gift("", 1, 0.0, 0)]


def test_months_hold_days_and_sums_and_none_is_left_out():
    year = months(YEAR, *span_of(2026, Hemisphere.NORTH))
    assert [month.first.month for month in year] == list(range(1, 13))
    assert year[5].days == {"water": 2, "hours": 1}
    assert (year[5].totals.litres, year[6].totals.grams) == (80.5, 1000.0)
    assert days_by_work(YEAR)["water"] == [date(2026, 6, 1), date(2026, 6, 9)]
    assert list(days_by_work(YEAR)) == ["water", "harvest", "sow", "hours", "note"]


def test_the_southern_year_runs_over_new_year():
    assert span_of(2026, Hemisphere.NORTH) == (date(2026, 1, 1), date(2026, 12, 31))
    first, last = span_of(2026, Hemisphere.SOUTH)
    assert (first, last) == (date(2026, 7, 1), date(2027, 6, 30))
    around = [year_of(first - timedelta(days=1), Hemisphere.SOUTH), year_of(first, Hemisphere.SOUTH)]
    assert around == [2025, 2026]
    assert year_of(last, Hemisphere.SOUTH) == 2026


LOGS = st.lists(
    st.builds(
        Logged,
        day=st.dates(date(2026, 1, 1), date(2026, 12, 31)),
        work=st.sampled_from([str(work) for work in Work]),
        plot=st.sampled_from([None, A, B]),
        litres=st.none() | st.integers(1, 500).map(float),
        grams=st.none() | st.integers(1, 5000).map(float),
        minutes=st.none() | st.integers(1, 600),
        given_away=st.booleans(),
    ),
    max_size=12,
)


@given(LOGS)
def test_groups_add_up_to_the_whole(logs):
    whole = totals(logs)
    for parts in (
        list(grouped(logs, lambda one: one.plot).values()),
        [month.totals for month in months(logs, *span_of(2026, Hemisphere.NORTH))],
    ):
        for name in ("logs", "litres", "grams", "given_grams", "minutes", "garden_minutes", "unmeasured"):
            assert sum(getattr(part, name) for part in parts) == getattr(whole, name)
    assert sum(gift.times for gift in gifts(logs)) <= whole.pickings
    assert whole.given_grams <= whole.grams
