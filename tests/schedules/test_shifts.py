"""What a change moves: rows before and after, their sum, and the mark of what was seen."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

from schedules.entries import Entry
from schedules.shifts import fingerprint, shifts, summed
from schedules.windows import Done, Operation
from schedules.wording.shifts import shift_text

TODAY = date(2026, 4, 20)


def row(month: int, day: int, *, planting: int = 1, plot: str = "A1", **changes: object) -> Entry:
    """A sowing that may begin on the day, is best a week and over three weeks later."""
    days = [date(2026, month, day).toordinal() + step for step in (0, 7, 21)]
    earliest, best, latest = map(date.fromordinal, days)
    told = {
        "planting": planting, "plot": planting, "plot_label": plot, "name": "Bean",
        "operation": Operation.SOW, "succession": 1, "successions": 1, "earliest": earliest, "best": best,
        "latest": latest, "reasons": (), "changed_at": datetime(2026, 1, 1, tzinfo=UTC),
    }  # fmt: skip
    return Entry(**{**told, **changes})


def test_only_rows_that_differ_are_shifts_by_the_edge_that_moves_farthest() -> None:
    before = [row(5, 1), row(5, 1, planting=2, plot="A10"), row(5, 1, planting=3, plot="A2")]
    later = replace(row(5, 4, planting=3, plot="A2"), latest=date(2026, 6, 7))
    found = shifts(before, [row(5, 1), row(4, 21, planting=2, plot="A10"), later], today=TODAY)
    assert [(one.plot_label, one.days) for one in found] == [("A2", 16), ("A10", -10)]
    assert summed(found).moved == 2
    assert summed(found).largest == 16
    assert summed(found).plantings == 2
    best = replace(row(5, 2), best=date(2026, 5, 19))
    told = [shift_text(one).replace("\u00a0", " ") for one in (*found, *shifts(before, [best], today=TODAY))]
    assert told[:3] == ["16 days later", "10 days earlier", "best day 11 days later"]


def test_dates_that_are_lost_or_new_are_told_apart() -> None:
    found = shifts([row(5, 1)], [row(5, 1, planting=2)], today=TODAY)
    sums = summed(found)
    assert (sums.moved, sums.lost, sums.gained, sums.count) == (0, 1, 1, 2)
    assert [one.days for one in found] == [0, 0]


def test_what_is_over_or_done_does_not_move() -> None:
    done = Done(date(2026, 4, 12), 7)
    before = [row(3, 1), row(5, 1, planting=2, done=done)]
    after = [row(3, 8), row(5, 9, planting=2, done=done)]
    assert shifts(before, after, today=TODAY) == ()


def test_what_was_seen_is_known_again_and_nothing_else() -> None:
    found, same, other = (shifts([row(5, 1)], [row(5, day)], today=TODAY) for day in (3, 3, 4))
    assert fingerprint(found) == fingerprint(same)
    assert fingerprint(found) != fingerprint(other)
