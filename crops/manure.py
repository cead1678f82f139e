"""Raw manure, hot compost, and what too much of either does.

7 CFR 205.203(c) binds certified organic farms in the United States and is widely used as a caution in
gardens; a garden's rules, its extension office and local law may ask for more.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from plots.quantities import METRES_PER_INCH

DAYS_TOUCHING_SOIL = 120
DAYS_OFF_THE_SOIL = 90
HOT_FROM_C, HOT_TO_C = 55.0, 76.7  # 131 to 170 °F
HOT_DAYS_WINDROW, WINDROW_TURNS, HOT_DAYS_ENCLOSED = 15, 5, 3


class System(StrEnum):
    """How a heap is kept while it is hot."""

    WINDROW = "windrow"
    IN_VESSEL = "in-vessel"
    STATIC_AERATED = "static aerated"


def earliest_harvest(applied: date, *, touches_soil: bool) -> date:
    """The first day on which may be picked after raw manure, by whether the edible part touches the soil.

    >>> earliest_harvest(date(2025, 3, 15), touches_soil=True)
    datetime.date(2025, 7, 13)
    """
    return applied + timedelta(days=DAYS_TOUCHING_SOIL if touches_soil else DAYS_OFF_THE_SOIL)


def latest_manure(harvest: date, *, touches_soil: bool) -> date:
    """The last day for raw manure before a harvest.

    >>> latest_manure(date(2025, 7, 13), touches_soil=True)
    datetime.date(2025, 3, 15)
    """
    return harvest - timedelta(days=DAYS_TOUCHING_SOIL if touches_soil else DAYS_OFF_THE_SOIL)


def counts_as_composted(system: System, *, hot_days: int, turns: int = 0) -> bool:
    """Whether a log of days between 55 and 77 °C (131 and 170 °F) meets the rule's process for manure.

    >>> counts_as_composted(System.WINDROW, hot_days=15, turns=5)
    True
    >>> counts_as_composted(System.WINDROW, hot_days=14, turns=5)
    False
    """
    if system is System.WINDROW:
        return hot_days >= HOT_DAYS_WINDROW and turns >= WINDROW_TURNS
    return hot_days >= HOT_DAYS_ENCLOSED


@dataclass(frozen=True, slots=True)
class Lasts:
    """For how long a layer of manure compost brings what crops take up: seasons of N, years of P and K."""

    depth_m: float
    n_seasons: int
    k_years: int
    p_years: int
    source: str


INCH_OF_MANURE_COMPOST = Lasts(
    depth_m=METRES_PER_INCH,
    n_seasons=1,
    k_years=4,
    p_years=14,
    source="Montana State University Extension (C. Jones), Northern Plains Independent, May 2025",
)
"""An inch a year is too much: phosphorus piles up."""
