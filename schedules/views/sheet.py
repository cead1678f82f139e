"""A plot's calendar on paper."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from plots.access import garden_to_see, plot_to_see
from schedules.queries import people_of
from schedules.service import calendar_sheet, plot_season, usual_year
from schedules.views.asked import asked_year
from schedules.wording.climate import climate_source_text


@require_safe
def calendar_pdf(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """The calendar of `?year=` as a PDF for the people who hold the plot."""
    from schedules.reports.member_calendar import member_calendar_pdf  # lazy: reportlab

    garden = garden_to_see(request.user, slug)
    plot = plot_to_see(request.user, garden, pk)
    today = garden.today()
    year = asked_year(request, usual_year(garden, [plot]))
    sheet = calendar_sheet(
        plot,
        plot_season(plot, year, today),
        people=", ".join(people_of(plot)),
        record=climate_source_text(garden),
        today=today,
    )
    response = HttpResponse(member_calendar_pdf(sheet), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="calendar-{plot.pk}-{year}.pdf"'
    return response
