"""Figures of a period, worked out by hand: what nobody wrote down stays blank, year by year."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from schedules.figures import Logged, Share, totals
from schedules.summary import (
    Figure,
    GardenKnown,
    Ground,
    Period,
    Tenure,
    Waiting,
    WorkshopHeld,
    by_week,
    figures_of_garden,
    languages_read,
    share_of_plots,
)
from schedules.time_given import TimeGiven
from schedules.work import Work
from schedules.yields import crop_yields

YEAR = Period(date(2026, 1, 1), date(2026, 12, 31))
AFTER = date(2027, 2, 1)
ANA, BEN, CAI, DEE = 1, 2, 3, 4
HOURS = [
    TimeGiven(date(2026, 4, 11), 90, person=ANA, workday="Spring", task="Chips"),
    TimeGiven(date(2026, 4, 11), 40, guest="Pat Ash", workday="Spring", task="Chips"),
    TimeGiven(date(2026, 10, 3), 10, guest=" pat ash", workday="Autumn"),
    TimeGiven(date(2026, 11, 4), 10, guest="Kit", task="Wash pots"),
]
KNOWN = GardenKnown(
    ground=[
        Ground(1, 10.0),
        Ground(2, 20.0),
        Ground(3, 30.0),
        Ground(4, 40.0, retired=date(2025, 6, 1)),
        Ground(5, 99.0, bed=True),
        Ground(6, 50.0, made=date(2027, 1, 3)),
    ],
    tenures=[
        Tenure(1, (ANA, BEN), date(2025, 3, 1)),
        Tenure(2, (CAI,), date(2025, 3, 1), date(2026, 7, 15)),
        Tenure(2, (DEE,), date(2026, 7, 16)),
        Tenure(4, (BEN,), date(2024, 3, 1), date(2025, 5, 30)),
    ],
    waiting=[
        Waiting(date(2025, 11, 2), date(2026, 7, 16)),
        Waiting(date(2026, 5, 1)),
        Waiting(date(2026, 9, 1)),
    ],
    hours=HOURS,
    paid=[(date(2026, 3, 1), 20.5), (date(2026, 3, 9), 25.0), (date(2025, 3, 1), 15.0)],
    households={CAI: 1, DEE: 1},
    since=date(2025, 3, 1),
    languages={ANA: "en", BEN: "es", CAI: "", DEE: "en"},
    workdays=[date(2026, 4, 11), date(2026, 10, 3), date(2025, 4, 5)],
    workshops=[
        WorkshopHeld(date(2026, 3, 7), "Frost", expected=20, attended=14),
        WorkshopHeld(date(2026, 9, 7), "Autumn", expected=None, attended=None),
    ],
    logs=[
        *(one.logged for one in HOURS),
        Logged(date(2026, 6, 3), Work.WATER, plot=1, litres=50.0),
        Logged(date(2026, 7, 3), Work.PICK, plot=1, crop=7, grams=500.0, given_away=True, given_to="Pantry"),
        Logged(date(2026, 7, 9), Work.PICK, plot=1, crop=8, pieces=6, given_away=True, given_to=" pantry "),
        Logged(date(2025, 7, 9), Work.PICK, plot=2, crop=7, grams=9000.0),
    ],
)


def test_every_figure_of_a_year():
    assert figures_of_garden(KNOWN, YEAR, AFTER) == {
        Figure.PLOTS: 3,
        Figure.AREA: 60.0,
        Figure.HELD: 2,
        Figure.FREE: 1,
        Figure.CHANGED: 1,
        Figure.BEDS: 1,
        Figure.MEMBERS: 4,
        Figure.HOUSEHOLDS: 2,
        Figure.NEW: 1,
        Figure.RETURNING: 3,
        Figure.WAITING_FIRST: 1,
        Figure.WAITING_LAST: 2,
        Figure.LANGUAGES: 2,
        Figure.HOURS: 150,
        Figure.GUEST_HOURS: 60,
        Figure.WORKED: 1,
        Figure.GUESTS: 2,
        Figure.WORKDAYS: 2,
        Figure.AT_PLOTS: None,
        Figure.PICKED: 500.0,
        Figure.PICKED_PIECES: 6,
        Figure.CROPS: 2,
        Figure.GIVEN: 500.0,
        Figure.GIVEN_PIECES: 6,
        Figure.RECEIVERS: 1,
        Figure.WATER: 50.0,
        Figure.WATERINGS: 1,
        Figure.WORKSHOPS: 2,
        Figure.EXPECTED: 20,
        Figure.ATTENDED: 14,
        Figure.DUES: 45.5,
    }
    assert share_of_plots(KNOWN, YEAR) == Share(1, 2)
    assert languages_read(KNOWN, YEAR) == {"en": 2, "es": 1}


def test_a_plot_changes_hands_over_the_winter_too():
    day = date(2026, 1, 1)
    passed = [Tenure(1, (ANA, BEN), date(2025, 3, 1), date(2025, 12, 31)), Tenure(1, (CAI,), day)]
    within = [Tenure(1, (ANA, BEN), date(2025, 3, 1), date(2025, 12, 31)), Tenure(1, (BEN, ANA), day)]
    twice = [*passed[:1], Tenure(1, (CAI,), day, date(2026, 6, 1)), Tenure(1, (DEE,), date(2026, 8, 1))]

    def changed(tenures, period=YEAR):
        known = GardenKnown(**{**_parts(), "tenures": tenures})
        return figures_of_garden(known, period, AFTER)[Figure.CHANGED]

    assert [changed(one) for one in (passed, within, twice)] == [1, 0, 1]
    assert changed(passed, YEAR.earlier(1)) == 0


def test_what_nobody_wrote_down_stays_blank():
    before = figures_of_garden(KNOWN, YEAR.earlier(1), AFTER)
    assert before[Figure.PICKED] == 9000.0
    assert (before[Figure.NEW], before[Figure.RETURNING]) == (2, 1)  # Ben had a plot in 2024
    first = figures_of_garden(KNOWN, YEAR.earlier(2), AFTER)
    assert (first[Figure.HELD], first[Figure.MEMBERS]) == (1, 1)
    assert {first[one] for one in (Figure.PLOTS, Figure.FREE, Figure.NEW, Figure.RETURNING)} == {None}
    assert set(figures_of_garden(KNOWN, YEAR.earlier(-2), AFTER).values()) == {None}  # of 2028 nobody knows
    assert before[Figure.HOURS] is before[Figure.WATER] is before[Figure.WORKSHOPS] is None
    assert set(figures_of_garden(KNOWN, YEAR.earlier(5), AFTER).values()) == {None}
    sizes_unknown = figures_of_garden(
        GardenKnown(**{**_parts(), "ground": [Ground(1, 10.0), Ground(2)]}), YEAR, AFTER
    )
    assert sizes_unknown[Figure.AREA] is None  # and not the area of some of the plots


def _parts() -> dict:
    return {name: getattr(KNOWN, name) for name in KNOWN.__slots__}


def test_a_running_year_is_counted_as_far_as_today():
    found = figures_of_garden(KNOWN, YEAR, date(2026, 6, 1))
    assert (found[Figure.WORKDAYS], found[Figure.WAITING_LAST], found[Figure.FREE]) == (1, 2, 1)


@given(
    st.lists(
        st.tuples(st.integers(0, 800), st.sampled_from([1, 2, None]), st.floats(1, 5000)).map(
            lambda one: Logged(
                date(2025, 1, 1) + timedelta(days=one[0]), Work.PICK, plot=1, crop=one[1], grams=one[2]
            )
        )
    )
)
def test_weeks_and_crops_add_up_to_the_whole(logs):
    whole = totals(logs).grams
    assert abs(sum(by_week(logs, lambda one: one.grams).values()) - whole) < 1e-6 * (1 + whole)
    assert abs(sum(one.sums.grams for one in crop_yields(logs)) - whole) < 1e-6 * (1 + whole)
    assert all(monday.weekday() == 0 for monday in by_week(logs, lambda one: one.grams))
