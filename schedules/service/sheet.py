"""A plot's calendar as printed sheets take it, from the same rows as the page and the feed."""

from __future__ import annotations

from schedules.entries import Entry, is_dated
from schedules.reports.calendar_rows import CalendarRow
from schedules.service.calendar import PlantingDates, PlotCalendar
from schedules.windows import Reason, Window, lies_behind
from schedules.wording import operation_name, tell
from schedules.wording.calendar import row_name, succession_text
from schedules.wording.intervals import hold_sentence


class Sentences:
    """What set the dates of entries, in words of the language that is active; the same reasons told once.

    The plots of a garden share most of their crops, and so the very reasons of their windows.
    """

    def __init__(self, units: str) -> None:
        self._units = units
        self._known: dict[int, tuple[tuple[Reason, ...], tuple[str, ...]]] = {}  # by identity, kept alive

    def why(self, entry: Entry) -> tuple[str, ...]:
        """A sentence for each; first of all what a label forbids."""
        held = (hold_sentence(entry.not_before),) if entry.not_before else ()
        return held + self._decisive(entry.reasons)

    def _decisive(self, reasons: tuple[Reason, ...]) -> tuple[str, ...]:
        key = id(reasons)
        if key not in self._known:
            told = tuple(one.sentence for one in tell(reasons, self._units) if one.decisive)
            self._known[key] = reasons, told
        return self._known[key][1]


def calendar_rows(
    calendar: PlotCalendar, units: str, sentences: Sentences | None = None
) -> tuple[CalendarRow, ...]:
    """The rows of the sheet, planting by planting; first those of the year before, as far as they reach in.

    `sentences` are shared by the plots of one garden.
    """
    sentences = sentences or Sentences(units)
    shown = (*calendar.standing, *calendar.plantings)
    rows = [_row(entry, sentences) for dated in shown for entry in calendar.entries_of(dated)]
    refused = [
        _refused(dated, window, units)
        for dated in calendar.plantings
        for window in dated.windows
        if not is_dated(window) and not lies_behind(window)
    ]
    return tuple(sorted([*rows, *refused], key=lambda row: row.crop))


def _row(entry: Entry, sentences: Sentences) -> CalendarRow:
    return CalendarRow(
        crop=entry.name,
        operation=entry.operation.value,
        operation_name=operation_name(entry.operation),
        detail=succession_text(entry.succession, entry.successions),
        earliest=entry.earliest,
        best=entry.best,
        latest=entry.latest,
        reasons=sentences.why(entry),
        done=entry.done is not None,
    )


def _refused(dated: PlantingDates, window: Window, units: str) -> CalendarRow:
    return CalendarRow(
        crop=row_name(dated.name, dated.way.turn),
        operation=window.operation.value,
        operation_name=operation_name(window.operation),
        reasons=tuple(one.sentence for one in tell(window.reasons, units)),
    )
