"""The period's own freezes among those of other years."""

from __future__ import annotations

from functools import partial

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from schedules.reports.frost_chart import frost_chart
from schedules.reports.season import FrostChart
from schedules.risk import CHART_YEAR, drawn_curves
from schedules.seasons import Side, day_number, from_day_number
from schedules.service.retrospect import Ending
from schedules.wording.climate import threshold_text
from schedules.wording.retrospect import placed_text, read_by_text
from schedules.wording.risk import side_name
from schedules.wording.summary.writer import Writer


def frosts(writer: Writer) -> None:
    """The period's own freezes among those of other years."""
    summary = writer.summary
    own = [
        one
        for one in summary.endings
        if one.freeze is not None
        and one.placed is not None
        and one.freeze.day in summary.period
        and one.settled
    ]
    written = any(value is not None for value in summary.figures.values())
    if not own or summary.climate is None or not (written or summary.sowings):
        return
    one_year = len({one.year for one in own}) == 1
    writer.page.heading(_("This year’s frosts") if one_year else _("Frosts"))
    for one in own:
        if one.celsius == 0.0 and one.freeze is not None and one.placed is not None:
            _frost_chart(writer, one)
            writer.page.text(placed_text(one.placed))
    rows = [
        (
            side_name(one.side),
            threshold_text(one.celsius, writer.units),
            date_format(one.freeze.day, "DATE_FORMAT"),
            read_by_text(one.freeze),
        )
        for one in own
        if one.freeze is not None
    ]
    writer.page.table(
        rows,
        titles=("", _("colder than"), _("day"), _("thermometer")),
        shares=(2, 1, 1.5, 3),
    )


def _frost_chart(writer: Writer, ending: Ending) -> None:
    climate = writer.summary.climate
    if climate is None or ending.freeze is None:
        return
    names = [(ending.celsius, threshold_text(ending.celsius, writer.units))]
    curves = drawn_curves(climate, ending.side, names)
    if not any(curve.points for curve in curves):
        return
    falling = ending.side is Side.LAST
    heading = (
        _("Years in 100 with a freeze on or after the date")
        if falling
        else _("Years in 100 with a freeze on or before the date")
    )
    day = ending.freeze.day
    marker = from_day_number(day_number(day, ending.year), CHART_YEAR)
    chart = FrostChart(heading, curves, falling, marker, date_format(day, "DATE_FORMAT"))
    writer.page.chart(partial(frost_chart, chart), f"{side_name(ending.side)}. {heading}")
