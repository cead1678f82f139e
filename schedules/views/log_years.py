"""The year of logs that an address asks for."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from django.db.models import QuerySet
from django.http import HttpRequest

from plots.models import Garden
from schedules.models import WorkLog
from schedules.queries.diary import latest_day
from schedules.seasons import Hemisphere
from schedules.views.asked import asked_year
from schedules.years import span_of, year_of


class LogYear(NamedTuple):
    """A year with its first and last day; `has_next` while it is not the present one."""

    number: int
    span: tuple[date, date]
    has_next: bool

    def __str__(self) -> str:
        return str(self.number)


def log_year(request: HttpRequest, garden: Garden, rows: QuerySet[WorkLog]) -> LogYear:
    """The year of `?year=`; usually that of the latest of `rows`, and while there is none the present one."""
    side, today = Hemisphere.of_latitude(garden.latitude), garden.today()
    year = asked_year(request, year_of(latest_day(rows) or today, side))
    return LogYear(year, span_of(year, side), year < year_of(today, side))
