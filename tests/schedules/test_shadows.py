"""Shadows at noon against solar positions of a library."""

from __future__ import annotations

from datetime import date

import pytest

from schedules.shadows import noon_height, noon_shadow

# pvlib 0.16.1 (NREL's SPA) at 39° N, 95° W, at solar noon: elevation in degrees, shadow of 20 feet in feet.
POSITIONS = (
    (date(2024, 12, 21), 27.56, 38.32),
    (date(2024, 3, 20), 51.25, 16.05),
    (date(2024, 6, 21), 74.43, 5.57),
)


@pytest.mark.parametrize(("day", "elevation", "shadow_ft"), POSITIONS)
def test_noon(day: date, elevation: float, shadow_ft: float) -> None:
    assert noon_height(39.0, day) == pytest.approx(elevation, abs=0.6)
    assert noon_shadow(20.0, 39.0, day) == pytest.approx(shadow_ft, rel=0.025)


def test_the_south_has_it_half_a_year_later_and_the_polar_night_none() -> None:
    assert noon_height(-39.0, date(2024, 6, 21)) == pytest.approx(
        noon_height(39.0, date(2024, 12, 21)), abs=0.1
    )
    assert noon_shadow(2.0, 75.0, date(2024, 12, 21)) is None
