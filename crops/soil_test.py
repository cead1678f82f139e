"""Soil tests: how a sample is taken, when the next is due, and what some laboratories' classes are called.

Each table is one laboratory's own, as printed, for its own extraction and unit. A figure of one laboratory
is never read on another's table, and no class here calls a soil safe: the report in hand and the health
department decide. Days are dates, depths metres, lead parts per million (mg/kg).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from plots.quantities import METRES_PER_INCH


@dataclass(frozen=True, slots=True)
class Sampling:
    """How one laboratory wants a sample of a vegetable garden: cores of so deep, so many mixed together."""

    laboratory: str
    depth_m: tuple[float, float]
    fewest_cores: int
    most_cores: int | None = None


CLEMSON = Sampling(
    "Clemson University Agricultural Service Laboratory",
    (6 * METRES_PER_INCH, 8 * METRES_PER_INCH),
    12,
)
CLEMSON_SHORT = Sampling(
    "Clemson University Home & Garden Information Center",
    (6 * METRES_PER_INCH, 6 * METRES_PER_INCH),
    8,
    10,
)
SAMPLINGS = (CLEMSON, CLEMSON_SHORT)
"""They differ: whoever sends a sample follows the laboratory that gets it."""

RETEST_YEARS = ((2, 3), (3, 5))
"""Published intervals: Daily Press (Mar 2023) from several extension services, and longer ones elsewhere."""


def retest_due(tested: date, years: tuple[int, int]) -> tuple[date, date]:
    """From when to when the next test is due.

    >>> retest_due(date(2024, 2, 29), (2, 4))
    (datetime.date(2026, 2, 28), datetime.date(2028, 2, 29))
    """
    return _years_on(tested, years[0]), _years_on(tested, years[1])


EXCESS_P_PAUSE_YEARS = (3, 5)
"""No manure and no compost for so long where phosphorus is excessive (UW-Extension Kenosha County, 2015)."""


@dataclass(frozen=True, slots=True)
class Class:
    """A class of a laboratory's table, from this value up; what it is rated as where that was seen."""

    lowest: float
    name: str
    rating: str = ""


@dataclass(frozen=True, slots=True)
class Classes:
    """One laboratory’s table for one nutrient, in its own unit, lowest class first."""

    laboratory: str
    nutrient: str
    unit: str
    rows: tuple[Class, ...]

    def of(self, value: float) -> Class:
        """The row that a value of this laboratory's own report stands in."""
        return [row for row in self.rows if row.lowest <= value][-1]


RUTGERS = "Rutgers NJAES Soil Testing Laboratory, Mehlich-3"
RUTGERS_P = Classes(
    RUTGERS,
    "P",
    "lb/acre",
    (
        Class(0, "very low", "below optimum"),
        Class(25, "low", "below optimum"),
        Class(46, "medium", "below optimum"),
        Class(72, "high", "optimum"),
        Class(138, "very high", "excessive"),
    ),
)
RUTGERS_K = Classes(
    RUTGERS,
    "K",
    "lb/acre",
    (
        Class(0, "very low"),
        Class(41, "low"),
        Class(82, "medium"),
        Class(146, "high"),
        Class(278, "very high"),
    ),
)

UMN_BRAY_P_ENOUGH_PPM = 20.0
"""Enough phosphorus for vegetables by the Bray test (University of Minnesota Extension, over-fertilizing)."""


def p_is_enough(bray_ppm: float) -> bool:
    """Whether Minnesota's Bray test says to add no phosphorus; below it the report says how much.

    >>> p_is_enough(68), p_is_enough(15)
    (True, False)
    """
    return bray_ppm >= UMN_BRAY_P_ENOUGH_PPM


@dataclass(frozen=True, slots=True)
class LeadClass:
    """A class of total lead up to and including `highest` ppm, and what that table says to leave out."""

    highest: float | None
    name: str
    no_leafy_or_root: bool = False
    no_food: bool = False


OHIO_STATE = "Ohio State University, total lead (XRF or EPA 3050)"
OHIO_STATE_LEAD = (
    LeadClass(150, "low"),
    LeadClass(300, "moderate"),
    LeadClass(800, "high", no_leafy_or_root=True),
    LeadClass(None, "very high", no_leafy_or_root=True, no_food=True),
)
"""For tests of total lead alone; an estimate by weak acid cannot be read here (dirt.osu.edu)."""


def ohio_state_class(total_ppm: float) -> LeadClass:
    """The row of Ohio State's table for total lead.

    >>> ohio_state_class(299).name, ohio_state_class(900).no_food
    ('moderate', True)
    """
    return next(row for row in OHIO_STATE_LEAD if row.highest is None or total_ppm <= row.highest)


@dataclass(frozen=True, slots=True)
class LeadScreening:
    """Federal screening levels of a year for homes, in ppm; they are no limits for gardens."""

    since: date
    screening: float
    with_other_sources: float | None = None
    removal_management: float | None = None


EPA_LEAD = (
    LeadScreening(date(1994, 1, 1), 400),
    LeadScreening(date(2024, 1, 1), 200, with_other_sources=100),
    LeadScreening(date(2025, 10, 1), 200, removal_management=600),
)
"""US EPA's residential lead guidance, as Harvard's Environmental and Energy Law Program tracks it."""


def epa_lead(on: date) -> LeadScreening:
    """The levels that held on a day.

    >>> epa_lead(date(2026, 5, 1)).screening, epa_lead(date(2020, 5, 1)).screening
    (200, 400)
    """
    return [one for one in EPA_LEAD if one.since <= on][-1]


def _years_on(day: date, years: int) -> date:
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)
