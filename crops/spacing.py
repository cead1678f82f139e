"""How many plants stand in a row, how much seed they take, how deep it lies.

Lengths are metres. Half a distance is left free at each end.
"""

from __future__ import annotations

from math import ceil, floor

_NOISE = 1e-9
# As many times as deep as the seed is thick: common practice, no source.
LEAST_DEPTH_TIMES, MOST_DEPTH_TIMES = 2, 3


def plants_in_row(row_m: float, spacing_m: float) -> int:
    """Plants at final distance in a row, half a distance left free at both ends; one where none would fit.

    >>> plants_in_row(2.4, 0.6), plants_in_row(2.4, 0.05), plants_in_row(0.5, 0.9)
    (4, 48, 1)
    """
    return max(1, floor(row_m / spacing_m + _NOISE))


def sowing_depth(seed_m: float) -> tuple[float, float]:
    """From how deep to how deep a seed so thick lies: two to three times its own thickness.

    >>> sowing_depth(0.008)
    (0.016, 0.024)
    """
    return round(LEAST_DEPTH_TIMES * seed_m, 9), round(MOST_DEPTH_TIMES * seed_m, 9)


def seeds_for(plants: int, *, come_up: float, each: int = 1) -> int:
    """Seeds for so many places, when a share of them comes up, `each` seedlings being wanted at a place.

    Raises `ValueError` for a share that is none.

    >>> seeds_for(48, come_up=0.8)
    60
    """
    if not 0 < come_up <= 1:
        raise ValueError("no share")
    return ceil(plants * each / come_up - _NOISE)


def along(amount_per_m: float, row_m: float) -> float:
    """Seed for a row, by weight or by count, of so much to the metre.

    >>> along(0.5, 6)
    3.0
    """
    return amount_per_m * row_m
