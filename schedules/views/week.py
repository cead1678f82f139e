"""This week: a member's own plots, or the whole garden for those who look after it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from plots.access import garden_to_see, may_run, oversees, own_plots, visible_plots
from plots.htmx import part_or_page
from plots.models import Garden, Plot
from plots.powers import Power
from plots.queries import deadlines_of
from schedules.jobs import (
    by_crop,
    by_operation,
    done_in_week,
    jobs_in_week,
    matching,
    matching_entries,
    monday_of,
)
from schedules.queries.logs import last_watered, stand_ins_of
from schedules.service import GardenDates, PlantingDates, weeks_ahead, years_around
from schedules.service.calendar import dated_plantings, entries_in_order
from schedules.service.water import water_jobs
from schedules.views.asked import asked_day

AGAIN_DAYS = 21


@require_safe
def week(request: HttpRequest, slug: str) -> HttpResponse:
    """The week of `?day=`; with `?plots=own`, a coordinator sees theirs alone."""
    garden = garden_to_see(request.user, slug)
    own = list(own_plots(request.user, garden))
    seen = visible_plots(request.user, garden).filter(retired_on__isnull=True)
    plots = list(seen) if oversees(request.user, garden) else own
    context = {
        "garden": garden,
        "dates": GardenDates.of(garden),
        "own": own,
        "plots": plots,
        "may_run": may_run(request.user, garden, Power.SETTINGS),
        **_days(request, garden),
    }
    if len(plots) > len(own) and request.GET.get("plots") != "own":
        return _whole_garden(request, context)
    return _own_plots(request, context)


def _own_plots(request: HttpRequest, context: dict[str, Any]) -> HttpResponse:
    """The jobs of the person's own plots: from windows, from water and from what they were given time for."""
    garden, own, today = context["garden"], context["own"], context["today"]
    now = own and context["monday"] == context["this_monday"]
    known = _dated(context, own)
    shown = {
        **context,
        "many": len(own) > 1,
        "weeks": weeks_ahead(entries_in_order(known), context["monday"]),
        "water": water_jobs(garden, own, dates=context["dates"], today=today, known=known) if now else [],
        "deadlines": deadlines_of(request.user, garden, today) if now else [],
        **_to_log(request, context),
    }
    return render(request, "schedules/own_week.html", shown)


def _to_log(request: HttpRequest, context: dict[str, Any]) -> dict[str, Any]:
    """What one tap logs again, and whose plots the person looks after; of this week alone."""
    garden, since = context["garden"], context["today"] - timedelta(days=AGAIN_DAYS)
    if context["monday"] != context["this_monday"]:
        return {}
    asked = stand_ins_of(request.user, garden)
    near = [*context["own"], *(one.assignment.plot for one in asked)]
    return {
        "ticking": True,
        "looked_after": asked,
        "again": last_watered(request.user, garden, near, since=since) if near else None,
    }


def _whole_garden(request: HttpRequest, context: dict[str, Any]) -> HttpResponse:
    """The jobs of every plot, each crop once; with `?by=plot`, plot by plot."""
    query = request.GET.get("q", "")
    entries, monday = entries_in_order(_dated(context, context["plots"])), context["monday"]
    jobs = matching(jobs_in_week(entries, monday), query)
    by_plot = request.GET.get("by") == "plot"
    shown = {
        **context,
        "q": query,
        "by_plot": by_plot,
        "operations": by_operation(jobs) if by_plot else by_crop(jobs),
        "done": matching_entries(done_in_week(entries, monday), query),
    }
    return part_or_page(request, "schedules/_operations.html", "schedules/garden_week.html", shown)


def _dated(context: dict[str, Any], plots: list[Plot]) -> list[PlantingDates]:
    """The plantings that may have a job in the week."""
    return dated_plantings(context["garden"], plots, years_around(context["monday"]), context["dates"])


def _days(request: HttpRequest, garden: Garden) -> dict[str, date]:
    """The days of the week that is shown, and the Mondays around it."""
    today = garden.today()
    monday = monday_of(asked_day(request, "day", today))
    return {
        "today": today,
        "monday": monday,
        "sunday": monday + timedelta(days=6),
        "before": monday - timedelta(days=7),
        "after": monday + timedelta(days=7),
        "this_monday": monday_of(today),
    }
