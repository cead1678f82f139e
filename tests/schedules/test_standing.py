"""From when to when a planting stands in the ground."""

from __future__ import annotations

from datetime import date

from schedules.standing import Standing, standing_on
from schedules.windows import Done, Operation, Start, Turn, Window
from schedules.windows.happened import Happened, Stage

APRIL, MAY, JUNE, JULY = (date(2026, month, 1) for month in (4, 5, 6, 7))


def window(operation: Operation, sowing: int, earliest: date, best: date, latest: date) -> Window:
    return Window("carrot", operation, Turn.SPRING, Start.SOW, sowing, earliest, best, latest, ())


PLAN = [
    window(Operation.SOW, 1, APRIL, date(2026, 4, 10), MAY),
    window(Operation.HARVEST, 1, JUNE, JUNE, date(2026, 6, 20)),
    window(Operation.SOW, 2, MAY, date(2026, 5, 10), JUNE),
    window(Operation.HARVEST, 2, JULY, JULY, date(2026, 7, 20)),
]


def told(**days: date) -> Happened:
    return Happened({Stage[name.upper()]: Done(day, 1) for name, day in days.items()})


def stands(day: date, happened: dict[int, Happened] | None = None, *cleared: date) -> Standing | None:
    return standing_on(day, Start.SOW, happened or {}, PLAN, cleared)


def test_by_the_plan_from_the_best_day_to_the_last_of_picking():
    assert stands(date(2026, 4, 9)) is None
    assert stands(date(2026, 4, 10)) == Standing(date(2026, 4, 10), date(2026, 6, 20))
    assert stands(date(2026, 5, 10)) == Standing(date(2026, 4, 10), date(2026, 7, 20))
    assert stands(date(2026, 6, 21)) == Standing(date(2026, 5, 10), date(2026, 7, 20))
    assert stands(date(2026, 7, 21)) is None


def test_by_what_was_told_of_each_sowing():
    assert stands(APRIL, {1: told(sow=APRIL)}) == Standing(APRIL, date(2026, 6, 20))
    assert stands(MAY, {1: told(sow=APRIL, clear=MAY)}) is None
    assert stands(JUNE, {1: told(sow=APRIL, clear=MAY)}) == Standing(date(2026, 5, 10), date(2026, 7, 20))
    assert standing_on(MAY, Start.TRANSPLANT, {1: told(start_indoors=APRIL)}) is None
    assert standing_on(MAY, Start.TRANSPLANT, {1: told(start_indoors=APRIL, transplant=MAY)}) == Standing(
        MAY, None
    )


def test_what_was_not_there_when_the_plot_was_cleared_counts_from_its_last_day():
    assert stands(date(2026, 4, 20), None, date(2026, 4, 15)) is None
    assert stands(MAY, None, date(2026, 4, 15)) == Standing(MAY, date(2026, 6, 20))
