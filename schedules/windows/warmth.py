"""Where in a year the normals are warm or cool enough for a crop."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from crops.facts import CropFacts
from schedules.windows.growing_year import GrowingYear
from schedules.windows.ripening import Pace, ripening
from schedules.windows.types import Start, Turn

# Common practice, no source: soil at seed depth averages this once it is no longer frozen or sodden.
GROUND_WORKABLE_C = 4.0
# The published limits are means of whole months, in which a crop grows well from the warm end on.
MONTH_MEAN_TOLERANCE_C = 2.0
HALF_MONTH = 15


def first_day_soil_reaches(celsius: float, year: GrowingYear) -> int | None:
    """The first day of the warming half of the year with soil at seed depth at `celsius` (°C) or above."""
    return _first(_warming(year), lambda day: (year.soil(day) or 0.0) >= celsius)


def soil_stays_too_cold(facts: CropFacts, start: Start, year: GrowingYear) -> bool:
    """Whether the soil never reaches what seed, sown where it grows, needs to come up."""
    limit = facts.soil_min_c if start is Start.SOW and year.has_normals else None
    return limit is not None and first_day_soil_reaches(limit, year) is None


def first_day_warm_enough(facts: CropFacts, year: GrowingYear) -> int | None:
    """The first day of the warming half from which the coming month is warm enough for the crop to grow."""
    limit = facts.growth_min_c
    if limit is None:
        return year.coldest_day
    return _first(_warming(year), lambda day: year.air(day + HALF_MONTH) >= limit - MONTH_MEAN_TOLERANCE_C)


def heat_begins(facts: CropFacts, year: GrowingYear) -> int | None:
    """The first day of the warming half with too hot a month around it; `None` if there is none."""
    limit = facts.growth_max_c
    if limit is None or not year.has_normals:
        return None
    return _first(_warming(year), lambda day: year.air(day) > limit)


def heat_ends(facts: CropFacts, year: GrowingYear) -> int | None:
    """The first day of the cooling half with no longer too hot a month around it; `None` if it never is."""
    limit = facts.growth_max_c
    if limit is None or not year.has_normals or year.air(year.hottest_day(Turn.AUTUMN)) <= limit:
        return None
    return _first(_cooling(year), lambda day: year.air(day) <= limit)


def growth_ends(facts: CropFacts, year: GrowingYear) -> int | None:
    """The first day of the cooling half with too cold a month around it; `None` if there is none."""
    limit = facts.growth_min_c
    if limit is None or not year.has_normals:
        return None
    return _first(_cooling(year), lambda day: year.air(day) < limit)


def warm_and_cool_enough(
    facts: CropFacts, start: Start, turn: Turn, year: GrowingYear, days: Iterable[int]
) -> list[int]:
    """The first unbroken run of `days` on which the crop could begin and ripen in the warmth it likes.

    Nor does it stand through a winter that is too cold for it to grow in.
    """
    ripens = ripening(facts, start, turn, year)
    if ripens is not None and ripens.never:
        return []
    low = -273.0 if facts.growth_min_c is None else facts.growth_min_c - MONTH_MEAN_TOLERANCE_C
    high = 100.0 if facts.growth_max_c is None else facts.growth_max_c
    winter = year.midwinter_after(turn)

    def suits(day: int) -> bool:
        ripe = day + HALF_MONTH if ripens is None else ripens.ripe(day, Pace.MIDDLING)
        if day < winter < ripe and year.air(winter) < low:
            return False
        return low <= year.air(day + HALF_MONTH) <= high and low <= year.air(ripe) <= high

    run: list[int] = []
    for day in days:
        if suits(day):
            run.append(day)
        elif run:
            break
    return run


def _warming(year: GrowingYear) -> range:
    return range(year.coldest_day, year.hottest_day(Turn.SPRING) + 1)


def _cooling(year: GrowingYear) -> range:
    return range(year.hottest_day(Turn.AUTUMN), year.midwinter_after(Turn.AUTUMN) + 1)


def _first(days: Iterable[int], holds: Callable[[int], bool]) -> int | None:
    return next((day for day in days if holds(day)), None)
