"""A plot's calendar as its printed sheet takes it, from the same rows as the page and the feed."""

from __future__ import annotations

from datetime import date

from django.utils.translation import get_language
from django.utils.translation import gettext as _

from plots.models import Plot
from schedules.entries import Entry, is_dated
from schedules.reports.calendar_rows import CalendarRow, CalendarSheet
from schedules.reports.season import SeasonStrip
from schedules.service.calendar import PlantingDates
from schedules.service.season import PlotSeason
from schedules.windows import Window, lies_behind
from schedules.wording import operation_name, tell
from schedules.wording.calendar import row_name, succession_text
from schedules.wording.intervals import hold_sentence


def calendar_sheet(plot: Plot, season: PlotSeason, *, people: str, record: str, today: date) -> CalendarSheet:
    """The sheet of a plot's season; `people` hold the plot, `record` says where the dates come from."""
    year = season.calendar.year
    garden = plot.garden
    return CalendarSheet(
        title=_("Plot %(plot)s in %(year)d") % {"plot": plot.label, "year": year},
        subtitle=people,
        garden=garden.name,
        record=record,
        language=get_language() or "en",
        printed_on=today,
        paper=garden.paper,
        strip=season.strip or SeasonStrip((), date(year, 1, 1), date(year, 12, 31)),
        rows=calendar_rows(season, garden.units),
    )


def calendar_rows(season: PlotSeason, units: str) -> tuple[CalendarRow, ...]:
    """The rows of the sheet, planting by planting; those of the year before only as far as they reach in."""
    rows = [
        _row(entry, units) for dated in season.calendar.shown for entry in season.calendar.entries_of(dated)
    ]
    refused = [
        _refused(dated, window, units)
        for dated in season.calendar.plantings
        for window in dated.windows
        if not is_dated(window) and not lies_behind(window)
    ]
    return tuple(sorted([*rows, *refused], key=lambda row: row.crop))


def _row(entry: Entry, units: str) -> CalendarRow:
    held = [hold_sentence(entry.not_before)] if entry.not_before else []
    return CalendarRow(
        crop=entry.name,
        operation=entry.operation.value,
        operation_name=operation_name(entry.operation),
        detail=succession_text(entry.succession, entry.successions),
        earliest=entry.earliest,
        best=entry.best,
        latest=entry.latest,
        reasons=(*held, *(one.sentence for one in tell(entry.reasons, units) if one.decisive)),
        done=entry.done is not None,
    )


def _refused(dated: PlantingDates, window: Window, units: str) -> CalendarRow:
    return CalendarRow(
        crop=row_name(dated.name, dated.way.turn),
        operation=window.operation.value,
        operation_name=operation_name(window.operation),
        reasons=tuple(one.sentence for one in tell(window.reasons, units)),
    )
