"""Soil temperature at seed depth, estimated from air temperature.

Soil follows the air with a delay and stays warmer, because the sun heats it. At 5 cm the estimate is the
air's daily mean lagged (each day the soil takes up a fifth of the difference) plus an offset that swings
over the year from 1.25 °C at the end of November to 2.25 °C at the end of May: the median offsets of 86
stations of the U.S. Climate Reference Network in 2020 (2.0 °C in March to May, 2.2 in June to August, 1.3
in September to November; tests/reference/thermal_checks.json). Other depths follow by the annual wave in
soil (Hillel 1982): deeper is later, by 1.3 days, and swings less, by 2 %, with every 5 cm.

Checked against soil measured under short grass at six of those stations, one value a day, March to May
2020: at 5 cm the error (RMSE) is 1.4 °C at the median station and 1.9 °C at the worst, at 10 cm 1.3 and 1.6
°C, mean bias -0.1 and +0.2 °C. The air's mean alone misses by 3.3 °C, its mean of 7 days by 3.1 and 2.4 °C.
From June to November it is 1.0 to 1.4 °C at the median station, 2.4 °C at the worst. Bare or raised beds
run warmer by day, mulched or shaded ones colder: a soil thermometer beats any estimate.

So a reading replaces the estimate on its day, and what it missed by fades from the days around: by two thirds
every five days, which fits the six stations' springs best. Read once a week, the normals' error on the days
between falls from 2.0 to 1.6 °C at the middle station.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from math import cos, exp, pi, sqrt

from schedules.seasons import DAYS_IN_YEAR, Hemisphere, day_number


@dataclass(frozen=True, slots=True)
class SpringCheck:
    """Errors (RMSE) in °C against measured soil, March to May: at the middle and the worst station, and bias.

    `air_alone_c` is what the air's daily mean misses by at the middle station.
    """

    median_c: float
    worst_c: float
    bias_c: float
    air_alone_c: float


SPRING_CHECK = SpringCheck(median_c=1.4, worst_c=1.9, bias_c=-0.1, air_alone_c=3.3)
"""The check at 5 cm as the page states it; the tests hold its figures."""

SEED_DEPTH_M = 0.05
"""The depth for which a garden's soil normals are given; most seed lies no deeper."""

DIFFUSIVITY_M2_S = 5e-7
"""Thermal diffusivity of a moist loam, the middle of the usual 2e-7 to 8e-7."""

_REFERENCE_DEPTH_M = 0.05
_DELAY_DAYS = 4.0  # the soil takes up a fifth of the difference each day
_OFFSET_MEAN_C = 1.75
_OFFSET_SWING_C = 0.5
_OFFSET_PEAK_DAY = 151  # 31 May; half a year later in the south
_SECONDS_PER_DAY = 86400
_FADING_DAYS = 5.0
READ_NEAR_DAYS = 10
"""How far from a day a reading is still felt; by then what it missed by has faded to a seventh."""


@dataclass(frozen=True, slots=True)
class SoilReading:
    """The soil's temperature in °C as a thermometer at seed depth showed it on a day."""

    day: date
    celsius: float


def damping_depth(diffusivity_m2_s: float, period_days: float) -> float:
    """The depth in metres at which a temperature wave of this period has shrunk to 37 %: sqrt(2 D / w)."""
    return sqrt(diffusivity_m2_s * period_days * _SECONDS_PER_DAY / pi)


def soil_series(
    air_c: Sequence[float], hemisphere: Hemisphere, *, first_day: int = 1, depth_m: float = SEED_DEPTH_M
) -> list[float]:
    """Daily soil temperature in °C under consecutive daily means of the air, from day of the year
    `first_day`.

    The soil starts out at the first day's air; give it a month of air before the days that matter.
    """
    reach = (depth_m - _REFERENCE_DEPTH_M) / damping_depth(DIFFUSIVITY_M2_S, DAYS_IN_YEAR)
    delay = max(_DELAY_DAYS + reach * DAYS_IN_YEAR / (2 * pi), 0.0)
    mean = sum(air_c) / len(air_c) if air_c else 0.0
    lagged = air_c[0] if air_c else 0.0
    soil = []
    for index, air in enumerate(air_c):
        lagged += (air - lagged) / (1 + delay)
        soil.append(mean + (lagged - mean) * exp(-reach) + _offset(first_day + index, hemisphere))
    return soil


def soil_normals(
    air_c: Sequence[float], hemisphere: Hemisphere, *, depth_m: float = SEED_DEPTH_M
) -> tuple[float, ...]:
    """Normal soil temperature in °C of each day of the year, from the 365 normals of daily mean air."""
    three_years = [*air_c, *air_c, *air_c]
    return tuple(soil_series(three_years, hemisphere, depth_m=depth_m)[-DAYS_IN_YEAR:])


def soil_as_read(soil_c: Sequence[float], readings: Iterable[SoilReading], year: int) -> tuple[float, ...]:
    """The soil normals (365 values in °C) as the readings of one calendar year correct them.

    >>> warmer = soil_as_read([10.0] * 365, [SoilReading(date(2024, 1, 10), 13.0)], 2024)
    >>> [round(warmer[index], 1) for index in (8, 9, 14, 40)]
    [12.5, 13.0, 11.1, 10.0]
    """
    missed = [
        (number, reading.celsius - soil_c[number - 1])
        for reading in readings
        if 1 <= (number := day_number(reading.day, year)) <= DAYS_IN_YEAR
    ]
    if not missed:
        return tuple(soil_c)
    return tuple(celsius + _correction(index + 1, missed) for index, celsius in enumerate(soil_c))


def _correction(day: int, missed: Sequence[tuple[int, float]]) -> float:
    """What the nearest readings missed by, weighed by nearness, and less the farther the nearest of them."""
    weights = [exp(-abs(day - number) / _FADING_DAYS) for number, _by in missed]
    whole = sum(weights)
    if not whole:
        return 0.0
    return max(weights) * sum(weight * by for weight, (_day, by) in zip(weights, missed, strict=True)) / whole


def _offset(day: float, hemisphere: Hemisphere) -> float:
    peak = _OFFSET_PEAK_DAY + (0 if hemisphere is Hemisphere.NORTH else DAYS_IN_YEAR / 2)
    return _OFFSET_MEAN_C + _OFFSET_SWING_C * cos(2 * pi * (day - peak) / DAYS_IN_YEAR)
