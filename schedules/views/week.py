"""This week: a member's own plots, or the whole garden for those who look after it."""

from __future__ import annotations

from datetime import timedelta

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from plots.access import garden_to_see, may_run, own_plots, visible_plots
from schedules.jobs import by_crop, by_operation, jobs_in_week, matching, monday_of
from schedules.service import GardenDates, weeks_of_jobs, years_around
from schedules.views.asked import asked_day


@require_safe
def week(request: HttpRequest, slug: str) -> HttpResponse:
    """The week of `?day=`; with `?plots=own`, a coordinator sees theirs alone."""
    garden = garden_to_see(request.user, slug)
    own = list(own_plots(request.user, garden))
    plots = list(visible_plots(request.user, garden).filter(retired_on__isnull=True))
    whole = len(plots) > len(own) and request.GET.get("plots") != "own"
    monday = monday_of(asked_day(request, "day", garden.today()))
    dates = GardenDates.of(garden)
    context = {
        "garden": garden,
        "dates": dates,
        "own": own,
        "many": len(own) > 1,
        "plots": plots,
        "may_run": may_run(request.user, garden),
        "monday": monday,
        "sunday": monday + timedelta(days=6),
        "before": monday - timedelta(days=7),
        "after": monday + timedelta(days=7),
        "this_monday": monday_of(garden.today()),
        "q": request.GET.get("q", ""),
    }
    if whole:
        entries = [] if dates is None else dates.entries(plots, years_around(monday))
        jobs = matching(jobs_in_week(entries, monday), context["q"])
        context["by_plot"] = request.GET.get("by") == "plot"
        context["operations"] = by_operation(jobs) if context["by_plot"] else by_crop(jobs)
        template = "schedules/_operations.html" if request.htmx else "schedules/garden_week.html"
        return render(request, template, context)
    context["weeks"] = weeks_of_jobs(dates, own, monday)
    return render(request, "schedules/own_week.html", context)
