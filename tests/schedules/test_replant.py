"""Planting again what was lost: the ways of the year that are still open, and when they are picked."""

from __future__ import annotations

from datetime import date

from schedules.bases import from_mean
from schedules.entries import ways
from schedules.replant import open_ways
from schedules.seasons import Hemisphere
from schedules.windows import MIDDLING, Operation, course_of, derive
from tests.schedules.records import catalogue

CROPS = catalogue()
MEAN = from_mean(Hemisphere.NORTH, last=(5, 10), first=(10, 1))


def again(crop: str, since: date):
    facts = CROPS[crop]
    known = ways(derive(facts, MEAN, year=2026, nerve=MIDDLING))
    course = lambda way: course_of(  # noqa: E731
        facts, MEAN, year=2026, nerve=MIDDLING, turn=way.turn, start=way.start
    )
    return known, open_ways(known, course, since=since)


def test_a_way_opens_no_sooner_than_the_loss_and_keeps_its_last_day() -> None:
    known, found = again("bean-bush", date(2026, 5, 30))
    spring = next(way for way in known if way.key == "spring-sow").beginning
    first = next(one for one in found if one.way.key == "spring-sow")
    assert (first.earliest, first.latest) == (date(2026, 5, 30), spring.latest)
    assert first.best == max(spring.best, date(2026, 5, 30))
    assert first.harvest.operation is Operation.HARVEST
    assert first.harvest.earliest > first.best
    assert not first.seedlings_at_hand


def test_seedlings_that_can_no_longer_be_raised_have_to_be_at_hand() -> None:
    known, found = again("tomato", date(2026, 5, 20))
    windows = next(way for way in known if way.key == "spring-transplant").windows
    indoors = next(one for one in windows if one.operation is Operation.START_INDOORS)
    assert indoors.latest < date(2026, 5, 20)
    assert [(one.way.key, one.seedlings_at_hand) for one in found] == [("spring-transplant", True)]


def test_late_in_the_year_nothing_is_open() -> None:
    assert again("tomato", date(2026, 9, 20))[1] == ()
