"""What the calendar, its feeds and the logs read, each in a bounded number of queries."""

from schedules.queries.calendar import (
    feed_at,
    live_feed,
    logged,
    people_of,
    planted_years,
    plantings_of,
    telling_logs,
    with_telling_logs,
)
from schedules.queries.lessons import Lessons, lessons_of
from schedules.queries.nerve import nerve_of_holder
from schedules.queries.pests import guidance_about, guidance_of, sightings_of, treatments_of
from schedules.queries.worked import latest_work

__all__ = [
    "Lessons",
    "feed_at",
    "guidance_about",
    "guidance_of",
    "latest_work",
    "lessons_of",
    "live_feed",
    "logged",
    "nerve_of_holder",
    "people_of",
    "planted_years",
    "plantings_of",
    "sightings_of",
    "telling_logs",
    "treatments_of",
    "with_telling_logs",
]
