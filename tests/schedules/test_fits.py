"""What still fits: last sensible days, space, heat and order."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from schedules.bases import from_mean, from_record
from schedules.chance import Chance
from schedules.fits import LEAST_PICKING_DAYS, Room, fits_of, what_fits
from schedules.seasons import Hemisphere
from schedules.windows import AS_PUBLISHED, BOLD, CAREFUL, MIDDLING, Edge, Operation, Start, Turn, derive
from schedules.wording import reason_sentence
from tests.schedules.records import catalogue, champion
from tests.schedules.windows.climates import CLIMATES

CROPS = catalogue()
NORTH = Hemisphere.NORTH
CHAMPION = from_record(champion().days, NORTH)
MEAN = from_mean(NORTH, last=(5, 10), first=(10, 1))
JULY = Room(date(2026, 7, 20))


def autumn_latest(slug: str, climate, nerve) -> dict[Start, date]:
    """The last day of the autumn window, by way of beginning."""
    return {
        window.start: window.latest
        for window in derive(CROPS[slug], climate, year=2026, nerve=nerve)
        if window.turn is Turn.AUTUMN
        and window.operation in (Operation.SOW, Operation.TRANSPLANT)
        and window.succession == 1
        and window.latest is not None
    }


@pytest.mark.parametrize(
    ("climate", "nerve"),
    [
        (CHAMPION, MIDDLING),
        (CHAMPION, CAREFUL),
        (MEAN, AS_PUBLISHED),
        (MEAN, MIDDLING),
        (CLIMATES["frost-free"](), MIDDLING),
    ],
)
def test_the_last_sensible_day_is_that_of_the_autumn_window_where_there_is_one(climate, nerve) -> None:
    compared = 0
    for slug, facts in CROPS.items():
        latest = autumn_latest(slug, climate, nerve)
        for fit in fits_of(facts, climate, JULY, nerve=nerve):
            if fit.start in latest:
                assert (slug, fit.latest) == (slug, latest[fit.start])
                compared += 1
    assert compared > 25


def test_every_crop_that_fits_keeps_to_the_nerve_and_says_why_not_later() -> None:
    found = what_fits(CROPS.values(), CHAMPION, JULY, nerve=MIDDLING)
    assert len(found) > 30
    for one in found:
        for fit in one.fits:
            assert date(2026, 7, 20) <= fit.begins <= fit.latest
            assert isinstance(fit.chance, Chance)
            assert fit.chance.share >= 0.65  # 70 of 100 by quantile, plainly counted a little less or more
            last = [reason for reason in fit.reasons if reason.edge is Edge.LATEST and reason.decisive]
            assert len(last) == 1
            assert reason_sentence(last[0], "us")


def test_the_best_come_first_and_what_has_to_wait_comes_last() -> None:
    found = what_fits(CROPS.values(), CHAMPION, Room(date(2026, 4, 20)), nerve=MIDDLING)
    waits = [one.best.waits(date(2026, 4, 20)) for one in found]
    assert waits == sorted(waits)
    assert True in waits
    assert False in waits
    at_once = [
        (-(one.best.percent or 0), -one.best.spare_days)
        for one in found
        if not one.best.waits(date(2026, 4, 20))
    ]
    assert at_once == sorted(at_once)


def test_a_bolder_nerve_fits_more_and_later() -> None:
    late = Room(date(2026, 8, 1))
    days = {
        nerve.percent: {
            one.facts.slug: one.best.latest for one in what_fits(CROPS.values(), CHAMPION, late, nerve=nerve)
        }
        for nerve in (CAREFUL, BOLD)
    }
    assert days[10].keys() < days[50].keys()


def test_space_that_is_needed_again_takes_a_harvest_before_that_day() -> None:
    until = date(2026, 9, 15)
    free = {one.facts.slug for one in what_fits(CROPS.values(), CHAMPION, JULY, nerve=MIDDLING)}
    short = what_fits(CROPS.values(), CHAMPION, Room(date(2026, 7, 20), until), nerve=MIDDLING)
    assert {one.facts.slug for one in short} < free
    for one in short:
        picking = min(one.facts.harvest_days_low or 0, LEAST_PICKING_DAYS)
        assert one.best.ripe <= until - timedelta(picking)
    radish = next(one for one in short if one.facts.slug == "radish")
    told = [reason_sentence(reason, "us") for reason in radish.best.reasons if reason.decisive]
    assert any(text.startswith("The space is free until September 15:") for text in told)


def test_a_short_row_holds_no_crop_that_stands_wider_and_counts_the_others() -> None:
    found = {
        one.facts.slug: one.plants
        for one in what_fits(CROPS.values(), CHAMPION, Room(date(2026, 7, 20), None, 0.3), nerve=MIDDLING)
    }
    spacing = CROPS["radish"].spacing_m
    assert spacing is not None
    assert found["radish"] == round(0.3 / spacing - 0.5 + 1e-9)
    assert "broccoli" not in found


def test_what_would_ripen_in_heat_waits_until_it_would_not() -> None:
    climate = CLIMATES["mild winter"]()
    day = date(2026, 6, 25)
    fit = next(fit for fit in fits_of(CROPS["lettuce-leaf"], climate, Room(day), nerve=MIDDLING))
    assert fit.waits(day)
    assert [reason.code for reason in fit.reasons if reason.edge is Edge.EARLIEST] == ["matures-after-heat"]


def test_what_ripens_in_heat_whenever_it_is_begun_fits_until_the_end_of_its_spring() -> None:
    climate = CLIMATES["hot summer"]()
    latest = next(
        window.latest
        for window in derive(CROPS["potato"], climate, year=2026, nerve=MIDDLING)
        if window.turn is Turn.SPRING and window.operation is Operation.SOW
    )
    assert latest is not None
    (fit,) = fits_of(CROPS["potato"], climate, Room(latest), nerve=MIDDLING)
    assert (fit.begins, fit.latest) == (latest, latest)
    assert [reason.code for reason in fit.reasons if reason.decisive] == ["ripens-in-heat"]
    (fit,) = fits_of(CROPS["potato"], climate, Room(latest + timedelta(1)), nerve=MIDDLING)
    assert fit.begins > latest + timedelta(30)


def test_seedlings_say_whether_there_is_time_to_raise_them() -> None:
    kale = next(
        fit for fit in fits_of(CROPS["kale"], CHAMPION, JULY, nerve=MIDDLING) if fit.start is Start.TRANSPLANT
    )
    assert kale.raised is not None
    assert kale.raised > JULY.day
    set_out = next(
        fit
        for fit in fits_of(CROPS["kale"], CHAMPION, Room(kale.raised), nerve=MIDDLING)
        if fit.start is Start.TRANSPLANT
    )
    assert kale.raised_ripe == set_out.ripe > kale.ripe
    winter = Room(date(2026, 2, 1))
    tomato = next(iter(fits_of(CROPS["tomato"], CHAMPION, winter, nerve=MIDDLING)))
    assert (
        tomato.raised == tomato.begins > winter.day + timedelta(100)
    )  # ready in March, but not set out then
    late = Room(kale.latest - timedelta(2))
    last = next(
        fit for fit in fits_of(CROPS["kale"], CHAMPION, late, nerve=MIDDLING) if fit.start is Start.TRANSPLANT
    )
    assert last.raised is None


def test_in_winter_nothing_fits_any_more() -> None:
    assert what_fits(CROPS.values(), CHAMPION, Room(date(2026, 11, 20)), nerve=BOLD) == []


def test_a_southern_summer_is_no_winter() -> None:
    south = CLIMATES["southern uplands"]()
    assert len(what_fits(CROPS.values(), south, Room(date(2026, 1, 20)), nerve=MIDDLING)) > 20
    assert what_fits(CROPS.values(), south, Room(date(2026, 6, 20)), nerve=MIDDLING) == []
