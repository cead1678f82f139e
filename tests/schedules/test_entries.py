"""The rows of a calendar and the ways to grow a crop."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from schedules.entries import (
    Entry,
    Span,
    by_month,
    entries_of,
    planning_year,
    spans_of_turn,
    ways,
    windows_of_way,
)
from schedules.seasons import Hemisphere
from schedules.windows import Edge, Operation, Reason, Start, Turn, Window

CHANGED = datetime(2026, 1, 2, 3, 4, tzinfo=UTC)
TOO_SHORT = (Reason("season-too-short", Edge.NONE, {"needs": 110, "has": 96}),)


def window(
    operation: Operation,
    dates: tuple[date, date, date] | None = None,
    *,
    turn: Turn = Turn.SPRING,
    start: Start = Start.SOW,
    succession: int = 1,
    reasons: tuple[Reason, ...] = (),
) -> Window:
    earliest, best, latest = dates or (None, None, None)
    return Window(
        crop="okra",
        operation=operation,
        turn=turn,
        start=start,
        succession=succession,
        earliest=earliest,
        best=best,
        latest=latest,
        reasons=reasons,
    )


APRIL = (date(2026, 4, 1), date(2026, 4, 10), date(2026, 4, 20))
MAY = (date(2026, 5, 1), date(2026, 5, 10), date(2026, 5, 20))
JULY = (date(2026, 7, 1), date(2026, 7, 1), date(2026, 7, 30))
OKRA = (
    window(Operation.SOW, MAY, succession=2),
    window(Operation.SOW, APRIL),
    window(Operation.HARVEST, JULY),
    window(Operation.TRANSPLANT, MAY, start=Start.TRANSPLANT),
    window(Operation.SOW, turn=Turn.AUTUMN, reasons=TOO_SHORT),
)


def test_ways_are_told_apart_by_turn_and_start_in_a_fixed_order() -> None:
    assert [way.key for way in ways(OKRA)] == ["spring-sow", "spring-transplant", "autumn-sow"]


def test_a_way_shows_its_first_beginning_its_harvest_and_how_often_it_repeats() -> None:
    sown = ways(OKRA)[0]
    assert sown.beginning == OKRA[1]
    assert sown.harvest == OKRA[2]
    assert sown.successions == 2
    assert sown.refusal == ()


def test_a_way_without_dates_says_why() -> None:
    autumn = ways(OKRA)[2]
    assert autumn.beginning is None
    assert autumn.harvest is None
    assert autumn.refusal == TOO_SHORT


def test_the_beginning_speaks_for_a_way_that_only_lacks_another_window() -> None:
    other = (Reason("no-maturity", Edge.NONE),)
    windows = (
        window(Operation.HARVEST, turn=Turn.AUTUMN, reasons=other),
        window(Operation.SOW, turn=Turn.AUTUMN, reasons=TOO_SHORT),
    )
    assert ways(windows)[0].refusal == TOO_SHORT


def test_a_planting_has_only_the_windows_of_its_way_and_number() -> None:
    found = windows_of_way(OKRA, Turn.SPRING, Start.SOW, successions=1)
    assert found == (OKRA[1], OKRA[2])


def test_a_table_of_crops_takes_both_starts_together() -> None:
    both = (*OKRA, window(Operation.HARVEST, MAY, start=Start.TRANSPLANT))
    assert spans_of_turn(both, Turn.SPRING) == (
        None,
        Span(Operation.SOW, Start.SOW, APRIL[0], APRIL[2]),
        Span(Operation.TRANSPLANT, Start.TRANSPLANT, MAY[0], MAY[2]),
        Span(Operation.HARVEST, Start.TRANSPLANT, MAY[0], JULY[2]),
    )
    assert spans_of_turn(both, Turn.AUTUMN) == (None, None, None, None)


def test_a_month_lists_every_window_that_touches_it() -> None:
    months = by_month([("okra", OKRA)], 2026)
    assert [month.first for month in months] == [date(2026, number, 1) for number in range(1, 13)]
    found = {
        month.first.month: [(operation, [name for name, _ in rows]) for operation, rows in month.operations]
        for month in months
        if month.operations
    }
    assert found == {
        4: [(Operation.SOW, ["okra"])],
        5: [(Operation.TRANSPLANT, ["okra"])],
        7: [(Operation.HARVEST, ["okra"])],
    }


def test_a_window_over_new_year_touches_both_years() -> None:
    late = window(Operation.SOW, (date(2026, 12, 20), date(2026, 12, 30), date(2027, 1, 5)))
    assert [month.first.month for month in by_month([("garlic", [late])], 2026) if month.operations] == [12]
    assert [month.first.month for month in by_month([("garlic", [late])], 2027) if month.operations] == [1]


@pytest.mark.parametrize(
    ("today", "hemisphere", "planted", "year"),
    [
        (date(2026, 10, 31), Hemisphere.NORTH, [], 2026),
        (date(2026, 11, 1), Hemisphere.NORTH, [], 2027),
        (date(2026, 11, 1), Hemisphere.NORTH, [2026], 2026),
        (date(2026, 11, 1), Hemisphere.NORTH, [2026, 2027], 2027),
        (date(2026, 11, 1), Hemisphere.SOUTH, [], 2026),
    ],
)
def test_late_in_a_northern_year_the_next_is_planned(
    today: date, hemisphere: Hemisphere, planted: list[int], year: int
) -> None:
    assert planning_year(today, hemisphere, planted) == year


def test_entries_are_the_dated_windows_in_the_order_of_their_dates() -> None:
    rows = entries_of(
        OKRA, planting=4, plot=2, plot_label="7", name="Okra", successions=2, changed_at=CHANGED
    )
    assert [(row.operation, row.succession, row.earliest) for row in rows] == [
        (Operation.SOW, 1, date(2026, 4, 1)),
        (Operation.SOW, 2, date(2026, 5, 1)),
        (Operation.TRANSPLANT, 1, date(2026, 5, 1)),
        (Operation.HARVEST, 1, date(2026, 7, 1)),
    ]
    assert rows[0] == Entry(
        planting=4,
        plot=2,
        plot_label="7",
        name="Okra",
        operation=Operation.SOW,
        succession=1,
        successions=2,
        earliest=date(2026, 4, 1),
        best=date(2026, 4, 10),
        latest=date(2026, 4, 20),
        reasons=(),
        changed_at=CHANGED,
    )
