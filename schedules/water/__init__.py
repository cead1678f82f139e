"""Water: what the weather takes, what roots still have, what a plot is owed."""

from schedules.water.need import (
    Basis,
    CropWater,
    Grown,
    WaterJob,
    Weather,
    crop_water,
    filled,
    in_season,
    is_recent,
    over_the_plot,
    owed_by_practice,
    rain_by_day,
)

__all__ = [
    "Basis",
    "CropWater",
    "Grown",
    "WaterJob",
    "Weather",
    "crop_water",
    "filled",
    "in_season",
    "is_recent",
    "over_the_plot",
    "owed_by_practice",
    "rain_by_day",
]
