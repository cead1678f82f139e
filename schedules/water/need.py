"""How much water a planting or a plot is owed, and by when: by the weather, or by the weekly inch.

Depths are millimetres. The weather gives a daily balance of the root zone (`balance.py`). Without recent
weather it is 25 mm (an inch) a week, less the rain and the water of the last seven days: common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from math import floor

from crops.water_needs import WaterNeeds
from schedules.water.balance import Day, next_day

WEEK_MM = 25.0  # an inch; Penn State Extension (June 2013) credits rain against it in the same way
LIGHTEST_MM = 5.0  # less wets leaves and surface; common practice, no source
LOAM_MM_PER_M = 150.0  # FAO-56, Table 19: loam holds 130 to 180 mm in a metre; value from memory
_WEEK = 7
_LOOKED_AT, _KNOWN_OF_THEM = 14, 7  # recent weather: common practice, no source
_DEFAULT_SEASON_DAYS = 100
_LEAST_USE_MM = 0.05


class Basis(StrEnum):
    """Which of the two ways was used."""

    WEATHER = "weather"
    PRACTICE = "practice"


@dataclass(frozen=True, slots=True)
class Weather:
    """One day: what grass would lose (`None`: not known) and the rain that fell (0 where nobody measured)."""

    day: date
    reference: float | None
    rain: float = 0.0


@dataclass(frozen=True, slots=True)
class Grown:
    """A planting in the ground from `began` to `ends`, and the share of the plot that it has."""

    planting: int
    name: str
    needs: WaterNeeds
    began: date
    ends: date | None = None
    share: float = 1.0

    @property
    def season_days(self) -> int:
        """How long it is taken to stand: to its end, or 100 days where that is not known."""
        return max(1, (self.ends - self.began).days + 1) if self.ends else _DEFAULT_SEASON_DAYS


@dataclass(frozen=True, slots=True)
class CropWater:
    """How a planting's root zone stands this morning, rain and water of today included."""

    grown: Grown
    since: date  # the first day that is reckoned; the ground was moist the evening before
    kc: float
    root_m: float
    total: float
    ready: float
    missing: float
    use: float  # a day, over the last week
    stressed_days: int  # of the last seven
    by: date | None  # when what is easily had will be used up; `None` where nothing is used
    owed: float


def is_recent(weather: Iterable[Weather], today: date) -> bool:
    """Whether half of the last fourteen days are known: only then is a balance worth its name."""
    first = today - timedelta(days=_LOOKED_AT)
    known = [one for one in weather if first <= one.day < today and one.reference is not None]
    return len(known) >= _KNOWN_OF_THEM


def filled(weather: Sequence[Weather]) -> list[tuple[Weather, float]]:
    """Each day from the first known one on, with its reference; a gap takes the mean of the week before."""
    found: list[tuple[Weather, float]] = []
    for one in weather:
        before = [reference for _day, reference in found[-_WEEK:]]
        if one.reference is not None:
            found.append((one, one.reference))
        elif before:
            found.append((one, sum(before) / len(before)))
    return found


def rain_by_day(
    record: Mapping[date, float], readings: Iterable[tuple[date, date, float]]
) -> dict[date, float]:
    """Rain of each day: a reading (emptied on, read on, mm) replaces what the record says of its days.

    >>> record = {date(2026, 6, 1): 3.0, date(2026, 6, 2): 4.0, date(2026, 6, 3): 5.0}
    >>> sorted(rain_by_day(record, [(date(2026, 6, 1), date(2026, 6, 3), 12.0)]).values())
    [3.0, 12.0]
    """
    known = list(readings)
    covered = {
        since + timedelta(days=step) for since, day, _mm in known for step in range(1, (day - since).days + 1)
    }
    fallen = {day: mm for day, mm in record.items() if day not in covered}
    return fallen | {day: mm for _since, day, mm in known}


def crop_water(
    grown: Grown,
    weather: Sequence[tuple[Weather, float]],
    poured: Mapping[date, float],
    *,
    today: date,
    until: date,
    mm_per_m: float = LOAM_MM_PER_M,
) -> CropWater | None:
    """The planting's balance up to this morning, and what it is owed up to `until`.

    `weather` is `filled`, `poured` the depth given each day. `None` where nothing can be reckoned yet.
    """
    days = [(one, reference) for one, reference in weather if grown.began <= one.day < today]
    if not days:
        return None
    balance: list[Day] = []
    for one, reference in days:
        age = (one.day - grown.began).days + 1
        balance.append(
            next_day(
                balance[-1].depletion if balance else 0.0,
                reference=reference,
                kc=grown.needs.kc(age, grown.season_days),
                total=grown.needs.roots(age, grown.season_days) * mm_per_m,
                share=grown.needs.share,
                rain=one.rain,
                water=poured.get(one.day, 0.0),
            )
        )
    came_today = poured.get(today, 0.0) + sum(one.rain for one, _reference in weather if one.day == today)
    return _standing(grown, days[0][0].day, balance, came_today, today, until, mm_per_m)


def _standing(
    grown: Grown,
    since: date,
    balance: Sequence[Day],
    came_today: float,
    today: date,
    until: date,
    mm_per_m: float,
) -> CropWater:
    last, week = balance[-1], balance[-_WEEK:]
    age = (today - grown.began).days + 1
    root = grown.needs.roots(age, grown.season_days)
    missing = max(0.0, last.depletion - came_today)
    use = sum(day.need for day in week) / len(week)
    by = _used_up(missing, last.ready, use, today)
    owed = 0.0
    if by is not None and by <= until:
        owed = min(root * mm_per_m, missing + use * (by - today).days)
    return CropWater(
        grown=grown,
        since=since,
        kc=grown.needs.kc(age, grown.season_days),
        root_m=root,
        total=root * mm_per_m,
        ready=last.ready,
        missing=missing,
        use=use,
        stressed_days=sum(day.stress < 1 for day in week),
        by=by,
        owed=owed if owed >= LIGHTEST_MM else 0.0,
    )


def _used_up(missing: float, ready: float, use: float, today: date) -> date | None:
    """The day at whose end more is missing than is easily had."""
    if missing > ready:
        return today
    if use < _LEAST_USE_MM:
        return None
    return today + timedelta(days=floor((ready - missing) / use))


def owed_by_practice(*, rain: float, poured: float, week_mm: float = WEEK_MM) -> float:
    """What is left of the weekly inch after the rain and the water of the last seven days.

    >>> owed_by_practice(rain=0.25 * 25.4, poured=0, week_mm=25.4)
    19.05
    >>> owed_by_practice(rain=20, poured=2)
    0.0
    """
    owed = round(max(0.0, week_mm - rain - poured), 9)
    return owed if owed >= LIGHTEST_MM else 0.0


@dataclass(frozen=True, slots=True)
class WaterJob:
    """That a plot is to be watered in this week: how deep, how many litres, by when; from which basis."""

    plot: int
    plot_label: str
    owed_mm: float
    litres: float | None
    by: date | None
    basis: Basis


def in_season(day_number: int, last_freeze: int, first_freeze: int) -> bool:
    """Whether a day lies between the mean last and the mean first freeze, over New Year too in the south.

    >>> in_season(200, 130, 280), in_season(20, 260, 120), in_season(200, 260, 120)
    (True, True, False)
    """
    return (day_number - last_freeze) % 365 <= (first_freeze - last_freeze) % 365


def over_the_plot(crops: Sequence[CropWater]) -> float:
    """The depth that the whole plot needs, if each planting gets its own on its own ground."""
    ground = sum(one.grown.share for one in crops)
    return sum(one.owed * one.grown.share for one in crops) / ground if ground else 0.0
