"""Climates made up for tests: thirty seeded years of daily weather about a cosine."""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from datetime import date, timedelta
from functools import cache, partial

from schedules.bases import from_record
from schedules.climate import Climate
from schedules.days import DayWeather
from schedules.seasons import Hemisphere

COLDEST_DAY = {Hemisphere.NORTH: 20, Hemisphere.SOUTH: 202}


@cache
def weather(
    mean_c: float,
    amplitude_c: float,
    *,
    daily_range_c: float = 12.0,
    weather_c: float = 4.0,
    hemisphere: Hemisphere = Hemisphere.NORTH,
) -> tuple[DayWeather, ...]:
    """Days by yearly mean, half the swing between seasons, daily range and day-to-day weather, all in °C."""
    dice = random.Random(1)  # noqa: S311 - weather, not secrets
    days: list[DayWeather] = []
    day, spell = date(1990, 1, 1), 0.0
    while day.year < 2020:
        angle = 2 * math.pi * (day.timetuple().tm_yday - COLDEST_DAY[hemisphere]) / 365
        spell = 0.7 * spell + dice.gauss(0, weather_c * 0.71)
        middle = mean_c - amplitude_c * math.cos(angle) + spell
        days.append(
            DayWeather(day, round(middle - daily_range_c / 2, 1), round(middle + daily_range_c / 2, 1), 0.0)
        )
        day += timedelta(days=1)
    return tuple(days)


@cache
def made_up(
    mean_c: float,
    amplitude_c: float,
    *,
    daily_range_c: float = 12.0,
    weather_c: float = 4.0,
    hemisphere: Hemisphere = Hemisphere.NORTH,
) -> Climate:
    """The climate of such weather."""
    days = weather(
        mean_c,
        amplitude_c,
        daily_range_c=daily_range_c,
        weather_c=weather_c,
        hemisphere=hemisphere,
    )
    return from_record(days, hemisphere)


# Each is made when a test first asks for it.
CLIMATES: dict[str, Callable[[], Climate]] = {
    "high plains": partial(made_up, 10, 13, daily_range_c=16),
    "hot summer": partial(made_up, 13, 14, daily_range_c=13),
    "cool sea coast": partial(made_up, 10, 7, daily_range_c=7, weather_c=3),
    "mild winter": partial(made_up, 18, 8),
    "frost-free": partial(made_up, 22, 6, daily_range_c=10, weather_c=2.5),
    "tropics": partial(made_up, 27, 3, daily_range_c=9, weather_c=1.5),
    "short summer": partial(made_up, 2, 17),
    "polar": partial(made_up, -6, 16),
    "southern uplands": partial(made_up, 9, 9, hemisphere=Hemisphere.SOUTH),
    "southern coast": partial(made_up, 16, 6, daily_range_c=10, weather_c=3, hemisphere=Hemisphere.SOUTH),
}
