"""Seasons, frost and calendars for the tests of drawings and sheets."""

from datetime import date, timedelta

from schedules.reports.calendar_rows import CalendarRow, CalendarSheet
from schedules.reports.season import FrostCurve, FrostMiddle, FrostPoint, SeasonStrip, StripMark, StripRow

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


def sheet(
    *rows: StripRow,
    paper: str = "letter",
    subtitle: str = "For Nguyễn Thị Ánh",
    no_window: tuple[CalendarRow, ...] = (),
) -> CalendarSheet:
    dated = [
        CalendarRow(
            crop=row.label,
            operation=m.operation,
            operation_name=m.operation.replace("-", " "),
            earliest=m.earliest,
            best=m.best,
            latest=m.latest,
            reasons=REASONS,
        )
        for row in rows
        for m in row.marks
    ]
    return CalendarSheet(
        title="Plot 14 in 2026",
        subtitle=subtitle,
        garden="Alder Row Community Garden",
        record="Dates from the daily record of Mill Bridge, 1989 to 2026.",
        language="en-us",
        printed_on=date(2026, 2, 3),
        paper=paper,
        strip=strip(*rows),
        rows=(*dated, *no_window),
    )
