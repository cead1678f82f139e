"""Freeze dates by probability, from a daily record of minimum temperatures.

A freeze is a day whose minimum is at or below a threshold in °C, taken exactly as written. Each cold season
(1 August to 31 July in the north, 1 February to 31 January in the south) gives one last and one first
freeze, labelled with the year of the spring or autumn it decides. Definitions follow NOAA's freeze normals
(August to July season, minimum at or below the threshold, probability "on or after" for the last and "on or
before" for the first freeze) and the Utah Climate Center's rule of ten missing days; the whole text stands
in tests/reference/frost_expected.json.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction
from functools import cached_property
from math import floor, inf
from operator import neg

from schedules.seasons import DAYS_IN_YEAR, Hemisphere, Side, day_number, from_day_number

THRESHOLDS_C = (0.0, -2.2, -4.4)
"""The three thresholds in °C that every page shows: damage to tender, half-hardy and hardy young plants."""

MISSING_DAYS_TO_LEAVE_OUT = 10
FEWEST_FREEZE_SEASONS = 3
_HALF = Fraction(1, 2)
_ONE_DAY = timedelta(days=1)


class Outcome(StrEnum):
    """What a season gives when it gives no date."""

    NONE = "none"  # looked at and free of frost: it counts as a season without a freeze
    LEFT_OUT = "left_out"  # too many days are missing to tell: it does not count at all


Freeze = date | Outcome


@dataclass(frozen=True, slots=True)
class FrostYear:
    """A year's own last and first freeze; `None` where the record does not reach that season."""

    year: int
    last: Freeze | None = None
    first: Freeze | None = None

    def of(self, side: Side) -> Freeze | None:
        """The value of one side."""
        return self.last if side is Side.LAST else self.first


def adjusted(minimum_c: float, offset_c: float) -> float:
    """A station's minimum as the garden would have it, in °C.

    The offset is added before any comparison and the sum rounded to 0.01, or -1.9 - 0.3 would give
    -2.1999999999999997 and miss -2.2. Without an offset the value stays exactly as recorded.

    >>> adjusted(-1.9, -0.3), adjusted(-2.204, 0.0)
    (-2.2, -2.204)
    """
    return round(minimum_c + offset_c, 2) if offset_c else minimum_c


def quantile(ordered: Sequence[int], share: Fraction) -> Fraction:
    """The quantile of `ordered` (ascending, not empty) at plotting position i/(n+1), clamped to its extremes.

    Exact, because floating noise on a half would move a date by a day.

    >>> quantile([10, 20, 30], Fraction(3, 8))
    Fraction(15, 1)
    """
    count = len(ordered)
    position = min(max(share * (count + 1), Fraction(1)), Fraction(count))
    below = floor(position)
    if below == count:
        return Fraction(ordered[-1])
    return ordered[below - 1] + (position - below) * (ordered[below] - ordered[below - 1])


def half_up(value: Fraction | float) -> int:
    """The nearest whole number, halves upwards."""
    return floor(value + (_HALF if isinstance(value, Fraction) else 0.5))


def _share(percent: float) -> Fraction:
    return Fraction(str(percent)) / 100


class RecordCurve:
    """The risk of a freeze on one side of the season, counted in the seasons of a record.

    Implements `schedules.climate.RiskCurve`. `day` gives quantiles over the seasons that froze; `chance`
    and `count` give plain counts over all used seasons. The two differ a little by nature: a page says
    which it shows.
    """

    def __init__(self, side: Side, celsius: float, years: Iterable[FrostYear]) -> None:
        self.side = side
        self.celsius = celsius
        outcomes = [(year.year, outcome) for year in years if (outcome := year.of(side)) is not None]
        self.dates = {year: outcome for year, outcome in outcomes if isinstance(outcome, date)}
        """The seasons that froze: label year to the date of the freeze."""
        self.left_out = [year for year, outcome in outcomes if outcome is Outcome.LEFT_OUT]
        self.free = [year for year, outcome in outcomes if outcome is Outcome.NONE]
        self.used = len(self.dates) + len(self.free)
        """Seasons that count: those with a freeze and those found free of frost."""
        self._days = sorted(day_number(day, year) for year, day in self.dates.items())
        self._quantiles: dict[float, int | None] = {}

    @property
    def frozen(self) -> int:
        """How many of the used seasons had a freeze."""
        return len(self._days)

    @property
    def too_short(self) -> bool:
        """Whether the seasons are too few to name dates, rather than freezes too rare among them."""
        few = self.frozen < FEWEST_FREEZE_SEASONS
        return self.used < FEWEST_FREEZE_SEASONS or (few and 2 * self.frozen > self.used)

    def exact_day(self, percent: float) -> Fraction | None:
        """The day number of `day` before rounding."""
        if not 0 < percent <= 100:
            raise ValueError(f"A chance must lie above 0 and up to 100 percent, not at {percent}.")
        if self.frozen < FEWEST_FREEZE_SEASONS:
            return None
        among_frozen = self._among_frozen(percent)
        if among_frozen >= 1:
            return None
        return quantile(self._days, 1 - among_frozen if self.side is Side.LAST else among_frozen)

    def _among_frozen(self, percent: float) -> Fraction:
        """The chance as a share of the seasons that froze."""
        return _share(percent) * self.used / self.frozen

    def reads_past_rarest(self, percent: float) -> bool:
        """Whether the plotting position lies beyond every season that froze; the outermost stands in then."""
        return self._among_frozen(percent) * (self.frozen + 1) > self.frozen

    def day(self, percent: float) -> int | None:
        """The day number that a freeze comes on or after (last), or on or before (first), in `percent` of
        100.

        `None` when so many seasons never freeze, or when fewer than three froze.
        """
        if percent not in self._quantiles:
            self._quantiles[percent] = self._find_day(percent)
        return self._quantiles[percent]

    def _find_day(self, percent: float) -> int | None:
        exact = self.exact_day(percent)
        return None if exact is None else half_up(exact)

    def count(self, day: int) -> int:
        """How many seasons had a freeze on or after (last), or on or before (first), the day number `day`."""
        if self.side is Side.LAST:
            return self.frozen - bisect_left(self._days, day)
        return bisect_right(self._days, day)

    def chance(self, day: int) -> float:
        """`count` as a share (0 to 1) of the used seasons.

        Raises `ValueError` when the record has no season to count.
        """
        if not self.used:
            raise ValueError("The record has no season that can be counted.")
        return self.count(day) / self.used


@dataclass(slots=True)
class _Walk:
    """One side of a season from its summer end: each day that was colder than all before it."""

    days: list[date] = field(default_factory=list)
    minimums_c: list[float] = field(default_factory=list)  # falling
    is_cut: bool = False  # ten missing days ended it

    def freeze(self, celsius: float) -> Freeze:
        at = bisect_left(self.minimums_c, -celsius, key=neg)
        if at < len(self.days):
            return self.days[at]
        return Outcome.LEFT_OUT if self.is_cut else Outcome.NONE


@dataclass(frozen=True, slots=True)
class FreezeFreeLengths:
    """How long the freeze-free season lasted, in days, year by year; it has its own distribution.

    A year that no freeze cut on one side counts as a whole year. Never subtract one probability date from
    another.
    """

    days: tuple[int, ...]  # ascending

    def reached_in(self, percent: float) -> int | None:
        """The length in days that `percent` of 100 years reach; `None` with fewer than three years."""
        if len(self.days) < FEWEST_FREEZE_SEASONS:
            return None
        return half_up(quantile(self.days, 1 - _share(percent)))

    def count_reaching(self, days: int) -> int:
        """In how many years the freeze-free season lasted at least `days`."""
        return len(self.days) - bisect_left(self.days, days)


class FrostRecord:
    """The minimums of a station, moved by the garden's offset, and every freeze date that follows from them.

    `minimums_c` maps a day to its minimum in °C; a day without one is missing. `hemisphere` sets the cold
    season; with `since`, label years before it do not count. Whatever is asked of a threshold is worked out
    once and kept.
    """

    def __init__(
        self,
        minimums_c: Mapping[date, float],
        hemisphere: Hemisphere,
        *,
        offset_c: float = 0.0,
        since: int | None = None,
    ) -> None:
        self.hemisphere = hemisphere
        self._since = since
        self._years: dict[float, tuple[FrostYear, ...]] = {}
        self._defined: dict[tuple[Side, float], RecordCurve] = {}
        self._curves: dict[tuple[Side, float], SteadyCurve] = {}
        self._start = min(minimums_c, default=date(1, 1, 1)).toordinal()
        length = max(minimums_c).toordinal() - self._start + 1 if minimums_c else 0
        self._minimums: list[float | None] = [None] * length
        for day, minimum in minimums_c.items():
            self._minimums[day.toordinal() - self._start] = adjusted(minimum, offset_c)

    @property
    def first_day(self) -> date | None:
        """The first day with a minimum."""
        return date.fromordinal(self._start) if self._minimums else None

    @property
    def last_day(self) -> date | None:
        """The last day with a minimum."""
        return date.fromordinal(self._start + len(self._minimums) - 1) if self._minimums else None

    def years(self, celsius: float) -> tuple[FrostYear, ...]:
        """Each label year with its last and first freeze at or below `celsius`, in order."""
        if celsius not in self._years:
            self._years[celsius] = tuple(self._find_years(celsius))
        return self._years[celsius]

    def defined(self, side: Side, celsius: float) -> RecordCurve:
        """The curve of one side at `celsius`, its dates by the definition alone."""
        key = (side, celsius)
        if key not in self._defined:
            self._defined[key] = RecordCurve(side, celsius, self.years(celsius))
        return self._defined[key]

    def curve(self, side: Side, celsius: float) -> SteadyCurve:
        """The risk curve of one side at `celsius`; look at its `used` before relying on it."""
        key = (side, celsius)
        if key not in self._curves:
            self._curves[key] = SteadyCurve(self, side, celsius)
        return self._curves[key]

    def freeze_free_days(self, celsius: float) -> FreezeFreeLengths:
        """The lengths of the season strictly between a last freeze at `celsius` and the first one after it.

        In the north both carry one label year; in the south the growing season runs over New Year, so that
        the last freeze of one label year goes with the first of the next.
        """
        years = {year.year: year for year in self.years(celsius)}
        step = 0 if self.hemisphere is Hemisphere.NORTH else 1
        pairs = (
            (year.last, years[year.year + step].first) for year in years.values() if year.year + step in years
        )
        lengths = (_days_between(last, first) for last, first in pairs)
        return FreezeFreeLengths(tuple(sorted(length for length in lengths if length is not None)))

    def _find_years(self, celsius: float) -> Iterator[FrostYear]:
        for year, sides in self._walks.items():
            freezes = {side: walk.freeze(celsius) for side, walk in sides.items()}
            yield FrostYear(year, freezes.get(Side.LAST), freezes.get(Side.FIRST))

    @cached_property
    def _walks(self) -> dict[int, dict[Side, _Walk]]:
        """The walks of each label year that counts, in order."""
        found: dict[int, dict[Side, _Walk]] = {}
        for season in self._seasons():
            start, end = season_bounds(season, self.hemisphere)
            last_label = end.year if self.hemisphere is Hemisphere.NORTH else season
            found.setdefault(season, {})[Side.FIRST] = self._walked(start, end, 1)
            found.setdefault(last_label, {})[Side.LAST] = self._walked(end, start, -1)
        return {year: found[year] for year in sorted(found) if self._since is None or year >= self._since}

    @cached_property
    def _levels(self) -> dict[Side, list[float]]:
        """The temperatures (°C), ascending, between which no date of a side can change."""
        every = [pair for sides in self._walks.values() for pair in sides.items()]
        return {
            side: sorted({level for one, walk in every if one is side for level in walk.minimums_c})
            for side in Side
        }

    def milder(self, side: Side, celsius: float) -> Iterator[RecordCurve]:
        """The curves, by definition, of each higher temperature at which another date counts, in order."""
        levels = self._levels[side]
        for level in levels[bisect_right(levels, celsius) :]:
            yield self.defined(side, level)

    def _seasons(self) -> range:
        if self.first_day is None or self.last_day is None:
            return range(0)
        return range(
            season_of(self.first_day, self.hemisphere), season_of(self.last_day, self.hemisphere) + 1
        )

    def _walked(self, warm_end: date, cold_end: date, step: int) -> _Walk:
        """Walk from the summer end of a season to the other; the tenth missing day ends the walk."""
        missing, known = 0, len(self._minimums)
        walk = _Walk()
        for ordinal in range(warm_end.toordinal(), cold_end.toordinal() + step, step):
            index = ordinal - self._start
            minimum = self._minimums[index] if 0 <= index < known else None
            if minimum is None:
                missing += 1
                if missing == MISSING_DAYS_TO_LEAVE_OUT:
                    walk.is_cut = True
                    break
            elif not walk.minimums_c or minimum < walk.minimums_c[-1]:
                walk.minimums_c.append(minimum)
                walk.days.append(date.fromordinal(ordinal))
        return walk


class SteadyCurve(RecordCurve):
    """A record's curve on which a colder freeze is never told to last longer than a milder one.

    Each freeze is a milder one too: its last date cannot be later, its first one not earlier. Quantiles by
    their definition turn that round by a day or a few where hardly more seasons froze than the chance asks
    for, and where the way to a colder freeze meets missing days that leave a season out. Then the date of
    the milder temperature counts, so that a warmer garden is never held back for being warmer.
    """

    def __init__(self, record: FrostRecord, side: Side, celsius: float) -> None:
        super().__init__(side, celsius, record.years(celsius))
        self._record = record

    def _find_day(self, percent: float) -> int | None:
        own = super()._find_day(percent)
        if own is None:
            return None
        outermost = min if self.side is Side.LAST else max
        most = self._record.defined(self.side, inf).used
        curve: RecordCurve = self
        for milder in self._record.milder(self.side, self.celsius):
            # All seasons count, none stands in: what is milder still cannot contradict.
            if curve.used == most and not curve.reads_past_rarest(percent):
                break
            curve, day = milder, milder.day(percent)
            own = own if day is None else outermost(own, day)
        return own


def season_of(day: date, hemisphere: Hemisphere) -> int:
    """The year in which the cold season that `day` belongs to begins."""
    return day.year if day.month >= _first_month(hemisphere) else day.year - 1


def season_bounds(season: int, hemisphere: Hemisphere) -> tuple[date, date]:
    """The first and last day of the cold season that begins in the year `season`."""
    month = _first_month(hemisphere)
    return date(season, month, 1), date(season + 1, month, 1) - _ONE_DAY


def month_day(number: int) -> str:
    """A day number as "MM-DD".

    >>> month_day(0), month_day(146)
    ('12-31', '05-26')
    """
    return from_day_number(number, 2001).strftime("%m-%d")


def _first_month(hemisphere: Hemisphere) -> int:
    return 8 if hemisphere is Hemisphere.NORTH else 2


def _days_between(last: Freeze | None, first: Freeze | None) -> int | None:
    if isinstance(last, date) and isinstance(first, date):
        return (first - last).days - 1
    if None in (last, first) or Outcome.LEFT_OUT in (last, first):
        return None
    return DAYS_IN_YEAR
