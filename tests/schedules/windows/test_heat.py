"""Cool-season crops before and after the heat, and how seed and seedlings are exposed to frost."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from crops.facts import Hardiness
from schedules.bases import from_mean, from_record
from schedules.seasons import Hemisphere, Side, day_number
from schedules.windows import CAREFUL, MIDDLING, Edge, Operation, Reason, Start, Turn, Window, derive
from schedules.windows.growing_year import GrowingYear
from schedules.windows.practice import COOL_SEASON, FITTED
from schedules.windows.ripening import Pace, ripening
from schedules.windows.spring import IN_HEAT_DAYS
from schedules.wording import reason_sentence
from tests.schedules.records import catalogue, champion
from tests.schedules.windows.climates import CLIMATES

CROPS = catalogue()
HOT = CLIMATES["mild winter"]()  # 26 °C at the height of summer
PLAINS = from_record(champion().days, Hemisphere.NORTH)
YEAR = 2026


def begins(crop: str, turn: Turn, start: Start, climate=HOT, **options) -> Window:
    windows = derive(CROPS[crop], climate, year=YEAR, **{"nerve": MIDDLING, **options})
    return next(
        window
        for window in windows
        if (window.turn, window.start, window.succession) == (turn, start, 1)
        and window.operation in (Operation.SOW, Operation.TRANSPLANT)
    )


def decisive(window: Window, edge: Edge) -> Reason:
    return next(reason for reason in window.reasons if reason.edge is edge and reason.decisive)


def test_every_cool_season_crop_is_ripe_before_the_heat_or_after_it():
    year = GrowingYear(HOT, YEAR, MIDDLING, FITTED)
    tried = 0
    for slug, facts in CROPS.items():
        if facts.hardiness not in COOL_SEASON or facts.perennial or facts.autumn_weeks_early is not None:
            continue
        for turn in Turn:
            for window in derive(facts, HOT, year=YEAR, nerve=MIDDLING):
                if window.turn is not turn or window.operation not in (Operation.SOW, Operation.TRANSPLANT):
                    continue
                if window.earliest is None or window.succession > 1:
                    continue
                ripens = ripening(facts, window.start, turn, year)
                first, last = (day_number(day, YEAR) for day in (window.earliest, window.latest))
                day = last if turn is Turn.SPRING else first
                limit = facts.growth_max_c + 0.1  # a day's step
                if turn is Turn.SPRING:
                    assert year.air(ripens.ripe(day, Pace.QUICK) - 1) <= limit, slug
                else:
                    assert year.air(ripens.ripe(day, Pace.QUICK)) <= limit, slug
                tried += 1
    assert tried > 50


@pytest.mark.parametrize("crop", ["potato", "parsnip"])
def test_heat_shortens_a_spring_but_never_leaves_it_without_a_day(crop):
    """Utah State University prints 20 March to 1 May for the Wasatch Front (USU-WF2009, calendars_open.csv),
    where July averages 27 °C and January 0 °C (Salt Lake City, values from memory)."""
    window = begins(crop, Turn.SPRING, Start.SOW, CLIMATES["hot summer"]())
    assert window.earliest < date(YEAR, 5, 1)
    assert window.latest > date(YEAR, 3, 20)
    assert window.latest - window.earliest <= timedelta(IN_HEAT_DAYS)
    heat = decisive(window, Edge.LATEST)
    assert heat.code == "ripens-in-heat"
    assert window.earliest + timedelta(heat.values["takes"]) > heat.values["heat"]
    assert "begin as soon as you can" in reason_sentence(heat, "us")


@pytest.mark.parametrize("crop", ["broccoli", "cauliflower"])
def test_the_reason_tells_of_bolting_and_of_the_days_it_takes(crop):
    window = begins(crop, Turn.SPRING, Start.TRANSPLANT)
    heat = next(reason for reason in window.reasons if reason.code == "matures-before-heat")
    assert heat.values["counted"] == "warmth"
    assert "bolt" in reason_sentence(heat, "us")


def test_a_seedling_set_out_is_exposed_at_once_and_seed_once_it_shows():
    safe = PLAINS.risk(Side.LAST, -2.2).day(10)
    seed = begins("beet", Turn.SPRING, Start.SOW, PLAINS, nerve=CAREFUL)
    seedling = begins("cauliflower", Turn.SPRING, Start.TRANSPLANT, PLAINS, nerve=CAREFUL)
    assert {CROPS[crop].hardiness for crop in ("beet", "cauliflower")} == {Hardiness.HALF_HARDY}
    assert decisive(seedling, Edge.EARLIEST).code == "frost-risk-transplant"
    assert day_number(seedling.earliest, YEAR) == safe
    shows = decisive(seed, Edge.EARLIEST)
    assert shows.code == "frost-risk-emergence"
    assert (shows.values["safe"] - seed.earliest).days == shows.values["days"] > 5


def test_a_row_cover_moves_what_frost_decides():
    bare = begins("tomato", Turn.SPRING, Start.TRANSPLANT, PLAINS, nerve=CAREFUL)
    covered = begins("tomato", Turn.SPRING, Start.TRANSPLANT, PLAINS, nerve=CAREFUL, cover_c=2.2)
    risk = {one.code: one for one in covered.reasons if one.edge is Edge.EARLIEST}
    assert risk["frost-risk-transplant"].values["celsius"] == -2.2
    assert day_number(risk["frost-risk-transplant"].values["safe"], YEAR) == PLAINS.risk(Side.LAST, -2.2).day(
        10
    )
    assert bare.earliest > covered.earliest
    assert "4\N{NO-BREAK SPACE}°F" in reason_sentence(risk["frost-risk-transplant"], "us")

    picked, longer = (
        next(
            window
            for window in derive(CROPS["tomato"], PLAINS, year=YEAR, nerve=CAREFUL, cover_c=cover_c)
            if window.operation is Operation.HARVEST and window.turn is Turn.SPRING
        )
        for cover_c in (0.0, 2.2)
    )
    assert longer.latest > picked.latest


def test_a_cover_moves_nothing_where_colder_freezes_are_not_known():
    mean = from_mean(Hemisphere.NORTH, last=(5, 9), first=(9, 28))
    bare = begins("tomato", Turn.SPRING, Start.TRANSPLANT, mean, nerve=CAREFUL)
    covered = begins("tomato", Turn.SPRING, Start.TRANSPLANT, mean, nerve=CAREFUL, cover_c=2.2)
    assert (bare.earliest, bare.latest) == (covered.earliest, covered.latest)
    assert "cover-not-counted" in {reason.code for reason in covered.reasons}
    assert bare.earliest == date(2026, 5, 24)
