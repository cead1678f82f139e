"""When do I plant this here? For every crop at once, and for one."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from crops.queries import crops_for, varieties_for
from plots.access import garden_to_see, may_run
from plots.htmx import part_or_page
from plots.models import Garden
from plots.powers import Power
from schedules.entries import BEGINNINGS, SHOWN_IN_TABLES, by_month, planning_year
from schedules.seasons import Hemisphere
from schedules.service import GardenDates, crops_dates, offer
from schedules.strips import row_of_windows, season_strip
from schedules.views.asked import asked_year
from schedules.wording.calendar import way_name
from schedules.wording.climate import climate_source_text


@require_safe
def when(request: HttpRequest, slug: str) -> HttpResponse:
    """All crops, by name or by month."""
    garden = garden_to_see(request.user, slug)
    year = asked_year(request, _usual_year(garden))
    query = request.GET.get("q", "")
    dates = GardenDates.of(garden)
    crops = crops_dates(garden, dates, year, query)
    months = request.GET.get("by") == "month"
    context = {
        "garden": garden,
        "year": year,
        "q": query,
        "dates": dates,
        "may_run": may_run(request.user, garden, Power.SETTINGS),
        "months": by_month([(one, one.windows) for one in crops], year) if months else None,
        "crops": crops,
        "operations": SHOWN_IN_TABLES,
        "key_operations": BEGINNINGS,
        "this_month": garden.today().replace(day=1),
        "source": climate_source_text(garden),
    }
    return part_or_page(request, "schedules/_crops_when.html", "schedules/when.html", context)


@require_safe
def when_crop(request: HttpRequest, slug: str, crop: str) -> HttpResponse:
    """One crop: each way to grow it here, drawn, dated and explained."""
    garden = garden_to_see(request.user, slug)
    today = garden.today()
    year = asked_year(request, _usual_year(garden))
    found = get_object_or_404(crops_for(garden), slug=crop)
    varieties = varieties_for(garden).filter(crop=found)
    asked = request.GET.get("variety", "")
    variety = get_object_or_404(varieties, pk=asked) if asked.isdecimal() else None
    dates = GardenDates.of(garden)
    offered = offer(found, variety, year, dates)
    dated = [way for way in offered.ways if way.beginning is not None]
    rows = tuple(row_of_windows(way_name(way.turn, way.start), way.windows) for way in dated)
    context = {
        "garden": garden,
        "year": year,
        "offer": offered,
        "varieties": varieties,
        "source": climate_source_text(garden),
        "dates": dates,
        "may_run": may_run(request.user, garden, Power.SETTINGS),
        "strip": season_strip(rows, dates.climate, year=year, today=today) if dates and rows else None,
    }
    return render(request, "schedules/when_crop.html", context)


def _usual_year(garden: Garden) -> int:
    return planning_year(garden.today(), Hemisphere.of_latitude(garden.latitude))
