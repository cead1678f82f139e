"""Seasons, frost and calendars for the tests of drawings and sheets."""

from dataclasses import replace
from datetime import date, timedelta

from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.member_plan import DayLine, MemberPlan, PlotPlan
from schedules.reports.season import (
    FrostCurve,
    FrostMiddle,
    FrostPoint,
    SeasonStrip,
    StripMark,
    StripRow,
    strip_span,
)

OPERATIONS = ("start-indoors", "harden-off", "sow", "transplant", "thin", "harvest")


def mark(operation: str, *days: tuple[int, int, int]) -> StripMark:
    return StripMark(operation, *(date(*day) for day in days))


TOMATO = StripRow(
    "Tomato",
    (
        mark("start-indoors", (2026, 3, 8), (2026, 3, 15), (2026, 3, 29)),
        mark("transplant", (2026, 5, 1), (2026, 5, 10), (2026, 5, 28)),
        mark("harvest", (2026, 7, 20), (2026, 8, 1), (2026, 10, 2)),
    ),
)
GARLIC = StripRow(
    "Garlic",
    (
        mark("sow", (2026, 10, 1), (2026, 10, 15), (2026, 11, 5)),
        mark("harvest", (2027, 6, 20), (2027, 7, 4), (2027, 7, 20)),
    ),
)


def falling_frost() -> tuple[FrostPoint, ...]:
    """From every year on 1 April to none on 30 June, even by day: one half on 16 May."""
    days = [date(2026, 4, 1) + timedelta(days=n) for n in range(91)]
    return tuple(FrostPoint(day, 1 - n / 90) for n, day in enumerate(days))


def curve(name: str, *, later: int = 0, years: int = 9, seasons: int = 9) -> FrostCurve:
    """A falling curve around mid May, moved by `later` days, with a dot on every third day."""
    points = tuple(FrostPoint(p.day + timedelta(days=later), p.chance) for p in falling_frost())
    dots = tuple(date(2026, 5, 1) + timedelta(days=later + 3 * n) for n in range(years))
    return FrostCurve(name, points, dots, seasons)


def strip(*rows: StripRow, first: date = date(2026, 1, 1), last: date = date(2026, 12, 31)) -> SeasonStrip:
    middle = FrostMiddle(date(2026, 5, 16), falling=True)
    return SeasonStrip(rows, first, last, falling_frost(), date(2026, 4, 22), (middle,))


REASONS = (
    "After 10 May a freeze of 32 °F or lower comes in 3 years of 10.",
    "The soil two inches down reaches 60 °F about 6 May.",
)


def row(crop: str, one: StripMark, **changes) -> CalendarRow:
    return CalendarRow(
        crop=crop,
        operation=one.operation,
        operation_name=one.operation.replace("-", " "),
        earliest=one.earliest,
        best=one.best,
        latest=one.latest,
        reasons=REASONS,
        done=one.done,
        **changes,
    )


def plot_plan(*rows: StripRow, label: str = "14", no_window: tuple[CalendarRow, ...] = ()) -> PlotPlan:
    dated = [row(one.label, m) for one in rows for m in one.marks]
    return PlotPlan(label, (*dated, *no_window), rows, rows)


def plan(
    *rows: StripRow,
    plots: tuple[PlotPlan, ...] = (),
    no_window: tuple[CalendarRow, ...] = (),
    **changes,
) -> MemberPlan:
    """A plan of one plot with these `rows`, or of `plots`."""
    plots = plots or (plot_plan(*rows, no_window=no_window),)
    known = [one for plot in plots for one in plot.sowings]
    first, last = strip_span(known, 2026)
    values = {
        "title": "Plot 14 in 2026",
        "people": "Nguyễn Thị Ánh",
        "garden": "Alder Row Community Garden",
        "record": "Dates from the daily record of Mill Bridge, 1989 to 2026.",
        "year": 2026,
        "plots": plots,
        "strip": replace(strip(*known, first=first, last=last), today=None),
        "days": (
            DayLine(date(2026, 4, 11), "Sat Apr 11, 9 a.m.–noon", "Workday: Spring opening"),
            DayLine(date(2026, 4, 15), "Wed Apr 15", "Water is turned on"),
            DayLine(date(2026, 10, 20), "Tue Oct 20", "Water is turned off"),
        ),
        "language": "en-us",
        "paper": "letter",
        "printed_on": date(2026, 2, 3),
    }
    return MemberPlan(**{**values, **changes})
