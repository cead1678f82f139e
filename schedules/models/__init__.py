"""Where a garden's dates come from, and the addresses at which calendars are read."""

from schedules.models.calendar import CalendarFeed
from schedules.models.climate import (
    BasisChoice,
    DailyWeather,
    FrostTableDate,
    GardenClimate,
    LayoutChoice,
    MeanFrost,
    SideChoice,
    StationRecord,
)

__all__ = [
    "BasisChoice",
    "CalendarFeed",
    "DailyWeather",
    "FrostTableDate",
    "GardenClimate",
    "LayoutChoice",
    "MeanFrost",
    "SideChoice",
    "StationRecord",
]
