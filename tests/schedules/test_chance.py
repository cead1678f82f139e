"""The chance of success, against years counted by hand in a station's record."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from schedules.bases import TableDate, from_mean, from_record, from_table
from schedules.chance import Chance, NoChance, Odds, chances, ending_year, likely_days, turn_of
from schedules.days import DayWeather
from schedules.seasons import Hemisphere, Side
from schedules.windows import BOLD, CAREFUL, MIDDLING, Operation, Start, Turn, derive
from schedules.windows.ripening import Pace
from tests.schedules.records import catalogue, champion, minimums

CROPS = catalogue()
NORTH, SOUTH = Hemisphere.NORTH, Hemisphere.SOUTH
CHAMPION = from_record(champion().days, NORTH)
YEARS = range(1982, 2019)


def frozen(year: int, first: tuple[int, int], last: tuple[int, int], celsius: float) -> bool:
    """Whether the record has a day this cold in these days of a year."""
    days = (date(year, *last) - date(year, *first)).days + 1
    nights = (minimums().get(date(year, *first) + timedelta(n)) for n in range(days))
    return any(night is not None and night <= celsius for night in nights)


def known(chance: Chance | NoChance) -> Chance:
    assert isinstance(chance, Chance)
    return chance


@pytest.mark.parametrize("set_out", [(4, 20), (5, 10), (5, 16), (6, 1), (6, 25), (7, 10)])
def test_years_in_which_tomatoes_ripen_are_those_without_a_freeze_on_their_way(
    set_out: tuple[int, int],
) -> None:
    chance = known(Odds(CROPS["tomato"], CHAMPION, Start.TRANSPLANT).on(date(2026, *set_out)))
    ripe = (chance.ripe.month, chance.ripe.day)
    good = [year for year in YEARS if not frozen(year, set_out, ripe, 0.0)]
    assert (chance.count, chance.used) == (len(good), 37)
    young = [year for year in YEARS if set_out < (7, 1) and frozen(year, set_out, (7, 1), 0.0)]
    assert chance.killed_young == pytest.approx(len(young) / 37)
    assert chance.young_count == len(young)
    assert chance.late_count == 37 - len(good) - len(young)
    assert chance.share + chance.killed_young + chance.killed_late == pytest.approx(1)


def test_seed_is_exposed_from_when_it_shows() -> None:
    sown = known(Odds(CROPS["bean-bush"], CHAMPION, Start.SOW).on(date(2026, 5, 5)))
    assert sown.exposed > date(2026, 5, 12)
    shows = (sown.exposed.month, sown.exposed.day)
    good = [year for year in YEARS if not frozen(year, shows, (sown.ripe.month, sown.ripe.day), 0.0)]
    assert sown.count == len(good)


def test_tubers_are_exposed_when_their_shoots_can_first_show_and_sets_at_once() -> None:
    """Two weeks are the fewest of the two to four that extension guides print, from memory; UNL CropWatch has
    three as usual, and more in cooler soil."""
    day = date(2026, 5, 1)
    potato = known(Odds(CROPS["potato"], CHAMPION, Start.SOW).on(day))
    assert potato.exposed == day + timedelta(14)
    ripe = (potato.ripe.month, potato.ripe.day)
    assert potato.count == len([year for year in YEARS if not frozen(year, (5, 15), ripe, -2.2)])
    for slug in ("onion-sets", "sweet-potato"):
        assert Odds(CROPS[slug], CHAMPION, Start.SOW).exposed(day) == day


def test_a_row_cover_is_worth_its_degrees() -> None:
    day = date(2026, 5, 10)
    bare = known(Odds(CROPS["tomato"], CHAMPION, Start.TRANSPLANT).on(day))
    covered = known(Odds(CROPS["tomato"], CHAMPION, Start.TRANSPLANT, cover_c=2.0).on(day))
    assert (bare.young_c, covered.young_c) == (0.0, -2.0)
    ripe = (covered.ripe.month, covered.ripe.day)
    assert covered.count == len([year for year in YEARS if not frozen(year, (5, 10), ripe, -2.0)])
    assert covered.share > bare.share


@pytest.mark.parametrize("nerve", [CAREFUL, MIDDLING, BOLD])
def test_the_latest_day_of_autumn_has_the_chance_that_the_nerve_asks_for(nerve) -> None:
    for slug in ("carrot", "beet", "lettuce-leaf", "kohlrabi"):
        latest = next(
            window.latest
            for window in derive(CROPS[slug], CHAMPION, year=2026, nerve=nerve)
            if window.turn is Turn.AUTUMN and window.operation is Operation.SOW
        )
        assert latest is not None
        now, later = (
            known(Odds(CROPS[slug], CHAMPION, Start.SOW).on(latest + timedelta(days))) for days in (0, 7)
        )
        # Dates are quantiles, chances plain counts: a few years at most lie between them.
        assert abs((1 - now.share) * 100 - nerve.percent) <= 12
        assert later.share < now.share


def test_a_slow_variety_has_the_smaller_chance() -> None:
    odds = Odds(CROPS["tomato"], CHAMPION, Start.TRANSPLANT)
    quick, slow = (known(odds.on(date(2026, 6, 20), pace)) for pace in (Pace.QUICK, Pace.SLOW))
    assert quick.ripe < slow.ripe
    assert quick.share > slow.share


def test_a_season_is_drawn_from_no_chance_to_none() -> None:
    odds = Odds(CROPS["tomato"], CHAMPION, Start.TRANSPLANT)
    drawn = chances(odds, date(2026, 1, 1), date(2026, 12, 31), Pace.QUICK)
    assert (drawn[0][0], drawn[-1][0]) == (date(2026, 1, 1), date(2026, 12, 31))
    assert (drawn[0][1], drawn[-1][1]) == (0.0, 0.0)
    assert max(share for _day, share in drawn) == 1.0


def test_likely_days_are_those_on_which_enough_years_are_good() -> None:
    odds = Odds(CROPS["tomato"], CHAMPION, Start.TRANSPLANT)
    daily = chances(odds, date(2026, 1, 1), date(2026, 12, 31), Pace.QUICK, step=1)
    ((first, last),) = likely_days(daily, 0.7)
    good = {day for day, _share in daily if known(odds.on(day)).count >= 26}  # of 37: 70.3 %
    assert (min(good), max(good), len(good)) == (first, last, (last - first).days + 1)
    assert likely_days(daily, 1.01) == []


def test_half_a_year_later_in_the_south_the_chance_is_the_same() -> None:
    moved = [
        DayWeather(one.day + timedelta(182), one.tmin_c, one.tmax_c, one.precip_mm) for one in champion().days
    ]
    south = from_record(moved, SOUTH)
    for day in (date(2026, 5, 16), date(2026, 6, 25)):
        here = known(Odds(CROPS["tomato"], CHAMPION, Start.TRANSPLANT).on(day))
        there = known(Odds(CROPS["tomato"], south, Start.TRANSPLANT).on(day + timedelta(182)))
        assert abs(here.share - there.share) <= 3 / 37
        assert abs((there.ripe - here.ripe).days - 182) <= 2


def test_a_table_takes_its_two_sides_apart() -> None:
    rows = [
        TableDate(0.0, side, percent, month, day)
        for side, percent, month, day in (
            (Side.LAST, 50, 5, 1), (Side.LAST, 10, 5, 20), (Side.FIRST, 50, 10, 1), (Side.FIRST, 10, 9, 15),
        )
    ]  # fmt: skip
    climate = from_table(rows, NORTH)
    chance = known(Odds(CROPS["tomato"], climate, Start.TRANSPLANT).on(date(2026, 5, 20)))
    assert chance.killed_young == pytest.approx(0.1)
    assert chance.count is None
    assert chance.share == pytest.approx(1 - chance.killed_young - chance.killed_late)


@pytest.mark.parametrize(
    ("slug", "start", "climate", "why"),
    [
        ("kale", Start.TRANSPLANT, from_mean(NORTH, last=(5, 1), first=(10, 1)), NoChance.FREEZES_UNKNOWN),
        ("garlic", Start.SOW, CHAMPION, NoChance.LATER_YEAR),
        ("bean-bush", Start.SOW, CHAMPION, NoChance.NOT_UP),
    ],
)
def test_where_nothing_can_be_told_it_says_why(slug, start, climate, why) -> None:
    assert Odds(CROPS[slug], climate, start).on(date(2026, 2, 1)) is why


def test_midsummer_parts_the_turns_and_the_frost_that_ends_them_follows() -> None:
    assert [turn_of(date(2026, 12, 1), half) for half in (NORTH, SOUTH)] == [Turn.AUTUMN, Turn.SPRING]
    assert [ending_year(date(2026, 12, 1), half) for half in (NORTH, SOUTH)] == [2026, 2027]
