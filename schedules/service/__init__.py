"""The door between stored data and calculation."""

from schedules.service.calendar import (
    GardenDates,
    PlantingDates,
    PlotCalendar,
    effective_nerve,
    plot_calendar,
    years_around,
)
from schedules.service.climate import chosen_climate, garden_climate
from schedules.service.feed import make_feed, revoke_feed
from schedules.service.plan import CropDates, Offer, crops_dates, offer
from schedules.service.season import PlotSeason, plot_season, usual_year, weeks_of_jobs
from schedules.service.sheet import calendar_sheet

__all__ = [
    "CropDates",
    "GardenDates",
    "Offer",
    "PlantingDates",
    "PlotCalendar",
    "PlotSeason",
    "calendar_sheet",
    "chosen_climate",
    "crops_dates",
    "effective_nerve",
    "garden_climate",
    "make_feed",
    "offer",
    "plot_calendar",
    "plot_season",
    "revoke_feed",
    "usual_year",
    "weeks_of_jobs",
    "years_around",
]
