"""A plot's season as its page and its paper show it, put together once for both."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, timedelta

from plots.models import Garden, Plot
from schedules.entries import Entry, planning_year
from schedules.jobs import Job, coming_jobs, done_in_week, jobs_in_week, monday_of, next_opening
from schedules.queries import planted_years
from schedules.reports.season import SeasonStrip
from schedules.seasons import Hemisphere
from schedules.service.calendar import GardenDates, PlotCalendar, dated_plantings, years_around
from schedules.strips import rows_of_entries, season_strip

WEEKS_AHEAD = 4


@dataclass(frozen=True)
class WeekOfJobs:
    """The jobs of one week, and what logs tell was done in it."""

    monday: date
    jobs: list[Job]
    done: list[Entry] = field(default_factory=list)


@dataclass(frozen=True)
class WeeksAhead:
    """One week's jobs, the weeks after it that have any, and what opens next where none of them has."""

    this: WeekOfJobs
    coming: list[WeekOfJobs]
    later: Entry | None


@dataclass(frozen=True)
class PlotSeason:
    """A plot's calendar of a year, with its strip where there is something to draw, and the present weeks.

    Without frost dates there is none of these three.
    """

    calendar: PlotCalendar
    dates: GardenDates | None
    strip: SeasonStrip | None
    weeks: WeeksAhead | None


def plot_season(plot: Plot, year: int, today: date) -> PlotSeason:
    """The season of a plot whose garden is at hand."""
    dates = GardenDates.of(plot.garden)
    years = {year - 1, year, *years_around(today)}
    found = dated_plantings(plot.garden, [plot], years, dates)
    calendar = PlotCalendar.of_year(year, found)
    if dates is None:
        return PlotSeason(calendar, None, None, None)
    rows = rows_of_entries(calendar.entries)
    strip = season_strip(rows, dates.climate, year=year, today=today) if rows else None
    weeks = weeks_ahead([row for dated in found for row in dated.entries], today)
    return PlotSeason(calendar, dates, strip, weeks)


def weeks_ahead(entries: list[Entry], day: date) -> WeeksAhead:
    """The week of `day` and those after it."""
    monday = monday_of(day)
    coming = [WeekOfJobs(*week) for week in coming_jobs(entries, monday, WEEKS_AHEAD) if week[1]]
    later = None if coming else next_opening(entries, monday + timedelta(weeks=1))
    this = WeekOfJobs(monday, jobs_in_week(entries, monday), done_in_week(entries, monday))
    return WeeksAhead(this, coming, later)


def usual_year(garden: Garden, plots: Iterable[Plot]) -> int:
    """The year with which a page about the plans of `plots` opens."""
    hemisphere = Hemisphere.of_latitude(garden.latitude)
    return planning_year(garden.today(), hemisphere, planted_years(plots))
