"""What a temperature that cannot be right looks like: a wrong unit, a lost sign, sun on the thermometer."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

_NIGHT_AND_DAY = 0.6  # of the way from the night's minimum to the day's maximum
_SUN_ADDS_C = 10.0  # a thermometer in full sun exceeds the air by about as much (common practice, no source)


class Flaw(StrEnum):
    """The likeliest slip behind a reading, likeliest first."""

    UNIT = "unit"  # °C read as °F, or the other way round
    SIGN = "sign"  # a minus lost or added
    BY_DAY = "by-day"  # the sun stood on it, or it was read by day
    POINT = "point"  # the decimal point lost or added
    OTHER_NIGHT = "other-night"  # it fits the night before or after
    FAR_OFF = "far-off"  # nothing explains it


def flaw_of(
    reading_c: float,
    *,
    expected_c: float,
    near_c: Iterable[float] = (),
    by_day_c: float | None = None,
    within_c: float,
) -> Flaw:
    """The slip after whose correction a wrong reading comes within `within_c` of what was expected.

    Everything is °C. `near_c` is what was expected of the nights beside it, `by_day_c` the day's maximum.

    >>> flaw_of(36.0, expected_c=2.0, within_c=1.0).value  # 36 °F
    'unit'
    >>> flaw_of(6.0, expected_c=-5.8, within_c=1.0).value
    'sign'
    """
    fahrenheit = _to_f(reading_c)

    def fits(*values: float) -> bool:
        return any(abs(value - expected_c) <= within_c for value in values)

    if fits(_from_f(reading_c), fahrenheit):
        return Flaw.UNIT
    if fits(-reading_c, _from_f(-fahrenheit)):
        return Flaw.SIGN
    if by_day_c is not None:
        warm = expected_c + _NIGHT_AND_DAY * (by_day_c - expected_c)
        if expected_c < warm <= reading_c <= by_day_c + _SUN_ADDS_C:
            return Flaw.BY_DAY
    if fits(reading_c * 10, reading_c / 10, _from_f(fahrenheit * 10), _from_f(fahrenheit / 10)):
        return Flaw.POINT
    if any(abs(reading_c - value) <= within_c for value in near_c):
        return Flaw.OTHER_NIGHT
    return Flaw.FAR_OFF


def _from_f(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def _to_f(celsius: float) -> float:
    return celsius * 1.8 + 32
