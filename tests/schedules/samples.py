"""Two crops, a garden's frost dates and weather, and plantings, for the tests of plans and calendars."""

from __future__ import annotations

from collections.abc import Iterable

from django.db import connection

from crops.models import Crop, Hardiness, Method, Planting
from plots.models import Garden, Plot
from schedules.days import DayWeather
from schedules.models import BasisChoice, GardenClimate, MeanFrost, StationRecord
from tests.factories import CropFactory, PlantingFactory


def set_mean_frost(garden: Garden, last: tuple[int, int] = (5, 10), first: tuple[int, int] = (10, 1)) -> None:
    """Frost dates as one mean pair."""
    MeanFrost.objects.create(
        garden=garden, last_month=last[0], last_day=last[1], first_month=first[0], first_day=first[1]
    )
    GardenClimate.objects.create(garden=garden, basis=BasisChoice.MEAN)


def keep_days(record: StationRecord, days: Iterable[DayWeather]) -> None:
    """A record's days, written past the models: a sixth of the time for thousands of rows."""
    with connection.cursor() as cursor:
        cursor.executemany(
            "INSERT INTO schedules_dailyweather (record_id, day, tmin_c, tmax_c) VALUES (%s, %s, %s, %s)",
            [(record.pk, str(day.day), day.tmin_c, day.tmax_c) for day in days],
        )


def carrot(**changes: object) -> Crop:
    """Hardy, sown where it grows, in spring and again for autumn."""
    facts = {
        "slug": "carrot",
        "name": "Carrot",
        "family": "Apiaceae",
        "hardiness": Hardiness.HARDY,
        "method": Method.DIRECT,
        "seedling_spacing_m": 0.01,
        "spacing_m": 0.05,
        "sow_weeks_early": -3.0,
        "sow_weeks_late": 4.0,
        "maturity_days_low": 60,
        "maturity_days_high": 80,
        "maturity_from": "sow",
        "harvest_days_low": 21,
        "harvest_days_high": 28,
        "fall_crop": True,
        "succession_days": 21,
    }
    return CropFactory(**{**facts, **changes})


def tomato(**changes: object) -> Crop:
    """Tender, raised under cover and transplanted, in spring alone."""
    facts = {
        "slug": "tomato",
        "name": "Tomato",
        "family": "Solanaceae",
        "hardiness": Hardiness.TENDER,
        "method": Method.TRANSPLANT,
        "indoor_weeks_low": 6.0,
        "indoor_weeks_high": 8.0,
        "transplant_weeks_early": 1.0,
        "transplant_weeks_late": 4.0,
        "maturity_days_low": 65,
        "maturity_days_high": 80,
        "maturity_from": "transplant",
        "harvest_days_low": 40,
        "harvest_days_high": 60,
    }
    return CropFactory(**{**facts, **changes})


def planted(plot: Plot, crop: Crop, **changes: object) -> Planting:
    """A planting of 2026 in the way its crop is usually grown."""
    start = "transplant" if crop.method == Method.TRANSPLANT else "sow"
    return PlantingFactory(**{"plot": plot, "crop": crop, "year": 2026, "start": start, **changes})
