"""How long a shadow is at noon, when it is shortest: by the latitude and the day.

The sun's declination is that of FAO Irrigation and Drainage Paper 56 (equation 24), good to half a degree.
"""

from __future__ import annotations

from datetime import date
from math import degrees, radians, tan

from schedules.water.evaporation import declination

_LOWEST_DEG = 1.0


def noon_height(latitude: float, day: date) -> float:
    """Degrees of the sun above the horizon at its highest.

    >>> round(noon_height(39, date(2024, 6, 21))), round(noon_height(-34, date(2024, 6, 21)))
    (74, 33)
    """
    tilt = degrees(declination(day.timetuple().tm_yday))
    return 90.0 - abs(latitude - tilt)


def noon_shadow(height_m: float, latitude: float, day: date) -> float | None:
    """Metres of shadow behind something so high; `None` where the sun stands at the horizon or below.

    >>> round(noon_shadow(6, 39, date(2024, 12, 21)), 1), noon_shadow(6, 70, date(2024, 12, 21))
    (11.5, None)
    """
    above = noon_height(latitude, day)
    return None if above < _LOWEST_DEG else height_m / tan(radians(above))
