"""Emergence against every cell of the published table (Harrington and Minges 1954, in Knott's Handbook)."""

from dataclasses import replace
from itertools import pairwise
from statistics import median

import pytest

from crops.catalogue import load_catalogue
from crops.emergence import GIVE_UP_DAYS, days_to_emerge, emergence_day
from crops.facts import CropFacts, EmergencePoint

CATALOGUE = load_catalogue()
WITH_TABLE = [crop for crop in CATALOGUE.crops.values() if crop.emergence]
CELLS = [
    (crop, cell)
    for crop in WITH_TABLE
    for cell in CATALOGUE.emergence[crop.emergence_key]
    if cell.days is not None
]
BLANK = [
    (crop, cell)
    for crop in WITH_TABLE
    for cell in CATALOGUE.emergence[crop.emergence_key]
    if cell.none_came_up
]


def bare(points: list[tuple[float, float | None]], **facts: float) -> CropFacts:
    crop = CATALOGUE.crops["radish"]
    table = tuple(EmergencePoint(celsius=celsius, days=days) for celsius, days in points)
    limits = {"soil_min_c": None, "soil_max_c": None, "emergence_days_optimum": None} | facts
    return replace(crop, emergence=table, **limits)


def test_every_table_of_the_publication_is_used_or_known_to_be_of_another_crop():
    used = {crop.emergence_key for crop in WITH_TABLE}

    assert used == CATALOGUE.emergence.keys()
    assert len(CELLS) + len(BLANK) > 300


def test_every_published_cell_comes_out_as_printed():
    assert [days_to_emerge(crop, cell.celsius) for crop, cell in CELLS] == [cell.days for _, cell in CELLS]


def test_none_come_up_where_the_table_says_that_none_did():
    assert {days_to_emerge(crop, cell.celsius) for crop, cell in BLANK} == {None}


def test_days_stay_between_those_of_the_neighbouring_cells():
    for crop in WITH_TABLE:
        up = [(point.celsius, point.days) for point in crop.emergence if point.days]
        for (low, days_low), (high, days_high) in pairwise(up):
            steps = [round(days_to_emerge(crop, low + (high - low) * step / 20), 9) for step in range(21)]
            assert steps == sorted(steps, reverse=days_low > days_high)


def test_a_cell_left_out_is_met_better_by_rates_than_by_days():
    by_rate, by_days = [], []
    for cells in CATALOGUE.emergence.values():
        up = [(cell.celsius, cell.days) for cell in cells if cell.days is not None]
        for (low, days_low), (middle, days), (high, days_high) in zip(up, up[1:], up[2:], strict=False):
            share = (middle - low) / (high - low)
            rate = days_to_emerge(bare([(low, days_low), (high, days_high)]), middle)
            by_rate.append(abs(rate / days - 1))
            by_days.append(abs(((1 - share) * days_low + share * days_high) / days - 1))

    assert len(by_rate) == 99
    assert median(by_rate) < 0.1
    assert median(by_days) > 0.19


def test_the_rule_without_a_table_is_right_at_the_median_of_the_crops_that_have_one():
    ratios = []
    for crop in WITH_TABLE:
        for point in crop.emergence:
            days = days_to_emerge(replace(crop, emergence=()), point.celsius)
            if point.days and days and point.celsius <= 30:
                ratios.append(days / point.days)

    assert len(ratios) > 150
    assert median(ratios) == 1
    assert median(max(ratio, 1 / ratio) for ratio in ratios) < 1.25


@pytest.mark.parametrize(
    ("celsius", "days"),
    [
        (4.0, None),  # at and below the minimum
        (5.0, 60.0),  # a sixth of the warmth above the minimum that 10 °C has
        (7.0, 20.0),
        (30.0, 5.0),
        (35.0, 5.0),  # as fast as the warmest cell, up to the maximum
        (35.1, None),
    ],
)
def test_outside_the_cells_that_came_up_the_crop_own_limits_count(celsius, days):
    crop = bare([(10.0, 10.0), (30.0, 5.0)], soil_min_c=4.0, soil_max_c=35.0)

    assert days_to_emerge(crop, celsius) == days


def test_a_cell_in_which_none_came_up_ends_what_the_limits_would_allow():
    crop = bare([(5.0, None), (10.0, 10.0), (30.0, 5.0), (33.0, None)], soil_min_c=2.0, soil_max_c=40.0)

    assert days_to_emerge(crop, 5.0) is None
    assert days_to_emerge(crop, 7.5) == 20.0
    assert days_to_emerge(crop, 32.9) == 5.0
    assert days_to_emerge(crop, 33.0) is None


def test_without_limits_nothing_is_assumed_outside_the_table():
    crop = bare([(10.0, 10.0), (30.0, 5.0)])

    assert days_to_emerge(crop, 9.9) is None
    assert days_to_emerge(crop, 30.1) is None


def test_a_table_beats_the_minimum_of_another_source():
    bean = CATALOGUE.crops["bean-bush"]  # 16 days at 59 °F in the one table, a minimum of 60 °F in the other

    assert bean.soil_min_c == 15.6
    assert days_to_emerge(bean, 15.0) == 16
    assert days_to_emerge(bean, 14.9) is None


def test_a_crop_without_a_table_slows_with_the_warmth_above_its_minimum():
    basil = CATALOGUE.crops["basil"]  # 7 days at 70 to 85 °F, none at 65 °F

    assert days_to_emerge(basil, basil.soil_min_c) is None
    assert days_to_emerge(basil, 26.0) == 7
    middle = (basil.soil_optimum_low_c + basil.soil_optimum_high_c) / 2
    assert days_to_emerge(basil, (basil.soil_min_c + middle) / 2) == pytest.approx(14)


def test_cloves_and_plants_have_no_days_to_emerge():
    assert [slug for slug, crop in CATALOGUE.crops.items() if days_to_emerge(crop, 20.0) is None] == [
        "garlic", "onion-sets", "strawberry", "sweet-potato",
    ]  # fmt: skip


def test_soil_that_keeps_one_temperature_takes_the_days_of_the_table():
    carrot = CATALOGUE.crops["carrot"]

    assert emergence_day(carrot, [10.0] * 365, sown=1) == 18
    assert emergence_day(carrot, [25.0] * 365, sown=1) == 7


def test_cold_days_give_no_progress_and_take_none_away():
    carrot = CATALOGUE.crops["carrot"]

    year = [0.0] * 5 + [25.0] * 3 + [0.0] * 2 + [25.0] * 355
    assert emergence_day(carrot, year, sown=1) == 14


def test_emergence_day_counts_on_over_new_year():
    soil = [25.0] * 365
    carrot = CATALOGUE.crops["carrot"]

    assert emergence_day(carrot, soil, 100) == 106
    assert emergence_day(carrot, soil, 364) == 370
    assert emergence_day(carrot, soil, -10) == -4


def test_emergence_day_reads_the_soil_of_its_own_days():
    soil = [0.0] * 99 + [25.0] * 266  # warm from day 100 on

    assert emergence_day(CATALOGUE.crops["carrot"], soil, 90) == 106


def test_seed_that_does_not_show_within_two_months_is_given_up():
    carrot = CATALOGUE.crops["carrot"]

    assert emergence_day(carrot, [0.0] * 365, 1) is None
    assert emergence_day(carrot, [0.0] * (GIVE_UP_DAYS - 5) + [25.0] * 400, 1) is None
