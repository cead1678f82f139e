"""The garden's frost risk: curves, one date that can be moved, tables, and the years behind them."""

from __future__ import annotations

from datetime import MAXYEAR, MINYEAR, timedelta
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.dateparse import parse_date
from django.views.decorators.http import require_safe

from plots.access import garden_to_see, may_run
from plots.models import Garden
from plots.powers import Power
from schedules.bases import RecordClimate
from schedules.climate import Climate
from schedules.models import GardenClimate
from schedules.risk import Asked, ask, asked_in_chart, chance_rows, known_thresholds, year_rows
from schedules.seasons import Side, from_day_number
from schedules.service import chosen_climate, garden_climate
from schedules.soil import SEED_DEPTH_M, SPRING_CHECK
from schedules.stations.summary import from_plain
from schedules.wording import risk as words
from schedules.wording.climate import source_text, threshold_text

_MOVES = (-7, -1, 1, 7)


@require_safe
def frost(request: HttpRequest, slug: str) -> HttpResponse:
    """The whole page, or after a move of the date the part that tells about it."""
    garden = garden_to_see(request.user, slug)
    chosen = chosen_climate(garden)
    climate = garden_climate(garden, chosen)
    context: dict[str, Any] = {
        "garden": garden,
        "climate": climate,
        "may_run": may_run(request.user, garden, Power.SETTINGS),
    }
    if climate is None:
        return render(request, "schedules/frost.html", context)
    context |= _about_date(request, garden, climate)
    if request.htmx:
        return render(request, "schedules/_frost_asked.html", context)
    return render(request, "schedules/frost.html", context | _tables(garden, climate, chosen))


def _about_date(request: HttpRequest, garden: Garden, climate: Climate) -> dict[str, Any]:
    """The asked date and temperature, what is known about them, and the charts that mark them."""
    thresholds = known_thresholds(climate)
    asked = _asked(request, garden, climate, thresholds)
    marker = None if asked is None else asked_in_chart(asked, climate)
    names = [(celsius, threshold_text(celsius, garden.units)) for celsius in thresholds]
    charts = [
        (
            words.side_name(side),
            words.chart_of(climate, side, names, asked=asked, marker=marker),
        )
        for side in Side
    ]
    return {
        "asked": asked,
        "asked_text": asked and words.asked_text(asked, climate.basis, garden.units),
        "thresholds": names,
        "moves": [] if asked is None else [(days, asked.day + timedelta(days)) for days in _MOVES],
        "charts": [(name, chart) for name, chart in charts if chart.curves],
    }


def _asked(
    request: HttpRequest, garden: Garden, climate: Climate, thresholds: tuple[float, ...]
) -> Asked | None:
    """What the form asks; unreadable parts count as not asked.

    Of itself the page asks about today, or, where today is safe or hopeless, about the middle last freeze.
    """
    celsius = thresholds[0] if thresholds else 0.0
    for known in thresholds:
        if request.GET.get("celsius") == str(known):
            celsius = known
    try:
        day = parse_date(request.GET.get("date", ""))
    except ValueError:  # 30 February
        day = None
    if day is not None and MINYEAR < day.year < MAXYEAR:  # a date is moved by a week, and about New Year
        return ask(climate, celsius, day)
    asked = ask(climate, celsius, garden.today())
    curve = climate.risk(Side.LAST, celsius)
    middle = None if curve is None else curve.day(50)
    if asked is None or middle is None or 0 < asked.percent < 100:
        return asked
    return ask(climate, celsius, from_day_number(middle, garden.today().year))


def _tables(garden: Garden, climate: Climate, chosen: GardenClimate | None) -> dict[str, Any]:
    """All that does not depend on the asked date."""
    thresholds = known_thresholds(climate)
    record = climate.record if isinstance(climate, RecordClimate) else None
    return {
        "lede": words.lede_text(climate, garden.units),
        "source": source_text(garden, chosen),
        "sides": [
            (side.value, words.side_name(side), chance_rows(climate, side, thresholds)) for side in Side
        ],
        "lengths": words.length_texts(climate, garden.units),
        "left_out": [] if record is None else words.left_out_texts(record),
        "years": [] if record is None else year_rows(record, thresholds),
        "months": words.month_rows(climate),
        "summary": from_plain(chosen.record.findings) if record is not None and chosen is not None else None,
        "check": SPRING_CHECK,
        "seed_depth": SEED_DEPTH_M,
    }
