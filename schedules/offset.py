"""How much colder or warmer a garden is than its station, learned from nights on which both were read.

Frost falls on clear, still nights, when cold air gathers in hollows; under clouds a garden and its station
differ less. So only clear nights count where the station's maximums tell them: those whose span from minimum
to maximum is at least the normal one of that day of the year (common practice, no source). Their differences
are averaged without the fifth that lies farthest out on each side, and the uncertainty is Student's t over
the winsorized spread of the rest (Tukey and McLaughlin 1963, Yuen 1974; value from memory), widened where one
night's difference goes on into the next. A planted offset lies within it in 95 of 100 simulated gardens.

Readings that cannot be right are set aside and named first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from math import fsum, sqrt
from statistics import fmean, median

from schedules.days import DayWeather
from schedules.misreadings import Flaw, flaw_of
from schedules.seasons import DAYS_IN_YEAR, day_number

FEWEST_NIGHTS = 10
"""Nights below which no offset is stated (common practice, no source)."""

TRIMMED_SHARE = 0.2
_MAD_TO_SD = 1.4826  # of a normal distribution
_FLAWED_SPREADS = 5.0
_FLAWED_AT_LEAST_C = 4.0
_SHIFTED_SPREAD = 0.6  # readings dated a day off scatter far more than this share of their spread
_SUNNY_C = 4.0
_FEWEST_SUNNY_DAYS = 5
_FEWEST_NEIGHBOURS = 10
_MOST_ALIKE = 0.8
_Z_95 = 1.959963984540054
_ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Night:
    """One night read in the garden and at the station, in °C; `clear` is `None` where nothing tells."""

    day: date
    garden_c: float
    station: DayWeather
    clear: bool | None

    @property
    def difference_c(self) -> float:
        """How much warmer (below 0: colder) the garden was."""
        return self.garden_c - (self.station.tmin_c or 0.0)


@dataclass(frozen=True, slots=True)
class FlawedNight:
    """A night set aside, and what its reading looks like."""

    day: date
    garden_c: float
    station_c: float
    flaw: Flaw


@dataclass(frozen=True, slots=True)
class Estimate:
    """An offset in °C, below 0 for a colder garden; the truth lies within ± `half_width_c` in 95 of 100."""

    offset_c: float
    half_width_c: float
    nights: int
    clear: bool  # counted on clear nights alone

    @property
    def is_certain(self) -> bool:
        """Whether garden and station can be told apart at all."""
        return abs(self.offset_c) > self.half_width_c


@dataclass(frozen=True, slots=True)
class Learned:
    """What the paired nights tell; `estimate` is `None` while there are too few.

    `counted` nights of `paired` went into it or wait for more. `shift_days` is how many days later the
    station's night lies than the one the garden's readings are dated on; `sunny_c` by how much more the
    thermometer exceeds the station by day than by night, where that looks like sun on it.
    """

    paired: int
    counted: int
    by_clear_nights: bool
    estimate: Estimate | None = None
    flawed: tuple[FlawedNight, ...] = ()
    shift_days: int = 0
    sunny_c: float | None = None


def learn_offset(
    readings: Iterable[DayWeather],
    station: Mapping[date, DayWeather],
    *,
    normal_span_c: Sequence[float] | None = None,
) -> Learned:
    """The offset between the garden's `readings` and its `station`.

    `normal_span_c` is the station's normal span from minimum to maximum in °C on each of the 365 days of the
    year; without it clear nights cannot be told, and every night counts.
    """
    known = [reading for reading in readings if reading.tmin_c is not None]
    shift = _shift_of(known, station)
    nights = _paired(known, station, shift, normal_span_c)
    sound, flawed = _told_apart(nights, station)
    by_clear = any(night.clear is not None for night in sound)
    counted = [night for night in sound if night.clear] if by_clear else sound
    return Learned(
        paired=len(nights),
        counted=len(counted),
        by_clear_nights=by_clear,
        estimate=_estimate(counted, by_clear) if len(counted) >= FEWEST_NIGHTS else None,
        flawed=tuple(flawed),
        shift_days=shift,
        sunny_c=_sunny(known, station, shift, sound),
    )


def student_t_95(freedom: int) -> float:
    """The value that Student's t exceeds, on either side together, in 5 of 100.

    Cornish and Fisher's expansion; right to 0.01 from four degrees of freedom on.

    >>> round(student_t_95(10), 2), round(student_t_95(30), 2)
    (2.23, 2.04)
    """
    z = _Z_95
    terms: tuple[float, ...] = (
        z,
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,
    )
    return fsum(term / freedom**power for power, term in enumerate(terms))


def _paired(
    readings: Iterable[DayWeather],
    station: Mapping[date, DayWeather],
    shift: int,
    normal_span_c: Sequence[float] | None,
) -> list[Night]:
    nights = []
    by = shift * _ONE_DAY
    for reading in readings:
        there = station.get(reading.day + by)
        if there is not None and there.tmin_c is not None and reading.tmin_c is not None:
            nights.append(Night(reading.day, reading.tmin_c, there, _is_clear(there, normal_span_c)))
    return nights


def _is_clear(station: DayWeather, normal_span_c: Sequence[float] | None) -> bool | None:
    if normal_span_c is None or station.tmin_c is None or station.tmax_c is None:
        return None
    normal = normal_span_c[(day_number(station.day, station.day.year) - 1) % DAYS_IN_YEAR]
    return station.tmax_c - station.tmin_c >= normal


def _shift_of(readings: Sequence[DayWeather], station: Mapping[date, DayWeather]) -> int:
    """By how many days all readings are dated off: 0, unless another day fits far better."""
    spreads = {}
    for shift in (0, 1, -1):
        by = shift * _ONE_DAY
        differences = [
            reading.tmin_c - there.tmin_c
            for reading in readings
            if reading.tmin_c is not None
            and (there := station.get(reading.day + by)) is not None
            and there.tmin_c is not None
        ]
        if len(differences) >= FEWEST_NIGHTS:
            spreads[shift] = _spread(differences)
    if 0 not in spreads:
        return 0
    best = min(spreads, key=lambda shift: spreads[shift])
    return best if spreads[best] < _SHIFTED_SPREAD * spreads[0] else 0


def _spread(values: Sequence[float]) -> float:
    """The standard deviation as the median distance from the median tells it, deaf to outliers."""
    middle = median(values)
    return _MAD_TO_SD * median(abs(value - middle) for value in values)


def _told_apart(
    nights: Sequence[Night], station: Mapping[date, DayWeather]
) -> tuple[list[Night], list[FlawedNight]]:
    """Nights that can be right, and those that cannot."""
    if not nights:
        return [], []
    differences = [night.difference_c for night in nights]
    middle = median(differences)
    limit = max(_FLAWED_SPREADS * _spread(differences), _FLAWED_AT_LEAST_C)
    sound: list[Night] = []
    flawed: list[FlawedNight] = []
    for night in nights:
        if abs(night.difference_c - middle) <= limit:
            sound.append(night)
            continue
        around = [station.get(night.station.day + step * _ONE_DAY) for step in (-1, 1)]
        expected = [day.tmin_c + middle for day in around if day is not None and day.tmin_c is not None]
        there = night.station.tmin_c or 0.0
        flaw = flaw_of(
            night.garden_c,
            expected_c=there + middle,
            near_c=expected,
            by_day_c=night.station.tmax_c,
            within_c=limit / 3,
        )
        flawed.append(FlawedNight(night.day, night.garden_c, there, flaw))
    return sound, flawed


def _sunny(
    readings: Iterable[DayWeather], station: Mapping[date, DayWeather], shift: int, nights: Sequence[Night]
) -> float | None:
    """How much more the garden's maximums exceed the station's than its minimums do, by sun on it."""
    excess = []
    for reading in readings:
        there = station.get(reading.day + shift * _ONE_DAY)
        if reading.tmax_c is not None and there is not None and there.tmax_c is not None:
            excess.append(reading.tmax_c - there.tmax_c)
    if len(excess) < _FEWEST_SUNNY_DAYS or not nights:
        return None
    more = median(excess) - median(night.difference_c for night in nights)
    return more if more >= _SUNNY_C else None


def _estimate(nights: Sequence[Night], by_clear: bool) -> Estimate:
    """The trimmed mean and its interval."""
    ordered = sorted(night.difference_c for night in nights)
    cut = int(TRIMMED_SHARE * len(ordered))
    kept = ordered[cut : len(ordered) - cut]
    low, high = kept[0], kept[-1]
    winsorized = [min(max(value, low), high) for value in ordered]
    middle = fmean(winsorized)
    squares = sum((value - middle) ** 2 for value in winsorized)
    freedom = len(kept) - 1
    error = sqrt(squares / (len(kept) * freedom))
    half = student_t_95(freedom) * error * _widened(nights, low, high)
    return Estimate(round(fmean(kept), 2), round(half, 2), len(nights), by_clear)


def _widened(nights: Sequence[Night], low: float, high: float) -> float:
    """How much wider the interval gets because nights in a row resemble each other more than by chance."""
    by_day = sorted(
        ((night.day, min(max(night.difference_c, low), high)) for night in nights), key=lambda one: one[0]
    )
    middle = fmean(value for _day, value in by_day)
    neighbours = [
        (one - middle, other - middle)
        for (day, one), (next_day, other) in pairwise(by_day)
        if next_day - day == _ONE_DAY
    ]
    variance = fmean((value - middle) ** 2 for _day, value in by_day)
    if len(neighbours) < _FEWEST_NEIGHBOURS or not variance:
        return 1.0
    alike = fmean(one * other for one, other in neighbours) / variance
    if alike <= 1 / sqrt(len(neighbours)):
        return 1.0
    alike = min(alike, _MOST_ALIKE)
    return sqrt((1 + alike) / (1 - alike))
