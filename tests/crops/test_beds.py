"""Plans of beds: whatever is asked for, rows lie on beds, clear of each other, nothing tall in front."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crops.beds import PATH_M, WIDEST_BED_M, Wanted, plan, strips

HEIGHTS = st.one_of(st.none(), st.floats(0.1, 2.5))
WANTED = st.lists(st.builds(Wanted, st.uuids().map(str), st.floats(0.02, 1.3), HEIGHTS), max_size=7)


@settings(max_examples=20)
@given(WANTED, st.floats(0.3, 8), st.floats(0.3, 12))
def test_rows_lie_on_beds_and_shade_nobody(wanted: list[Wanted], width: float, length: float) -> None:
    made = plan(wanted, width_m=width, length_m=length)
    assert {row.wanted for row in made.rows} | set(made.left_out) == set(wanted)
    for row in made.rows:
        assert row.plants >= 1
        assert any(strip.start_m < row.middle_m < strip.end_m for strip in made.strips)
    for before, after in pairwise(made.rows):
        apart = after.middle_m - before.middle_m
        needed = (before.wanted.between_rows_m + after.wanted.between_rows_m) / 2
        # What is wider than its bed has it alone, and stands out over the edges.
        assert apart >= min(needed, made.strips[0].width_m) - 1e-6
        assert (before.wanted.height_m or 0) >= (after.wanted.height_m or 0)


@settings(max_examples=30)
@given(st.floats(0.3, 20))
def test_beds_can_be_reached_and_paths_part_them(width: float) -> None:
    beds = strips(width)
    assert beds[0].start_m == 0
    assert beds[-1].end_m == pytest.approx(width)
    assert all(bed.width_m <= WIDEST_BED_M + 1e-6 for bed in beds)
    assert all(after.start_m - before.end_m == pytest.approx(PATH_M) for before, after in pairwise(beds))


def test_what_sprawls_comes_after_the_others() -> None:
    pumpkin, lettuce = Wanted("pumpkin", 1.2, 0.6), Wanted("lettuce", 0.15, 0.25)
    made = plan([pumpkin, lettuce], width_m=1.2, length_m=2.4)
    assert {row.wanted.slug for row in made.rows} == {"lettuce"}
    assert made.left_out == (pumpkin,)
    assert [row.plants for row in plan([pumpkin], width_m=1.0, length_m=2.4).rows] == [2]
