"""Where a garden's dates come from, the addresses at which calendars are read, and what was done."""

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
from schedules.models.logs import AmountUnit, WorkChoice, WorkLog
from schedules.models.photos import LogPhoto

__all__ = [
    "AmountUnit",
    "BasisChoice",
    "CalendarFeed",
    "DailyWeather",
    "FrostTableDate",
    "GardenClimate",
    "LayoutChoice",
    "LogPhoto",
    "MeanFrost",
    "SideChoice",
    "StationRecord",
    "WorkChoice",
    "WorkLog",
]
