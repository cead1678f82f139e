"""How much water grass in full leaf would lose in a day: reference evapotranspiration, from temperatures.

Equations 21 to 25 and 52 of Allen, Pereira, Raes and Smith (1998), "Crop evapotranspiration", FAO Irrigation
and Drainage Paper 56: radiation above the air from latitude and day, then Hargreaves. With two thermometers
and no more it is good to about a seventh: over whole years it ran 12 % under another reckoning at Champion,
Nebraska, and 14 % over it at Brussels.
"""

from __future__ import annotations

from datetime import date
from math import acos, cos, pi, radians, sin, sqrt, tan

SOLAR_CONSTANT = 0.0820  # MJ per square metre and minute
MM_PER_MJ = 0.408  # mm of water that 1 MJ per square metre turns into vapour
_MINUTES = 24 * 60


def radiation_above(latitude: float, day_of_year: int) -> float:
    """MJ per square metre and day that reach the top of the air (Ra, equation 21); latitude in degrees.

    >>> round(radiation_above(-20, 246), 1)
    32.2
    """
    phi = radians(latitude)
    nearness = 1 + 0.033 * cos(2 * pi * day_of_year / 365)
    tilt = declination(day_of_year)
    sunset = sunset_angle(phi, tilt)
    share = sunset * sin(phi) * sin(tilt) + cos(phi) * cos(tilt) * sin(sunset)
    return max(0.0, _MINUTES / pi * SOLAR_CONSTANT * nearness * share)


def declination(day_of_year: int) -> float:
    """The sun's declination in radians (equation 24)."""
    return 0.409 * sin(2 * pi * day_of_year / 365 - 1.39)


def sunset_angle(latitude_rad: float, tilt: float) -> float:
    """The hour angle of sunset in radians (equation 25); within the polar circles 0 or pi."""
    return acos(min(1.0, max(-1.0, -tan(latitude_rad) * tan(tilt))))


def reference_mm(tmin_c: float, tmax_c: float, *, latitude: float, day: date) -> float:
    """Millimetres a day (equation 52), never below 0; a minimum above the maximum counts as no range.

    >>> round(reference_mm(14.8, 26.6, latitude=45.72, day=date(2026, 7, 15)), 1)
    5.0
    """
    spread = sqrt(max(0.0, tmax_c - tmin_c))
    above = radiation_above(latitude, day.timetuple().tm_yday) * MM_PER_MJ
    return max(0.0, 0.0023 * ((tmin_c + tmax_c) / 2 + 17.8) * spread * above)
