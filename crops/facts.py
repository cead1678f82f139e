"""What is known about a crop, as plain values in SI units.

Lengths are metres, temperatures °C, volumes litres; weeks count from the mean last (or first) frost and are
negative before it. `None` means that no source gives the fact, or that it does not apply to the crop.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

MOST_SUCCESSIONS = 20  # of one planting; more is a slip


class Hardiness(StrEnum):
    """How much cold a young plant stands."""

    HARDY = "hardy"
    HALF_HARDY = "half-hardy"
    TENDER = "tender"
    VERY_TENDER = "very-tender"


class Method(StrEnum):
    """How a crop is usually started."""

    DIRECT = "direct"
    TRANSPLANT = "transplant"
    EITHER = "either"
    VEGETATIVE = "vegetative"


class CountedFrom(StrEnum):
    """The day from which a source counts days to maturity; `SOW` covers sets and tubers too."""

    SOW = "sow"
    TRANSPLANT = "transplant"


@dataclass(frozen=True, slots=True)
class EmergencePoint:
    """A cell of a published emergence table: days at a constant soil temperature, `None` for none up."""

    celsius: float
    days: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CropFacts:
    """Everything the calculations ask of a crop or a variety."""

    slug: str
    name: str
    botanical_name: str
    family: str
    hardiness: Hardiness
    method: Method
    sow_depth_m: float | None = None
    seedling_spacing_m: float | None = None
    spacing_m: float | None = None
    row_spacing_m: float | None = None
    thin_when: str = ""
    emergence_days_optimum: float | None = None
    soil_min_c: float | None = None
    soil_optimum_low_c: float | None = None
    soil_optimum_high_c: float | None = None
    soil_max_c: float | None = None
    indoor_weeks_low: float | None = None
    indoor_weeks_high: float | None = None
    sow_weeks_early: float | None = None
    sow_weeks_late: float | None = None
    transplant_weeks_early: float | None = None
    transplant_weeks_late: float | None = None
    maturity_days_low: int | None = None
    maturity_days_high: int | None = None
    maturity_from: CountedFrom | None = None
    harvest_days_low: int | None = None
    harvest_days_high: int | None = None
    fall_crop: bool = False
    fall_margin_days: int | None = None
    succession_days: int | None = None
    sun_hours_min: float | None = None
    support: str = ""
    height_m: float | None = None
    container_litres: float | None = None
    nitrogen_demand: str = ""
    rooting_depth_class: str = ""
    growth_min_c: float | None = None
    growth_optimum_low_c: float | None = None
    growth_optimum_high_c: float | None = None
    growth_max_c: float | None = None
    kill_c: float | None = None
    autumn_weeks_early: float | None = None
    autumn_weeks_late: float | None = None
    perennial: bool = False
    first_harvest_year: int | None = None
    emergence_key: str = ""
    emergence: tuple[EmergencePoint, ...] = ()


def with_changes(facts: CropFacts, changes: Mapping[str, Any]) -> CropFacts:
    """The facts of a crop with some of them replaced by a variety's own.

    A variety's own days to come up set the crop's emergence table aside: the table is of another seed.
    """
    if changes.get("emergence_days_optimum") is not None:
        changes = {"emergence": (), "emergence_key": "", **changes}
    return replace(facts, **changes)
