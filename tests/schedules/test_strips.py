"""What the season strip shows: one row for each sowing, and the frost behind it."""

from __future__ import annotations

from datetime import UTC, date, datetime

from schedules.bases import from_mean, from_record
from schedules.entries import Entry
from schedules.reports.season import FrostMiddle, StripMark, StripRow
from schedules.seasons import Hemisphere
from schedules.strips import frost_middles, frost_points, row_of_windows, rows_of_entries, season_strip
from schedules.windows import Operation, Start, Turn, Window
from tests.schedules.records import champion

NORTH = from_mean(Hemisphere.NORTH, last=(5, 10), first=(10, 1))


def entry(operation: Operation, day: date, *, planting: int = 1, succession: int = 1, of: int = 1) -> Entry:
    return Entry(
        planting=planting,
        plot=1,
        plot_label="A1",
        name="Beet",
        operation=operation,
        succession=succession,
        successions=of,
        earliest=day,
        best=day,
        latest=day,
        reasons=(),
        changed_at=datetime(2026, 1, 1, tzinfo=UTC),
    )


def test_each_sowing_of_each_planting_has_a_row_in_the_order_of_beginning() -> None:
    rows = rows_of_entries(
        [
            entry(Operation.SOW, date(2026, 5, 1), succession=2, of=2),
            entry(Operation.HARVEST, date(2026, 7, 1), of=2),
            entry(Operation.SOW, date(2026, 4, 1), of=2),
            entry(Operation.SOW, date(2026, 3, 1), planting=2),
        ]
    )
    assert [(row.label, [mark.operation for mark in row.marks]) for row in rows] == [
        ("Beet", ["sow"]),
        ("1. Beet", ["sow", "harvest"]),
        ("2. Beet", ["sow"]),
    ]


def test_a_way_draws_its_first_sowing_and_leaves_out_what_has_no_dates() -> None:
    day = date(2026, 4, 1)

    def window(operation: Operation, on: date | None, succession: int = 1) -> Window:
        return Window(
            crop="beet",
            operation=operation,
            turn=Turn.SPRING,
            start=Start.SOW,
            succession=succession,
            earliest=on,
            best=on,
            latest=on,
            reasons=(),
        )

    windows = [window(Operation.SOW, day), window(Operation.SOW, day, 2), window(Operation.HARVEST, None)]
    assert row_of_windows("Spring", windows) == StripRow("Spring", (StripMark("sow", day, day, day),))


def test_the_frost_falls_through_spring_and_rises_through_autumn() -> None:
    points = {point.day: point.chance for point in frost_points(NORTH, date(2026, 1, 1), date(2026, 12, 31))}
    spring = [chance for day, chance in points.items() if day.month <= 7]
    autumn = [chance for day, chance in points.items() if day.month >= 8]
    assert spring == sorted(spring, reverse=True)
    assert autumn == sorted(autumn)
    assert (round(spring[0], 2), round(spring[-1], 2), round(autumn[0], 2)) == (1.0, 0.0, 0.0)


def test_a_southern_january_still_counts_to_the_spring_before() -> None:
    south = from_mean(Hemisphere.SOUTH, last=(10, 10), first=(5, 1))
    points = frost_points(south, date(2026, 7, 5), date(2027, 6, 30))
    chances = {point.day: round(point.chance, 2) for point in points}
    assert chances[date(2026, 8, 4)] == 1.0
    assert chances[date(2027, 1, 1)] == 0.0
    assert chances[date(2027, 6, 30)] == 1.0


def test_a_side_without_a_date_leaves_a_gap() -> None:
    spring_only = from_mean(Hemisphere.NORTH, last=(5, 10))
    points = frost_points(spring_only, date(2026, 1, 1), date(2026, 12, 31))
    assert points[-1].day.month == 7


def test_today_is_drawn_only_within_the_strip() -> None:
    rows = rows_of_entries([entry(Operation.SOW, date(2026, 4, 1))])
    assert season_strip(rows, NORTH, year=2026, today=date(2026, 4, 20)).today == date(2026, 4, 20)
    assert season_strip(rows, NORTH, year=2026, today=date(2028, 6, 1)).today is None
    assert season_strip(rows, NORTH, year=2026, today=None).today is None


def test_the_middle_dates_are_those_the_frost_page_names() -> None:
    climate = from_record(champion().days, Hemisphere.NORTH)
    assert frost_middles(climate, date(2026, 2, 1), date(2027, 6, 30)) == (
        FrostMiddle(date(2026, 5, 9), falling=True),
        FrostMiddle(date(2026, 9, 28), falling=False),
        FrostMiddle(date(2027, 5, 9), falling=True),
    )


def test_a_first_freeze_after_new_year_belongs_to_the_strip_of_its_own_month() -> None:
    mild = from_mean(Hemisphere.SOUTH, last=(8, 5), first=(7, 10))
    assert frost_middles(mild, date(2026, 7, 1), date(2026, 8, 31)) == (
        FrostMiddle(date(2026, 7, 10), falling=False),
        FrostMiddle(date(2026, 8, 5), falling=True),
    )
    assert (
        frost_middles(from_mean(Hemisphere.NORTH, last=(5, 10)), date(2026, 6, 1), date(2026, 12, 31)) == ()
    )
