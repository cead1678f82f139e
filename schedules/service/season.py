"""A plot's season as its page and its paper show it, put together once for both."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from plots.models import Plot
from schedules.entries import planning_year
from schedules.jobs import Job, coming_jobs, jobs_in_week, monday_of
from schedules.queries import planted_years
from schedules.reports.season import SeasonStrip
from schedules.seasons import Hemisphere
from schedules.service.calendar import GardenDates, PlotCalendar, plot_calendar, years_around
from schedules.strips import rows_of_entries, season_strip

WEEKS_AHEAD = 4


@dataclass(frozen=True)
class PlotSeason:
    """A plot's calendar of a year, with its strip where there is something to draw."""

    calendar: PlotCalendar
    dates: GardenDates | None
    strip: SeasonStrip | None


def plot_season(plot: Plot, year: int, today: date) -> PlotSeason:
    """The season of a plot whose garden is at hand."""
    dates = GardenDates.of(plot.garden)
    calendar = plot_calendar(plot, year, dates)
    if dates is None or not calendar.entries:
        return PlotSeason(calendar, dates, None)
    rows = rows_of_entries(calendar.entries)
    return PlotSeason(calendar, dates, season_strip(rows, dates.climate, year=year, today=today))


def usual_year(plot: Plot, today: date) -> int:
    """The year that the plot's plan opens with."""
    return planning_year(today, Hemisphere.of_latitude(plot.garden.latitude), planted_years(plot))


@dataclass(frozen=True)
class WeekOfJobs:
    """The jobs of one week."""

    monday: date
    jobs: list[Job]


def weeks_of_jobs(dates: GardenDates | None, plots: list[Plot], day: date) -> list[WeekOfJobs]:
    """The week of `day` and those after it; none without frost dates."""
    if dates is None:
        return []
    monday = monday_of(day)
    entries = dates.entries(plots, years_around(monday))
    coming = coming_jobs(entries, monday, WEEKS_AHEAD)
    return [WeekOfJobs(monday, jobs_in_week(entries, monday)), *(WeekOfJobs(*week) for week in coming)]
