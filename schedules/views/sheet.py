"""A plot's calendar on paper."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from plots.access import garden_to_see, plot_to_see
from schedules.service import usual_year
from schedules.service.member_plans import holding_of_plots, member_plans
from schedules.views.asked import asked_year


@require_safe
def calendar_pdf(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """The calendar of `?year=` as a PDF for the people who hold the plot."""
    from schedules.reports.member_calendar import member_calendars_pdf  # lazy: reportlab

    garden = garden_to_see(request.user, slug)
    plot = plot_to_see(request.user, garden, pk)
    today = garden.today()
    year = asked_year(request, usual_year(plot, today))
    holdings = holding_of_plots(garden, [plot], today)
    planned = member_plans(garden, holdings, year=year, today=today, paper=garden.paper)
    response = HttpResponse(member_calendars_pdf([one.plan for one in planned]), "application/pdf")
    response["Content-Disposition"] = f'inline; filename="calendar-{plot.pk}-{year}.pdf"'
    return response
