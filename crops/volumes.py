"""Volumes of what is spread or filled in: compost, mulch, soil for a bed; bags, loads, what they cover.

Lengths are metres, areas square metres, volumes cubic metres.
"""

from __future__ import annotations

from math import ceil, pi

from plots.quantities import METRES_PER_FOOT

M3_PER_CUBIC_FOOT = METRES_PER_FOOT**3
M3_PER_CUBIC_YARD = 27 * M3_PER_CUBIC_FOOT
LITRES_PER_M3 = 1000.0
_NOISE = 1e-9  # 32 cubic feet over 2 must not come to 17 bags


def circle_m2(radius_m: float) -> float:
    """The area of a round bed.

    >>> round(circle_m2(0.5), 3)
    0.785
    """
    return pi * radius_m**2


def layer_m3(area_m2: float, depth_m: float) -> float:
    """What a layer so deep takes, on a bed or in a frame.

    >>> layer_m3(10, 0.05)
    0.5
    """
    return area_m2 * depth_m


def covered_m2(volume_m3: float, depth_m: float) -> float:
    """How much ground a volume covers so deep. Raises `ValueError` for no depth.

    >>> covered_m2(1, 0.05)
    20.0
    """
    if depth_m <= 0:
        raise ValueError("no depth")
    return volume_m3 / depth_m


def whole_bags(volume_m3: float, bag_m3: float) -> int:
    """Bags, barrows or loads of one size that hold at least so much. Raises `ValueError` for an empty bag.

    >>> whole_bags(0.9, 0.04), whole_bags(0.88, 0.04), whole_bags(0, 0.04)
    (23, 22, 0)
    """
    if bag_m3 <= 0:
        raise ValueError("an empty bag")
    return ceil(volume_m3 / bag_m3 - _NOISE)
