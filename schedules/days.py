"""One day of weather, as every reader of a station file gives it and every calculation takes it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class DayWeather:
    """What a station measured on one day: temperatures in °C, precipitation in mm; `None` where missing."""

    day: date
    tmin_c: float | None = None
    tmax_c: float | None = None
    precip_mm: float | None = None
