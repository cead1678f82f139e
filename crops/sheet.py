"""The sheet of facts about a crop: in which order they are read, what each measures, and what it cannot be.

Pages, forms, checks and the database's constraints all follow this one table. Bounds are SI values.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from crops.facts import CropFacts


class Measure(StrEnum):
    """What kind of value a fact is."""

    SHORT_LENGTH = "short length"
    TEMPERATURE = "temperature"
    VOLUME = "volume"
    DAYS = "days"
    WEEKS = "weeks"
    HOURS = "hours"
    YEARS = "years"
    CHOICE = "choice"
    TEXT = "text"
    YES_NO = "yes or no"


NUMBERS = frozenset(set(Measure) - {Measure.CHOICE, Measure.TEXT, Measure.YES_NO})
WHOLE = frozenset({Measure.DAYS, Measure.YEARS})


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the sheet: a fact, or the two ends of a range, and the lowest and highest possible value."""

    fields: tuple[str, ...]
    measure: Measure
    lowest: float = 0.0
    highest: float = 0.0


@dataclass(frozen=True, slots=True)
class Section:
    """Lines that are read together."""

    key: str
    lines: tuple[Line, ...]

    @property
    def fields(self) -> tuple[str, ...]:
        return tuple(name for line in self.lines for name in line.fields)


def _length(name: str, highest: float) -> Line:
    return Line((name,), Measure.SHORT_LENGTH, 0.0005, highest)


def _temperature(*names: str) -> Line:
    return Line(names, Measure.TEMPERATURE, -60.0, 60.0)


def _days(*names: str, lowest: float = 1, highest: float = 1500) -> Line:
    return Line(names, Measure.DAYS, lowest, highest)


def _weeks(*names: str, lowest: float = -40, highest: float = 40) -> Line:
    return Line(names, Measure.WEEKS, lowest, highest)


SECTIONS: tuple[Section, ...] = (
    Section(
        "kind",
        (
            Line(("hardiness",), Measure.CHOICE),
            Line(("method",), Measure.CHOICE),
            Line(("perennial",), Measure.YES_NO),
            Line(("first_harvest_year",), Measure.YEARS, 0, 20),
        ),
    ),
    Section(
        "sowing",
        (
            _length("sow_depth_m", 0.5),
            _temperature("soil_min_c"),
            _temperature("soil_optimum_low_c", "soil_optimum_high_c"),
            _temperature("soil_max_c"),
            Line(("emergence_days_optimum",), Measure.DAYS, 0.5, 365),
        ),
    ),
    Section(
        "spacing",
        (
            _length("seedling_spacing_m", 10),
            Line(("thin_when",), Measure.TEXT),
            _length("spacing_m", 20),
            _length("row_spacing_m", 20),
        ),
    ),
    Section(
        "calendar",
        (
            _weeks("indoor_weeks_low", "indoor_weeks_high", lowest=0),
            _weeks("sow_weeks_early", "sow_weeks_late"),
            _weeks("transplant_weeks_early", "transplant_weeks_late"),
            _weeks("autumn_weeks_early", "autumn_weeks_late"),
        ),
    ),
    Section(
        "harvest",
        (
            _days("maturity_days_low", "maturity_days_high"),
            Line(("maturity_from",), Measure.CHOICE),
            _days("harvest_days_low", "harvest_days_high", highest=365),
            _days("succession_days", highest=180),
        ),
    ),
    Section(
        "fall",
        (
            Line(("fall_crop",), Measure.YES_NO),
            _days("fall_margin_days", lowest=-120, highest=120),
        ),
    ),
    Section(
        "warmth",
        (
            _temperature("growth_min_c"),
            _temperature("growth_optimum_low_c", "growth_optimum_high_c"),
            _temperature("growth_max_c"),
            _temperature("kill_c"),
        ),
    ),
    Section(
        "habit",
        (
            Line(("sun_hours_min",), Measure.HOURS, 0, 24),
            Line(("support",), Measure.CHOICE),
            _length("height_m", 20),
            Line(("container_litres",), Measure.VOLUME, 0.1, 2000),
            Line(("nitrogen_demand",), Measure.CHOICE),
            Line(("rooting_depth_class",), Measure.CHOICE),
        ),
    ),
)

LINES: dict[str, Line] = {
    name: line for section in SECTIONS for line in section.lines for name in line.fields
}
FACT_FIELDS: tuple[str, ...] = tuple(LINES)

# The first of each pair may not exceed the second.
ORDER: tuple[tuple[str, str], ...] = (
    ("soil_min_c", "soil_optimum_low_c"),
    ("soil_min_c", "soil_max_c"),
    ("soil_optimum_low_c", "soil_optimum_high_c"),
    ("soil_optimum_high_c", "soil_max_c"),
    ("indoor_weeks_low", "indoor_weeks_high"),
    ("sow_weeks_early", "sow_weeks_late"),
    ("transplant_weeks_early", "transplant_weeks_late"),
    ("autumn_weeks_early", "autumn_weeks_late"),
    ("maturity_days_low", "maturity_days_high"),
    ("harvest_days_low", "harvest_days_high"),
    ("growth_min_c", "growth_optimum_low_c"),
    ("growth_optimum_low_c", "growth_optimum_high_c"),
    ("growth_optimum_high_c", "growth_max_c"),
    ("seedling_spacing_m", "spacing_m"),
)

# Either both of a pair are known or neither.
TOGETHER: tuple[tuple[str, str], ...] = (
    ("soil_optimum_low_c", "soil_optimum_high_c"),
    ("indoor_weeks_low", "indoor_weeks_high"),
    ("sow_weeks_early", "sow_weeks_late"),
    ("transplant_weeks_early", "transplant_weeks_late"),
    ("autumn_weeks_early", "autumn_weeks_late"),
    ("maturity_days_low", "maturity_days_high"),
    ("harvest_days_low", "harvest_days_high"),
    ("growth_optimum_low_c", "growth_optimum_high_c"),
)


class Flaw(StrEnum):
    """How two facts of one crop can fail to agree."""

    OUT_OF_ORDER = "out of order"
    HALF_GIVEN = "half given"
    UNCOUNTED = "uncounted"


def flaws(facts: CropFacts) -> Iterator[tuple[Flaw, str, str]]:
    """Facts that cannot all be true, as (what is wrong, the one field, the other field)."""
    for low, high in ORDER:
        smaller, larger = getattr(facts, low), getattr(facts, high)
        if smaller is not None and larger is not None and smaller > larger:
            yield Flaw.OUT_OF_ORDER, low, high
    for low, high in TOGETHER:
        if (getattr(facts, low) is None) != (getattr(facts, high) is None):
            missing, given = (low, high) if getattr(facts, low) is None else (high, low)
            yield Flaw.HALF_GIVEN, missing, given
    if facts.maturity_days_low is not None and facts.maturity_from is None:
        yield Flaw.UNCOUNTED, "maturity_from", "maturity_days_low"
