"""The door between stored data and calculation."""

from schedules.service.calendar import (
    GardenDates,
    PlantingDates,
    PlotCalendar,
    effective_nerve,
    years_around,
)
from schedules.service.climate import chosen_climate, garden_climate
from schedules.service.feed import make_feed, revoke_feed
from schedules.service.offset import accept_offset, learned_offset, set_offset
from schedules.service.plan import CropDates, Offer, crops_dates, offer
from schedules.service.season import PlotSeason, plot_season, usual_year, weeks_ahead
from schedules.service.weather import (
    ImportResult,
    choose_basis,
    import_station,
    importing_station,
    remove_record,
    save_frost_table,
    save_mean_frost,
)

__all__ = [
    "CropDates",
    "GardenDates",
    "ImportResult",
    "Offer",
    "PlantingDates",
    "PlotCalendar",
    "PlotSeason",
    "accept_offset",
    "choose_basis",
    "chosen_climate",
    "crops_dates",
    "effective_nerve",
    "garden_climate",
    "import_station",
    "importing_station",
    "learned_offset",
    "make_feed",
    "offer",
    "plot_season",
    "remove_record",
    "revoke_feed",
    "save_frost_table",
    "save_mean_frost",
    "set_offset",
    "usual_year",
    "weeks_ahead",
    "years_around",
]
