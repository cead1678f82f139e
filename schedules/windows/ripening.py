"""How long a planting takes to its first harvest: by warmth, or by days.

Sources give days to maturity where a crop grows well. With daily normals they are read as so many days at the
middle of the crop's best range, and the garden's own warmth is summed until it comes to as much: above the
crop's base temperature, under its ceiling, and no day for more than one at the top of the best range.

Without normals, and for crops of which no growing temperatures are known, days count as they are; in autumn a
day after the equinox counts for three quarters of one. That is what warmth makes of it: at seven stations,
crops that ripen around their first frost take 0 days longer than published where it comes in late
September, 5 in the middle of October and 12 at its end; tests/schedules/windows/test_ripening.py counts them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum, StrEnum
from functools import lru_cache

from crops.facts import CropFacts
from schedules.seasons import DAYS_IN_YEAR
from schedules.thermal import YearOfWarmth, year_of_warmth
from schedules.windows.growing_year import HALF_YEAR, GrowingYear
from schedules.windows.growth import maturity_days
from schedules.windows.types import Start, Turn

# The months in which crops of warm seasons grow well begin far above the temperature at which they grow at
# all: 50 °F for corn and beans (NC State, seen; tests/reference/thermal_checks.json), for others from memory.
WARMEST_BASE_C = 10.0
SPRING_EQUINOX, AUTUMN_EQUINOX = 80, 265  # 21 March, 22 September
AUTUMN_DAY = 0.75


class Pace(IntEnum):
    """Which of a crop's varieties: the place of its days among the quick, the middling and the slow."""

    QUICK = 0
    MIDDLING = 1
    SLOW = 2


class Counted(StrEnum):
    """What days to maturity are counted in."""

    WARMTH = "warmth"
    DAYS = "days"
    SHORTER_DAYS = "shorter-days"


@dataclass(frozen=True)
class Ripening:
    """The way from the day on which a planting begins to its first harvest, in day numbers of its year.

    `days` are those published, quick, middling and slow; each is `per_day` of what the `year` adds up. By
    warmth they are days at `best_c`, counted above `base_c` (°C).
    """

    days: tuple[int, int, int]
    counted: Counted
    year: YearOfWarmth
    per_day: float
    base_c: float | None = None
    best_c: float | None = None

    def ripe(self, begun: int, pace: Pace) -> int:
        """The first day of harvest. Raises `ValueError` where it `never` ripens."""
        return self.year.ready(begun, self._need(pace))

    def begun_by(self, ripe: int, pace: Pace) -> int:
        """The last day to begin for a harvest from `ripe` on. Raises `ValueError` as above."""
        return self.year.begun_by(ripe, self._need(pace))

    @property
    def never(self) -> bool:
        """Whether a whole year has less warmth than a quick variety needs."""
        return self.counted is Counted.WARMTH and self.days[Pace.QUICK] * self.per_day > self.year.total

    def counted_days(self, pace: Pace) -> int:
        """The days as published; of quick varieties where slower ones never ripen."""
        never = self.counted is Counted.WARMTH and self.days[pace] * self.per_day > self.year.total
        return self.days[Pace.QUICK if never else pace]

    def _need(self, pace: Pace) -> float:
        if self.never:
            raise ValueError("it never finds the warmth to ripen")
        return self.counted_days(pace) * self.per_day

    def told(self, begun: int, ripe: int, pace: Pace) -> dict[str, object]:
        """For a reason: the days published, those it takes here, and in what they were counted."""
        return {"days": self.counted_days(pace), "takes": ripe - begun, "counted": self.counted}


def ripening(facts: CropFacts, start: Start, turn: Turn, year: GrowingYear) -> Ripening | None:
    """How a crop ripens in a turn of the garden's year; `None` where no source gives its days."""
    days = maturity_days(facts, start)
    if days is None:
        return None
    low, high = year.climate.low_c, year.climate.high_c
    grows = facts.growth_min_c, facts.growth_optimum_low_c, facts.growth_optimum_high_c, facts.growth_max_c
    overwinters = facts.autumn_weeks_early is not None
    if low is None or high is None or None in grows or overwinters:
        shorter = turn is Turn.AUTUMN and not overwinters
        counted = Counted.SHORTER_DAYS if shorter else Counted.DAYS
        return Ripening(days, counted, _days_that_count(shorter, year.south), 1.0)
    minimum, best_low, best_high, ceiling = (float(value) for value in grows if value is not None)
    base = min(minimum, WARMEST_BASE_C)
    warmth = _warmth(tuple(low), tuple(high), base, ceiling, best_high - base)
    best = (best_low + best_high) / 2
    return Ripening(days, Counted.WARMTH, warmth, best - base, base, best)


@lru_cache(maxsize=256)  # the crops of a garden share a few base temperatures
def _warmth(
    low_c: Sequence[float], high_c: Sequence[float], base_c: float, ceiling_c: float, most_c: float
) -> YearOfWarmth:
    return year_of_warmth(low_c, high_c, base_c=base_c, ceiling_c=ceiling_c, most_c=most_c)


@lru_cache
def _days_that_count(shorter: bool, south: bool) -> YearOfWarmth:
    def counts(day: int) -> float:
        northern = (day - HALF_YEAR if south else day) % DAYS_IN_YEAR
        return 1.0 if SPRING_EQUINOX <= northern < AUTUMN_EQUINOX or not shorter else AUTUMN_DAY

    return YearOfWarmth(counts(day) for day in range(1, DAYS_IN_YEAR + 1))
