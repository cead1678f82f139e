"""What logs say was done at each sowing: numbered or not, in order or not, begun again, cleared."""

from __future__ import annotations

from datetime import date

import pytest

from schedules.anchors import Logged, grown_as, happened
from schedules.windows import Start

SOW, TRANSPLANT = Start.SOW, Start.TRANSPLANT


def told(text: str, start: Start = SOW, *, sowings: int = 1, picking_days: int = 28) -> dict[int, str]:
    """What happened by logs such as "sow 4-20, thin#2 6-1", each sowing in the same words.

    "clear#all" is of the whole plot; the second sowing counts as begun after 5-31.
    """
    logs = []
    for number, one in enumerate(text.split(", "), start=1):
        words, day = one.split(" ")
        work, _, sowing = words.partition("#")
        month, of_month = map(int, day.split("-"))
        which = int(sowing) if sowing.isdecimal() else None
        logs.append(Logged(number, work, date(2026, month, of_month), which, whole_plot=sowing == "all"))
    begun_by = {2: date(2026, 5, 31)}
    found = happened(logs, start, sowings=sowings, picking_days=picking_days, begun_by=begun_by)
    return {number: _words(sowing) for number, sowing in found.items()}


def _words(sowing) -> str:
    days = {stage.value: done.day for stage, done in sowing.days.items()}
    if sowing.last_picked:
        days["last"] = sowing.last_picked.day
    return ", ".join(f"{what} {day.month}-{day.day}" for what, day in days.items())


@pytest.mark.parametrize(
    ("logs", "sowings", "expected"),
    [
        ("sow 5-4", 1, {1: "sow 5-4"}),
        ("water 5-5, weed 5-6, note 5-7", 1, {}),
        ("thin 6-1, sow 5-4, came-up 5-20", 1, {1: "sow 5-4, came-up 5-20, thin 6-1"}),
        # Without a number each goes where it is still to be done.
        ("sow 4-20, sow 5-11", 2, {1: "sow 4-20", 2: "sow 5-11"}),
        ("sow 4-20, sow 5-11, thin 5-20, thin 6-10", 2, {1: "sow 4-20, thin 5-20", 2: "sow 5-11, thin 6-10"}),
        ("thin 5-20", 2, {1: "thin 5-20"}),
        ("sow#2 5-11, thin 6-10", 2, {2: "sow 5-11, thin 6-10"}),
        # Begun anew before anything was picked; one more sowing after.
        ("sow 4-20, came-up 5-1, sow 5-10", 1, {1: "sow 5-10"}),
        ("sow 4-20, sow 5-11, sow 6-1", 2, {1: "sow 4-20", 2: "sow 6-1"}),
        ("sow 4-20, harvest 7-1, sow 7-10", 1, {1: "sow 4-20, harvest 7-1, last 7-1", 2: "sow 7-10"}),
        # A step behind a later one moves nothing.
        ("sow 4-20, harvest 7-1, thin 7-2", 1, {1: "sow 4-20, harvest 7-1, last 7-1"}),
        # Picking goes on, then goes to the next sowing.
        ("sow 4-20, harvest 7-1, harvest 7-9", 1, {1: "sow 4-20, harvest 7-1, last 7-9"}),
        (
            "sow 4-20, sow 5-11, harvest 7-1, harvest 7-30",
            2,
            {1: "sow 4-20, harvest 7-1, last 7-1", 2: "sow 5-11, harvest 7-30, last 7-30"},
        ),
        # A frost takes what stood; what it took may be begun anew, what comes later is left alone.
        ("sow 4-20, killed 5-12", 2, {1: "sow 4-20, killed 5-12"}),
        ("killed 5-12", 1, {1: "killed 5-12"}),
        ("sow 4-20, sow 5-11, killed 5-12", 3, {1: "sow 4-20, killed 5-12", 2: "sow 5-11, killed 5-12"}),
        ("sow 4-20, sow 5-11, killed#2 5-12", 2, {1: "sow 4-20", 2: "sow 5-11, killed 5-12"}),
        ("sow 4-20, killed 5-12, sow 5-20", 1, {1: "sow 5-20"}),
        (
            "sow 4-20, harvest 7-1, killed 9-30, harvest 10-1, clear 10-9",
            1,
            {1: "sow 4-20, harvest 7-1, killed 9-30, clear 10-9, last 7-1"},
        ),
        # Clearing ends one sowing or all of them; what was never begun can still be.
        ("sow 4-20, sow 5-11, clear#1 8-1", 2, {1: "sow 4-20, clear 8-1", 2: "sow 5-11"}),
        ("sow 4-20, clear 8-1, harvest 8-2", 2, {1: "sow 4-20, clear 8-1", 2: "clear 8-1"}),
        ("sow 4-20, clear 8-1, sow 8-5", 2, {1: "sow 4-20, clear 8-1", 2: "sow 8-5"}),
        ("sow 4-20, clear 8-1, sow 8-5", 1, {1: "sow 4-20, clear 8-1", 2: "sow 8-5"}),
        # Clearing the whole plot ends what had begun: what is logged, and what was due.
        ("sow 4-20, clear#all 5-31", 2, {1: "sow 4-20, clear 5-31"}),
        ("sow 4-20, clear#all 6-1", 2, {1: "sow 4-20, clear 6-1", 2: "clear 6-1"}),
        ("clear#all 6-1, sow 6-2", 1, {1: "sow 6-2"}),
        ("clear#all 6-1, sow#2 6-9", 2, {2: "sow 6-9"}),
        # What was sown that day was sown in the cleared ground; what was picked that day stood there.
        ("sow 4-20, sow#2 6-1, clear#all 6-1", 2, {1: "sow 4-20, clear 6-1", 2: "sow 6-1"}),
        ("sow 4-20, sow 6-1, clear#all 6-1", 1, {1: "sow 6-1"}),
        ("harvest 6-1, clear#all 6-1", 1, {1: "harvest 6-1, clear 6-1, last 6-1"}),
        # A sowing that was not planned, and a number that cannot be.
        ("sow#3 6-1", 1, {3: "sow 6-1"}),
        ("sow#0 6-1, sow#99 6-2", 2, {1: "sow 6-1", 2: "sow 6-2"}),
        # Set out though it was to be sown: that is its beginning.
        ("transplant 5-4", 1, {1: "sow 5-4"}),
    ],
)
def test_logs_of_what_is_sown(logs, sowings, expected):
    assert told(logs, sowings=sowings) == expected


@pytest.mark.parametrize(
    ("logs", "expected"),
    [
        (
            "start-indoors 3-20, came-up 3-28, harden-off 5-1, transplant 5-10",
            {1: "start-indoors 3-20, came-up 3-28, harden-off 5-1, transplant 5-10"},
        ),
        ("sow 3-20", {1: "start-indoors 3-20"}),
        ("start-indoors 3-20, came-up 3-28, start-indoors 4-4", {1: "start-indoors 4-4"}),
        ("start-indoors 3-20, transplant 5-10, transplant 5-20", {1: "start-indoors 3-20, transplant 5-20"}),
        ("transplant 5-10, harden-off 5-12, start-indoors#1 5-13", {1: "transplant 5-10"}),
        ("transplant 5-10, thin 5-30", {1: "transplant 5-10"}),
        # Seedlings under cover do not stand in the plot that is cleared.
        ("start-indoors 3-20, harden-off 5-1, clear#all 5-2", {1: "start-indoors 3-20, harden-off 5-1"}),
        (
            "start-indoors 3-20, transplant 5-1, clear#all 5-2",
            {1: "start-indoors 3-20, transplant 5-1, clear 5-2"},
        ),
    ],
)
def test_logs_of_what_is_raised_under_cover(logs, expected):
    assert told(logs, TRANSPLANT) == expected


def test_the_order_in_which_logs_come_does_not_matter():
    assert told("clear 9-1, harvest 7-1, sow 4-20, harvest 8-1") == told(
        "sow 4-20, harvest 7-1, harvest 8-1, clear 9-1"
    )


def test_what_was_to_be_sown_may_have_been_raised_under_cover():
    def grown(*works: str, planned: Start = SOW, ways: tuple[Start, ...] = (SOW, TRANSPLANT)) -> Start:
        return grown_as([Logged(1, work, date(2026, 5, 1)) for work in works], planned, ways)

    assert grown("transplant") is grown("start-indoors") is TRANSPLANT
    assert grown() is grown("sow", "transplant") is grown("transplant", ways=(SOW,)) is SOW
    assert grown("sow", planned=TRANSPLANT) is TRANSPLANT
