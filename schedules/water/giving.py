"""Giving water: how long a hose or a drip line runs for a depth, and how much more it must give than arrives.

Depths are millimetres, areas square metres, flows litres a minute. A millimetre on a square metre is a litre;
cans and gallons are turned into litres in `schedules/amounts.py`.
"""

from __future__ import annotations

from math import ceil

_MINUTES_IN_HOUR = 60
_NOISE = 1e-9

ARRIVES = {"drip": 0.85, "sprinkler": 0.7}
"""The share of what is given that reaches roots (Organic Gardening magazine, soil and watering)."""


def flow(litres: float, seconds: float) -> float:
    """Litres a minute of a tap that fills a bucket in so many seconds. Raises `ValueError` for no time.

    >>> flow(10, 30)
    20.0
    """
    if seconds <= 0:
        raise ValueError("no time")
    return litres / seconds * 60


def minutes(litres: float, flow_l_min: float) -> float:
    """Minutes at the hose for so many litres. Raises `ValueError` for a hose without flow.

    >>> minutes(120, 12)
    10.0
    """
    if flow_l_min <= 0:
        raise ValueError("no flow")
    return litres / flow_l_min


def whole_cans(litres: float, can_litres: float) -> int:
    """Cans to carry for at least so many litres.

    >>> whole_cans(75, 10), whole_cans(80, 10)
    (8, 8)
    """
    return ceil(litres / can_litres - _NOISE)


def given_for(litres: float, arrives: float) -> float:
    """Litres to give where only a share of them reaches the roots.

    >>> given_for(85, ARRIVES["drip"])
    100.0
    """
    return litres / arrives


def drip_hours(depth_mm: float, bed_width_m: float, line_l_min_m: float) -> float:
    """Hours that a drip line of so much a minute and metre runs for a depth on a bed so wide.

    Penn State Extension (June 2013), Determining How Long to Run Drip Irrigation Systems for Vegetables.

    >>> drip_hours(12, 1, 0.1)
    2.0
    """
    return depth_mm * bed_width_m / line_l_min_m / _MINUTES_IN_HOUR


def drip_litres(line_m: float, line_l_min_m: float, hours: float) -> float:
    """Litres out of so much drip line.

    >>> drip_litres(30, 0.1, 2)
    360.0
    """
    return line_m * line_l_min_m * hours * _MINUTES_IN_HOUR
