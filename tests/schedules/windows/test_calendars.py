"""Our windows against open planting calendars (tests/reference), fed only the frost dates these state."""

from __future__ import annotations

from itertools import groupby

import pytest

from schedules.windows.practice import FITTED
from tests.schedules.windows.comparing import Comparison, comparable, compare, read_rows, summarise
from tests.schedules.windows.fitting import fit

# Where ours differs, and why.
KNOWN_MISSES = {
    # One of two pages for the city has potatoes three days before the earlier page and before the offset.
    "St. Louis, Missouri": {("potato", "sow outdoors")},
    # The page's starts are for the south-east of the state, weeks ahead of Tulsa, whose frost dates go with
    # it; its autumn dates leave a wider margin before a first frost that itself looks late.
    "Oklahoma (statewide dates)": {
        ("bean-lima", "fall sow"),
        ("bean-lima", "sow outdoors"),
        ("corn-sweet", "sow outdoors"),
        ("cucumber", "sow outdoors"),
        ("eggplant", "transplant"),
        ("lettuce-leaf", "fall sow"),
        ("okra", "sow outdoors"),
        ("pepper-sweet", "transplant"),
        ("potato", "fall sow"),
        ("pumpkin", "fall sow"),
        ("pumpkin", "sow outdoors"),
        ("squash-summer", "sow outdoors"),
        ("squash-winter", "sow outdoors"),
        ("tomato", "transplant"),
    },
    # "Last practical dates" for early varieties lie past the spring window and before the autumn one.
    "Central Iowa": {
        ("carrot", "sow outdoors"),
        ("corn-sweet", "sow outdoors"),
        ("lettuce-head", "fall sow"),
        ("melon", "sow outdoors"),
        ("pea-garden", "fall sow"),
        ("watermelon", "sow outdoors"),
    },
    # Set out six weeks before the last frost, by a page that gives one date to all of the cabbage family.
    "Texas Region II (USDA zone 7)": {("cauliflower", "transplant")},
}

ROWS = comparable(read_rows())
REGIONS = sorted({row.region for row in ROWS})


def test_rows_that_cannot_be_compared_are_counted():
    assert len(read_rows()) == 235
    assert len(ROWS) == 208


def test_published_calendars_are_met():
    comparisons = [compare(row) for row in ROWS]
    print(table(comparisons))
    whole = summarise(comparisons)
    assert whole.overlap >= 0.85
    assert whole.start_difference <= 9
    assert whole.end_difference <= 14


def test_the_rule_travels_to_a_region_it_was_not_fitted_on():
    comparisons = []
    for region in REGIONS:
        practice = fit(row for row in ROWS if row.region != region)
        comparisons += [compare(row, practice) for row in ROWS if row.region == region]
    print(table(comparisons))
    whole = summarise(comparisons)
    assert whole.overlap >= 0.80
    assert whole.start_difference <= 10


def test_the_practice_in_use_is_the_fitted_one():
    assert fit(ROWS) == FITTED


@pytest.mark.parametrize("region", REGIONS)
def test_misses_of_a_region_are_the_known_ones(region):
    missed = {
        (one.row.crop, one.row.activity)
        for one in map(compare, ROWS)
        if one.row.region == region and not one.overlaps
    }
    assert missed == KNOWN_MISSES.get(region, set())


def table(comparisons: list[Comparison]) -> str:
    """By region and activity: rows, share of overlaps, median distances of starts and ends in days."""

    def by(one: Comparison) -> tuple[str, str]:
        return one.row.region, one.row.activity

    lines = [f"{'region':<42}{'activity':<17}{'rows':>5}{'overlap':>9}{'starts':>8}{'ends':>7}"]
    for (region, activity), group in groupby(sorted(comparisons, key=by), key=by):
        lines.append(line(region, activity, list(group)))
    return "\n".join([*lines, line("all", "", comparisons)])


def line(region: str, activity: str, comparisons: list[Comparison]) -> str:
    """One line of the table."""
    whole = summarise(comparisons)
    starts, ends = ("-" if days is None else days for days in (whole.start_difference, whole.end_difference))
    return f"{region:<42}{activity:<17}{whole.count:>5}{whole.overlap:>9.0%}{starts:>8}{ends:>7}"
