"""Whose nerve counts, and what it costs, against years counted by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from schedules.bases import from_record
from schedules.climate import Basis
from schedules.nerve import NERVES, Chooser, Costs, choice
from schedules.seasons import Hemisphere
from schedules.windows import AS_PUBLISHED, BOLD, CAREFUL, MIDDLING, Start, Turn
from schedules.wording.choosing import move_text
from tests.schedules.records import catalogue, champion, minimums

CROPS = catalogue()
CHAMPION = from_record(champion().days, Hemisphere.NORTH)


@pytest.mark.parametrize(
    ("chosen", "nerve", "chooser"),
    [
        ({"planting": "bold", "holder": "careful", "garden": "careful"}, BOLD, Chooser.PLANTING),
        ({"holder": "careful", "garden": "bold"}, CAREFUL, Chooser.HOLDER),
        ({"garden": "bold"}, BOLD, Chooser.GARDEN),
        ({}, MIDDLING, Chooser.DATES),
    ],
)
def test_the_nearest_choice_counts(chosen, nerve, chooser) -> None:
    found = choice(Basis.RECORD, **chosen)
    assert (found.nerve, found.chooser) == (nerve, chooser)


def test_one_pair_of_dates_follows_published_practice_until_somebody_chooses() -> None:
    assert choice(Basis.MEAN).nerve == AS_PUBLISHED
    assert choice(Basis.MEAN, holder="bold").nerve == BOLD


def springs_frozen_from(day: date, celsius: float) -> int:
    """Years of the record with such a night from a day of spring to the first of July."""
    span = (date(day.year, 7, 1) - day).days
    count = 0
    for year in range(1982, 2019):
        nights = (minimums().get(day.replace(year=year) + timedelta(n)) for n in range(span))
        count += any(night is not None and night <= celsius for night in nights)
    return count


def test_each_nerve_tells_its_day_and_the_springs_that_froze_after_it() -> None:
    careful, middling, bold = Costs(CROPS["leek"], CHAMPION, Turn.SPRING, Start.TRANSPLANT).of_each(2026)
    for cost in (careful, middling, bold):
        assert (cost.risk.count, cost.risk.used) == (springs_frozen_from(cost.risk.day, -4.4), 37)
    assert careful.gained_days == 0
    assert bold.gained_days == (careful.risk.day - bold.risk.day).days > middling.gained_days > 0
    assert [cost.nerve for cost in (careful, middling, bold)] == list(NERVES.values())


def test_a_week_earlier_costs_risk_and_saves_days() -> None:
    earlier, later = Costs(CROPS["tomato"], CHAMPION, Turn.SPRING, Start.TRANSPLANT).moves(date(2026, 5, 16))
    assert earlier.now.count == springs_frozen_from(date(2026, 5, 16), 0.0) == 8
    assert earlier.then.count == springs_frozen_from(date(2026, 5, 9), 0.0) == 20
    assert move_text(earlier, Turn.SPRING) == (
        "A week earlier, on May 9, the chance of a killing freeze after it goes from 22 % to 54 %, "
        "and 7 days are saved."
    )
    assert later.then.share < later.now.share


def test_in_autumn_nerve_buys_later_days() -> None:
    costs = Costs(CROPS["carrot"], CHAMPION, Turn.AUTUMN, Start.SOW).of_each(2026)
    days = [cost.risk.day for cost in costs]
    assert days == sorted(days)
    assert [cost.gained_days for cost in costs] == [(day - days[0]).days for day in days]
    shares = [cost.risk.share for cost in costs]
    assert shares == sorted(shares)


def test_under_a_cover_the_same_nerve_begins_earlier() -> None:
    bare, covered = (
        Costs(CROPS["leek"], CHAMPION, Turn.SPRING, Start.TRANSPLANT, cover_c).of_each(2026)[0].risk
        for cover_c in (0.0, 2.2)
    )
    assert covered.day < bare.day
    assert covered.count == springs_frozen_from(covered.day, -6.6)
