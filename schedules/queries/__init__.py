"""What the calendar, its feeds and the logs read, each in a bounded number of queries."""

from schedules.queries.calendar import feed_at, live_feed, people_of, planted_years, plantings_of

__all__ = ["feed_at", "live_feed", "people_of", "planted_years", "plantings_of"]
