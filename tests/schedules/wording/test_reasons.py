"""Reasons in words, where the plain sentence of a rule would mislead a beginner."""

from __future__ import annotations

import pytest

from schedules.bases import from_mean, from_record
from schedules.climate import Climate
from schedules.seasons import Hemisphere
from schedules.windows import AS_PUBLISHED, MIDDLING, Nerve, Operation, Turn, derive
from schedules.wording import reason_sentence
from tests.schedules.records import catalogue, champion

CROPS = catalogue()
ALPINE = from_mean(Hemisphere.NORTH, last=(6, 10), first=(9, 1))


def told(
    crop: str, climate: Climate, nerve: Nerve, turn: Turn = Turn.SPRING, operation: Operation = Operation.SOW
) -> dict[str, str]:
    """The sentences of the first such window, by code."""
    window = next(
        window
        for window in derive(CROPS[crop], climate, year=2026, nerve=nerve)
        if window.turn is turn and window.operation is operation
    )
    return {reason.code: reason_sentence(reason, "us") for reason in window.reasons}


@pytest.mark.parametrize("crop", ["potato", "asparagus", "onion-sets", "sweet-potato", "strawberry"])
def test_what_is_set_is_not_told_of_as_seed(crop):
    warmer = 3.0 if crop == "sweet-potato" else 0.0  # Champion's summer is too cool for it
    climate = from_record(champion().days, Hemisphere.NORTH, offset_c=warmer)
    sentences = told(crop, climate, MIDDLING)
    exposed = "It counts as exposed from the day it is set. From "
    if crop == "potato":
        exposed = "Its shoots are exposed once they show, 14 days after setting at the soonest. From "
    assert sentences["frost-risk-emergence"].startswith(exposed)
    assert not [text for text in sentences.values() if "Seed" in text or " 0 days" in text]


def test_the_ground_is_workable_at_whole_degrees():
    sentences = told("potato", from_record(champion().days, Hemisphere.NORTH), MIDDLING)
    assert sentences["ground-workable"] == (
        "The ground can usually be worked once the soil averages 39 °F (common practice)."
    )


def test_a_clash_of_two_edges_names_the_days_that_clash():
    sentences = told("squash-summer", ALPINE, AS_PUBLISHED, Turn.AUTUMN)
    assert list(sentences) == ["no-day-left", "after-spring-window", "counted-back-latest"]
    assert sentences["no-day-left"] == (
        "It could begin on July 19 at the earliest and would have to by July 4: no day is left."
    )
    assert "no-day-left" in told("melon", ALPINE, AS_PUBLISHED)


def test_too_short_a_season_says_what_it_is_measured_against():
    assert told("pumpkin", ALPINE, AS_PUBLISHED)["season-too-short"] == (
        "It needs 90 days without frost, more than lie between the mean frost dates here."
    )


def test_a_perennial_counts_its_years_from_the_planting():
    sentences = told("strawberry", ALPINE, AS_PUBLISHED, operation=Operation.HARVEST)
    assert sentences["harvest-in-later-year"] == (
        "It is first picked in year 2, the year of planting being year 1."
        " From then on it is picked for up to 21 days a year."
    )
