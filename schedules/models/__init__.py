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
from schedules.models.lessons import Ripening
from schedules.models.logs import AmountUnit, WorkChoice, WorkLog
from schedules.models.measures import BunchWeight, HoseFlow, WateringCan
from schedules.models.photos import LogPhoto
from schedules.models.printing import Printing, PrintingPart
from schedules.models.readings import GardenReading
from schedules.models.scouting import Guidance, SeverityChoice, Sighting, Treatment
from schedules.models.shifts import DateBefore, DatesMoved
from schedules.models.water import RainReading

__all__ = [
    "AmountUnit",
    "BasisChoice",
    "BunchWeight",
    "CalendarFeed",
    "DailyWeather",
    "DateBefore",
    "DatesMoved",
    "FrostTableDate",
    "GardenClimate",
    "GardenReading",
    "Guidance",
    "HoseFlow",
    "LayoutChoice",
    "LogPhoto",
    "MeanFrost",
    "Printing",
    "PrintingPart",
    "RainReading",
    "Ripening",
    "SeverityChoice",
    "SideChoice",
    "Sighting",
    "StationRecord",
    "Treatment",
    "WateringCan",
    "WorkChoice",
    "WorkLog",
]
