"""The chance that what is begun on a day ripens before a freeze kills it, from the garden's own record.

A record is counted year by year: a year counts as good when no freeze that kills the young plant came on or
after the day from which it is exposed, and none that ends the grown one came by the day on which it is ripe.
Both freezes are those of one and the same year, for a late spring and an early autumn seldom meet. A table
or a mean pair knows no years: there the two sides are taken as having nothing to do with each other.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from functools import cached_property
from itertools import groupby

from crops.facts import CropFacts, Method
from schedules.bases import RecordClimate
from schedules.climate import Climate, RiskCurve
from schedules.frost import Freeze, Outcome
from schedules.seasons import DAYS_IN_YEAR, Hemisphere, Side, day_number, from_day_number
from schedules.windows import AS_PUBLISHED, Start, Turn
from schedules.windows.growing_year import HALF_YEAR, GrowingYear
from schedules.windows.growth import YOUNG_PLANT_DIES_AT_C, dies_at, emergence, exposed_from
from schedules.windows.practice import FITTED
from schedules.windows.ripening import Pace, Ripening, ripening

_NOISE = 1e-9  # seven tenths of the years fall short of 0.7 by the noise of floats
_MIDSUMMER = 172  # 21 June: until then a planting may meet a late freeze of spring


class NoChance(StrEnum):
    """Why no chance can be told."""

    NO_DAYS = "no-days"  # no source gives its days to maturity
    LATER_YEAR = "later-year"  # a perennial, or picked the summer after
    TOO_LITTLE_WARMTH = "too-little-warmth"
    NOT_UP = "not-up"  # seed sown then does not come up: the soil is too cold or too hot
    FREEZES_UNKNOWN = "freezes-unknown"  # the dates do not tell of a freeze as cold as the one that ends it


@dataclass(frozen=True, slots=True)
class Chance:
    """What becomes of a crop begun on a day.

    `share` (0 to 1) of years let it ripen; `killed_young` and `killed_late` are the shares that do not. With
    a record `count` of `used` years are good, and `young_count` and `late_count` are not. `young_c` and
    `grown_c` are the temperatures outside that kill; `young_c` is `None` where no freeze of spring was
    weighed: it is past, or nothing is known about it.
    """

    begun: date
    exposed: date
    ripe: date
    share: float
    killed_young: float
    killed_late: float
    young_c: float | None
    grown_c: float
    count: int | None = None
    used: int | None = None
    young_count: int | None = None
    late_count: int | None = None

    @property
    def percent(self) -> int:
        """The share in whole percent."""
        return round(100 * self.share)


def turn_of(day: date, hemisphere: Hemisphere) -> Turn:
    """The half of the growing year that a day belongs to; midsummer parts them.

    >>> turn_of(date(2026, 6, 20), Hemisphere.NORTH).value, turn_of(date(2026, 6, 20), Hemisphere.SOUTH).value
    ('spring', 'autumn')
    """
    number = day_number(day, day.year) - (HALF_YEAR if hemisphere is Hemisphere.SOUTH else 0)
    return Turn.SPRING if number % DAYS_IN_YEAR < _MIDSUMMER else Turn.AUTUMN


def ending_year(day: date, hemisphere: Hemisphere) -> int:
    """The label year of the first freeze that ends what is begun on a day.

    >>> ending_year(date(2026, 9, 1), Hemisphere.NORTH), ending_year(date(2026, 9, 1), Hemisphere.SOUTH)
    (2026, 2027)
    """
    later = hemisphere is Hemisphere.SOUTH and day_number(day, day.year) >= HALF_YEAR
    return day.year + later


class Odds:
    """The chances of a crop in a garden, begun in one way, under a cover that keeps off `cover_c` (°C)."""

    def __init__(self, facts: CropFacts, climate: Climate, start: Start, *, cover_c: float = 0.0) -> None:
        self.facts = facts
        self.climate = climate
        self.start = start
        self.cover_c = cover_c
        self._years: dict[int, GrowingYear] = {}
        self._ripens: dict[Turn, Ripening | None] = {}
        self._freezes: dict[bool, list[tuple[int | None, int | None]]] = {}

    def on(self, day: date, pace: Pace = Pace.QUICK) -> Chance | NoChance:
        """The chance of a quick variety, or of one of another pace, begun on `day`."""
        turn = turn_of(day, self.climate.hemisphere)
        ripens = self._ripening(turn, day.year)
        if ripens is None:
            return NoChance.NO_DAYS
        if self.facts.perennial or self.facts.autumn_weeks_early is not None:
            return NoChance.LATER_YEAR
        if ripens.never:
            return NoChance.TOO_LITTLE_WARMTH
        if self.grown_curve is None:
            return NoChance.FREEZES_UNKNOWN
        exposed = self.exposed(day)
        if exposed is None:
            return NoChance.NOT_UP
        ripe = from_day_number(ripens.ripe(day_number(day, day.year), pace), day.year)
        return self._weighed(day, exposed, ripe, turn)

    def exposed(self, day: date) -> date | None:
        """From when frost reaches what is begun on `day`: seed and tubers once they show; `None` if never."""
        if self.start is Start.TRANSPLANT:
            return day
        year = self._year(day.year)
        number = day_number(day, day.year)
        seed = self.facts.method is not Method.VEGETATIVE
        if seed and year.has_normals and emergence(self.facts, year.soil_c, number) is None:
            return None
        shows = exposed_from(self.facts, year.hiding_soil_c, number)
        return day if shows is None else year.date(shows)

    def _weighed(self, day: date, exposed: date, ripe: date, turn: Turn) -> Chance:
        label = ending_year(day, self.climate.hemisphere)
        young = self.young_curve if turn is Turn.SPRING else None
        shows, ready = day_number(exposed, label), day_number(ripe, label)
        told = (day, exposed, ripe)
        celsius = None if young is None else young.celsius
        if isinstance(self.climate, RecordClimate):
            pairs = self._pairs(self.climate, with_spring=young is not None)
            lost = sum(last is not None and last >= shows for last, _first in pairs)
            good = sum(
                (last is None or last < shows) and (first is None or first > ready) for last, first in pairs
            )
            used = len(pairs)
            late = used - good - lost
            if used:
                shares = good / used, lost / used, late / used
                return Chance(*told, *shares, celsius, self._grown_c, good, used, lost, late)
        south = self.climate.hemisphere is Hemisphere.SOUTH
        killed = 0.0 if young is None else young.chance(shows + (DAYS_IN_YEAR if south else 0))
        ended = (1 - killed) * self._risk_of(self.grown_curve, ready)
        return Chance(*told, 1 - killed - ended, killed, ended, celsius, self._grown_c)

    def _pairs(self, climate: RecordClimate, *, with_spring: bool) -> list[tuple[int | None, int | None]]:
        if with_spring not in self._freezes:
            self._freezes[with_spring] = list(self._read_pairs(climate, with_spring=with_spring))
        return self._freezes[with_spring]

    def _read_pairs(
        self, climate: RecordClimate, *, with_spring: bool
    ) -> Iterable[tuple[int | None, int | None]]:
        """The last and the first killing freeze of each growing season, in day numbers of its autumn.

        `None` stands for a season without one; a season that cannot be told is left out.
        """
        springs = {year.year: year.last for year in climate.record.years(self._young_c)}
        earlier = climate.hemisphere is Hemisphere.SOUTH
        for year in climate.record.years(self._grown_c):
            last = springs.get(year.year - earlier) if with_spring else Outcome.NONE
            if _told(last) and _told(year.first):
                yield _number(last, year.year), _number(year.first, year.year)

    @property
    def _young_c(self) -> float:
        return self._year(0).killing(Side.LAST, YOUNG_PLANT_DIES_AT_C[self.facts.hardiness])

    @property
    def _grown_c(self) -> float:
        return self._year(0).killing(Side.FIRST, dies_at(self.facts))

    @cached_property
    def young_curve(self) -> RiskCurve | None:
        """The last freezes that kill the young plant; `None` where nothing is known of them."""
        return self.climate.risk(Side.LAST, self._young_c)

    @cached_property
    def grown_curve(self) -> RiskCurve | None:
        """The first freezes that end the grown plant."""
        return self.climate.risk(Side.FIRST, self._grown_c)

    @staticmethod
    def _risk_of(curve: RiskCurve | None, day: int) -> float:
        return 0.0 if curve is None else curve.chance(day)

    def _year(self, year: int) -> GrowingYear:
        if year not in self._years:
            self._years[year] = GrowingYear(self.climate, year, AS_PUBLISHED, FITTED, self.cover_c)
        return self._years[year]

    def _ripening(self, turn: Turn, year: int) -> Ripening | None:
        if turn not in self._ripens:
            self._ripens[turn] = ripening(self.facts, self.start, turn, self._year(year))
        return self._ripens[turn]


def chances(odds: Odds, first: date, last: date, pace: Pace, *, step: int = 5) -> list[tuple[date, float]]:
    """The share of good years for each `step`th day from `first` to `last`, both included.

    Seed that does not come up has no chance; empty where nothing can be told.
    """
    found: list[tuple[date, float]] = []
    days = range(0, (last - first).days + 1, step)
    for day in sorted({*(first + timedelta(count) for count in days), last}):
        chance = odds.on(day, pace)
        if isinstance(chance, Chance):
            found.append((day, chance.share))
        elif chance is NoChance.NOT_UP:
            found.append((day, 0.0))
        else:
            return []
    return found


def likely_days(points: Iterable[tuple[date, float]], share: float) -> list[tuple[date, date]]:
    """The stretches of days, first and last, on which the chance is at least `share` (0 to 1).

    >>> low, high = (date(2026, 5, 1), 0.5), (date(2026, 5, 2), 0.8)
    >>> likely_days([low, high], 0.7)
    [(datetime.date(2026, 5, 2), datetime.date(2026, 5, 2))]
    """
    found: list[tuple[date, date]] = []
    for enough, run in groupby(points, key=lambda point: point[1] >= share - _NOISE):
        days = [day for day, _share in run]
        if enough:
            found.append((days[0], days[-1]))
    return found


def _told(freeze: Freeze | None) -> bool:
    return freeze is not None and freeze is not Outcome.LEFT_OUT


def _number(freeze: Freeze | None, year: int) -> int | None:
    return day_number(freeze, year) if isinstance(freeze, date) else None
