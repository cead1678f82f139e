"""Windows worked out by hand from the catalogue's facts and a climate that can be read at a glance.

Frost dates 9 May and 28 September are the even-chance dates of Champion, Nebraska, 1982-2018
(tests/reference/frost_expected.json). Offsets and days are those of fixtures/catalogue/crops.csv.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from schedules.bases import TableDate, from_mean, from_table
from schedules.climate import Climate
from schedules.seasons import Hemisphere, Side
from schedules.windows import AS_PUBLISHED, CAREFUL, Edge, Nerve, Operation, Start, Turn, Window, derive
from tests.schedules.records import catalogue

CROPS = catalogue()
CHAMPION = from_mean(Hemisphere.NORTH, last=(5, 9), first=(9, 28))


def one(
    crop: str,
    operation: Operation,
    *,
    climate: Climate = CHAMPION,
    turn: Turn = Turn.SPRING,
    start: Start | None = None,
    nerve: Nerve = AS_PUBLISHED,
    year: int = 2026,
) -> Window:
    """The first such window."""
    return next(
        window
        for window in derive(CROPS[crop], climate, year=year, nerve=nerve)
        if window.operation is operation and window.turn is turn and start in (None, window.start)
    )


def days(window: Window) -> tuple[date | None, date | None, date | None]:
    return window.earliest, window.best, window.latest


def why(window: Window, edge: Edge) -> str:
    """The code of the reason that set an edge."""
    return next(reason.code for reason in window.reasons if reason.edge is edge and reason.decisive)


def test_tomato_goes_out_one_to_five_weeks_after_the_last_frost():
    window = one("tomato", Operation.TRANSPLANT)
    assert days(window) == (date(2026, 5, 16), date(2026, 5, 25), date(2026, 6, 13))
    assert why(window, Edge.EARLIEST) == "published-earliest"
    assert why(window, Edge.LATEST) == "published-latest"


def test_tomato_starts_indoors_five_to_eight_weeks_before_and_hardens_off_in_the_last_ten_days():
    assert days(one("tomato", Operation.START_INDOORS)) == (
        date(2026, 3, 21),
        date(2026, 4, 9),
        date(2026, 5, 9),
    )
    assert days(one("tomato", Operation.HARDEN_OFF)) == (
        date(2026, 5, 6),
        date(2026, 5, 15),
        date(2026, 6, 6),
    )


def test_tomato_is_picked_from_maturity_until_the_freeze():
    window = one("tomato", Operation.HARVEST)
    assert window.earliest == date(2026, 5, 16) + timedelta(days=65)
    assert window.latest == date(2026, 9, 28)
    assert why(window, Edge.LATEST) == "killed-by-freeze"


def test_carrot_is_thinned_after_its_true_leaves():
    sown, thinned = one("carrot", Operation.SOW), one("carrot", Operation.THIN)
    # Six days to emerge at the optimum, twice that on a seed packet, ten more to true leaves.
    assert thinned.earliest - sown.earliest == timedelta(days=12 + 10)
    assert thinned.latest - sown.latest == timedelta(days=12 + 10 + 10)


def test_what_is_sown_where_it_stays_is_not_thinned():
    """Large seed is sown at its distance; beans and peas need no thinning (The Columbian, June 2014)."""
    for slug in ("potato", "bean-bush", "pea-snap"):
        windows = derive(CROPS[slug], CHAMPION, year=2026, nerve=AS_PUBLISHED)
        assert Operation.THIN not in {window.operation for window in windows}, slug
    assert one("melon", Operation.THIN)  # sown a foot apart, left two feet apart


def test_autumn_is_counted_back_from_the_first_frost():
    window = one("turnip", Operation.SOW, turn=Turn.AUTUMN)
    # May ripen 14 days after 28 September, on 12 October: 20 days after the equinox, which count for 15 of
    # the 45 that a quick variety takes. The other 30 lie before it.
    assert window.latest == date(2026, 9, 22) - timedelta(days=30)
    assert why(window, Edge.LATEST) == "counted-back-latest"


def test_a_careful_garden_with_dates_alone_has_its_autumn_crops_ripe_before_the_freeze():
    wide = from_mean(Hemisphere.NORTH, last=(5, 9), first=(9, 28), spread_days=20)
    usual, careful = (
        one("bean-bush", Operation.SOW, turn=Turn.AUTUMN, climate=wide, nerve=nerve)
        for nerve in (AS_PUBLISHED, CAREFUL)
    )
    # Published: ripe 14 days before the mean first frost. Careful: by 1.2816 x 20 = 26 days before it.
    assert why(careful, Edge.LATEST) == "counted-back-latest"
    assert (usual.latest - careful.latest).days == 26 - 14


def test_garlic_is_set_around_the_first_frost_and_picked_next_year():
    sown, picked = (one("garlic", op, turn=Turn.AUTUMN) for op in (Operation.SOW, Operation.HARVEST))
    assert (sown.earliest, sown.latest) == (date(2026, 9, 14), date(2026, 10, 26))
    assert picked.earliest == sown.best + timedelta(days=240)
    assert picked.latest == sown.best + timedelta(days=270 + 14)
    spring = one("garlic", Operation.SOW)
    assert days(spring) == (None, None, None)
    assert why(spring, Edge.NONE) == "not-planted-in-spring"


def test_asparagus_waits_for_its_third_year():
    window = one("asparagus", Operation.HARVEST)
    assert days(window) == (None, None, None)
    assert window.reasons[0].values == {"year": 3, "days": 56}


def test_slips_are_sown_by_their_transplanting_dates():
    window = one("sweet-potato", Operation.SOW)
    assert window.earliest == date(2026, 5, 9) + timedelta(weeks=3)


def test_a_crop_that_needs_longer_than_the_season_says_how_long():
    alpine = from_mean(Hemisphere.NORTH, last=(6, 20), first=(8, 25))
    window = one("watermelon", Operation.SOW, climate=alpine)
    assert days(window) == (None, None, None)
    assert window.reasons[0].code == "season-too-short"
    assert window.reasons[0].values["days"] == 85


def test_a_second_crop_of_summer_vegetables_needs_a_long_season():
    assert why(one("tomato", Operation.TRANSPLANT, turn=Turn.AUTUMN), Edge.NONE) == "autumn-needs-long-season"
    oklahoma = from_mean(Hemisphere.NORTH, last=(4, 15), first=(11, 15))
    latest = one("tomato", Operation.TRANSPLANT, turn=Turn.AUTUMN, climate=oklahoma).latest
    # Ripe by 1 November, 40 days after the equinox, which count for 30 of 65; 35 lie before it.
    assert latest == date(2026, 9, 22) - timedelta(days=35)


def test_mild_winters_start_cool_season_crops_earlier_and_no_further_than_fitted():
    def cabbage(month: int, day: int) -> timedelta:
        climate = from_mean(Hemisphere.NORTH, last=(month, day))
        return one("cabbage", Operation.TRANSPLANT, climate=climate).earliest - date(2026, month, day)

    assert cabbage(5, 9) == timedelta(weeks=-5)
    assert cabbage(3, 20) == timedelta(weeks=-5, days=-6)
    assert cabbage(2, 1) == timedelta(weeks=-5, days=-6)


def test_edges_cross_new_year_where_the_last_frost_comes_in_january():
    gulf = from_mean(Hemisphere.NORTH, last=(1, 25))
    assert one("cabbage", Operation.TRANSPLANT, climate=gulf).earliest == date(2025, 12, 15)


@pytest.mark.parametrize(("percent", "start"), [(10, date(2026, 5, 24)), (30, date(2026, 5, 16))])
def test_nerve_holds_a_tender_transplant_back_until_the_risk_has_fallen(percent, start):
    # With a spread of 12 days a freeze comes on or after 24 May in 10 years of 100 (1.2816 x 12 = 15 days
    # later), on or after 15 May in 30 (0.5244 x 12 = 6 days later), which the published week after already
    # covers.
    window = one("tomato", Operation.TRANSPLANT, nerve=Nerve(percent))
    assert window.earliest == start


def test_a_window_held_back_by_risk_keeps_its_length():
    published = one("tomato", Operation.TRANSPLANT)
    careful = one("tomato", Operation.TRANSPLANT, nerve=CAREFUL)
    assert careful.latest - careful.earliest == published.latest - published.earliest
    assert why(careful, Edge.LATEST) == "published-latest-delayed"


def test_seed_is_exposed_only_from_emergence():
    window = one("bean-bush", Operation.SOW, nerve=CAREFUL)
    # Eight days to emerge at the optimum, twice that on a seed packet: sown on 8 May, it shows on 24 May.
    assert why(window, Edge.EARLIEST) == "published-earliest"
    colder = from_mean(Hemisphere.NORTH, last=(5, 9), first=(9, 28), spread_days=20)
    held_back = one("bean-bush", Operation.SOW, climate=colder, nerve=CAREFUL)
    assert why(held_back, Edge.EARLIEST) == "frost-risk-emergence"
    assert held_back.earliest == date(2026, 5, 9) + timedelta(days=26 - 16)  # 1.2816 x 20 = 26 days


def test_a_typed_table_gives_hardy_crops_their_own_threshold():
    dates = [TableDate(0.0, Side.LAST, 50, 5, 9), TableDate(-4.4, Side.LAST, 10, 5, 4)]
    window = one("broccoli", Operation.TRANSPLANT, climate=from_table(dates, Hemisphere.NORTH), nerve=CAREFUL)
    assert window.earliest == date(2026, 5, 4)
    assert why(window, Edge.EARLIEST) == "frost-risk-transplant"


def test_the_south_counts_the_same_half_a_year_later():
    north = one(
        "tomato", Operation.TRANSPLANT, climate=from_mean(Hemisphere.NORTH, last=(3, 31), first=(10, 31))
    )
    south = one(
        "tomato", Operation.TRANSPLANT, climate=from_mean(Hemisphere.SOUTH, last=(9, 29), first=(5, 1))
    )
    for ours, theirs in zip(days(north), days(south), strict=True):
        assert abs((theirs - ours).days - 182) <= 2
    picked = one("tomato", Operation.HARVEST, climate=from_mean(Hemisphere.SOUTH, last=(9, 29), first=(5, 1)))
    assert picked.latest.year == 2027


def test_a_variety_with_other_facts_has_other_windows():
    quick = replace(CROPS["turnip"], maturity_days_low=30)
    windows = derive(quick, CHAMPION, year=2026, nerve=AS_PUBLISHED)
    latest = next(w.latest for w in windows if w.turn is Turn.AUTUMN and w.operation is Operation.SOW)
    assert latest == date(2026, 9, 22) - timedelta(days=15)
