"""Daily normals: the temperature that each day of the year has on average, smoothed over the year.

The mean of each calendar day over all years is still ragged by chance, so four harmonics (waves of a year,
a half, a third and a quarter of one) are fitted to the 365 means by least squares, each mean weighted by
its number of years. At Champion, Nebraska, anything from two to five predicts years left out equally well
(1.07 to 1.09 °C, mean of one calendar day over 18 years). 29 February counts as 28 February.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from schedules.days import DayWeather
from schedules.seasons import DAYS_IN_YEAR, day_number

HARMONICS = 4
FEWEST_YEARS = 3
"""Years that are enough on average; with three, a monthly mean is uncertain by about 1 °C."""

_LONGEST_GAP_DAYS = 20


@dataclass(frozen=True, slots=True)
class DailyNormals:
    """Normal minimum and maximum of each day of the year in °C: 365 values each, 1 January first."""

    tmin_c: tuple[float, ...]
    tmax_c: tuple[float, ...]
    years: float  # how many years the average day rests on

    @property
    def mean_c(self) -> tuple[float, ...]:
        """Normal daily mean, half of minimum and maximum together, as weather services form it."""
        return tuple((low + high) / 2 for low, high in zip(self.tmin_c, self.tmax_c, strict=True))


def daily_normals(days: Iterable[DayWeather], *, offset_c: float = 0.0) -> DailyNormals | None:
    """The normals of a record, or `None` where it is too short or leaves out part of the year.

    The garden's offset in °C moves the minimums alone: it is learned from nights.
    """
    sums = ([0.0] * DAYS_IN_YEAR, [0.0] * DAYS_IN_YEAR)
    counts = ([0] * DAYS_IN_YEAR, [0] * DAYS_IN_YEAR)
    for day in days:
        index = day_number(day.day, day.day.year) - 1
        for slot, value in enumerate((day.tmin_c, day.tmax_c)):
            if value is not None:
                sums[slot][index] += value
                counts[slot][index] += 1
    if not all(_is_enough(count) for count in counts):
        return None
    tmin, tmax = (smoothed(total, count) for total, count in zip(sums, counts, strict=True))
    return DailyNormals(tuple(value + offset_c for value in tmin), tmax, min(map(sum, counts)) / DAYS_IN_YEAR)


def smoothed(sums: Sequence[float], counts: Sequence[int]) -> tuple[float, ...]:
    """Harmonics fitted to the mean of each day (`sums` over `counts`), weighted by `counts`; 365 values."""
    waves = [_waves(index) for index in range(DAYS_IN_YEAR)]
    size = 2 * HARMONICS + 1
    matrix = [[0.0] * (size + 1) for _ in range(size)]
    for wave, total, count in zip(waves, sums, counts, strict=True):
        for row in range(size):
            weighted = wave[row] * count
            for column in range(row, size):
                matrix[row][column] += weighted * wave[column]
            matrix[row][size] += wave[row] * total
    for row in range(size):
        for column in range(row):
            matrix[row][column] = matrix[column][row]
    weights = _solved(matrix)
    return tuple(sum(weight * part for weight, part in zip(weights, wave, strict=True)) for wave in waves)


def _is_enough(counts: Sequence[int]) -> bool:
    """Three years on average, and no stretch of the year longer than 20 days without a value."""
    if sum(counts) < FEWEST_YEARS * DAYS_IN_YEAR * 0.9:
        return False
    gap = longest = 0
    for count in (*counts, *counts):
        gap = 0 if count else gap + 1
        longest = max(longest, gap)
    return longest <= _LONGEST_GAP_DAYS


def _waves(index: int) -> list[float]:
    angle = 2 * pi * index / DAYS_IN_YEAR
    return [1.0, *(wave(k * angle) for k in range(1, HARMONICS + 1) for wave in (cos, sin))]


def _solved(matrix: list[list[float]]) -> list[float]:
    """The solution of a linear system given with its right side as last column (Gauss, largest pivot)."""
    size = len(matrix)
    for step in range(size):
        pivot = max(range(step, size), key=lambda row: abs(matrix[row][step]))
        matrix[step], matrix[pivot] = matrix[pivot], matrix[step]
        for row in range(size):
            if row != step:
                factor = matrix[row][step] / matrix[step][step]
                for column in range(step, size + 1):
                    matrix[row][column] -= factor * matrix[step][column]
    return [matrix[row][size] / matrix[row][row] for row in range(size)]
