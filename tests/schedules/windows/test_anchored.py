"""Windows moved by what was logged, by known days and by whatever is logged."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.anchors import Logged, happened
from schedules.bases import from_mean
from schedules.entries import windows_of_way
from schedules.seasons import Hemisphere
from schedules.windows import (
    MIDDLING,
    Edge,
    Operation,
    Start,
    Turn,
    Window,
    anchored,
    course_of,
    derive,
    lies_behind,
)
from schedules.wording import anchored_reasons, reason_sentence
from schedules.work import Work
from tests.schedules.records import catalogue
from tests.schedules.windows.climates import CLIMATES

CROPS = catalogue()
MEAN = from_mean(Hemisphere.NORTH, last=(5, 10), first=(10, 1))
CLIMATE = {"mean": lambda: MEAN, "plains": CLIMATES["high plains"], "polar": CLIMATES["polar"]}


@cache
def derived(crop: str, climate: str) -> tuple[Window, ...]:
    return derive(CROPS[crop], CLIMATE[climate](), year=2026, nerve=MIDDLING)


def planned(crop: str, start: Start, turn: Turn, sowings: int, climate: str) -> tuple[Window, ...]:
    return windows_of_way(derived(crop, climate), turn, start, successions=sowings)


def moved(
    crop: str,
    logs: list[Logged],
    *,
    start: Start = Start.SOW,
    turn: Turn = Turn.SPRING,
    sowings: int = 1,
    climate: str = "mean",
) -> tuple[Window, ...]:
    facts = CROPS[crop]
    course = course_of(facts, CLIMATE[climate](), year=2026, nerve=MIDDLING, turn=turn, start=start)
    plan = planned(crop, start, turn, sowings, climate)
    begins = {one.succession: one.latest for one in plan if one.operation is course.main and one.latest}
    days = facts.harvest_days_high or 0
    told = happened(logs, start, sowings=sowings, picking_days=days, begun_by=begins)
    return anchored(plan, course, told, [one.day for one in logs if one.whole_plot])


def logs(**works: str | tuple[str, ...]) -> list[Logged]:
    """`logs(sow="5-4", harvest=("7-1", "7-9"))`."""
    days = [
        (work.replace("_", "-"), date(2026, *map(int, day.split("-"))))
        for work, all_days in works.items()
        for day in ((all_days,) if isinstance(all_days, str) else all_days)
    ]
    return [Logged(number, work, day) for number, (work, day) in enumerate(days, start=1)]


def dates(windows: tuple[Window, ...], number: int = 1) -> dict[str, str]:
    """Earliest, best and latest day of each operation, "done" and its day, or why there is none."""
    return {window.operation.value: _dates(window) for window in windows if window.succession == number}


def _dates(window: Window) -> str:
    if window.best is None:
        return window.reasons[0].code
    days = " ".join(f"{day.month}-{day.day}" for day in (window.earliest, window.best, window.latest))
    return f"done {days}" if window.done else days


def told(window: Window) -> list[str]:
    return [reason_sentence(reason, "us") for reason in window.reasons]


def by_operation(windows: tuple[Window, ...]) -> dict[Operation, Window]:
    return {window.operation: window for window in windows}


def test_without_logs_nothing_moves():
    plan = planned("carrot", Start.SOW, Turn.SPRING, 3, "mean")
    assert moved("carrot", [], sowings=3) == plan


def test_a_logged_sowing_moves_thinning_and_harvest_and_says_so():
    windows = by_operation(moved("carrot", logs(sow="5-20")))
    facts, sown = CROPS["carrot"], date(2026, 5, 20)
    thin, harvest = windows[Operation.THIN], windows[Operation.HARVEST]
    shows = sown + timedelta(days=round(2 * facts.emergence_days_optimum))
    assert windows[Operation.SOW].done.day == sown
    assert (thin.earliest, thin.best, thin.latest) == tuple(
        shows + timedelta(days=count) for count in (10, 10, 20)
    )
    assert harvest.earliest == sown + timedelta(days=facts.maturity_days_low)
    assert told(thin)[0] == "It was sown on May 20; this is counted from that day."
    plan = by_operation(planned("carrot", Start.SOW, Turn.SPRING, 1, "mean"))
    assert harvest.moved_days == (harvest.best - plan[Operation.HARVEST].best).days != 0
    assert told(windows[Operation.SOW]) == [
        "It was sown on May 20, as logged; planned was April 12 to May 30, best on April 28."
    ]


def test_seedlings_that_show_late_move_what_follows_by_as_much():
    sown = by_operation(moved("carrot", logs(sow="5-4")))
    up = by_operation(moved("carrot", logs(sow="5-4", came_up="5-30")))
    late = date(2026, 5, 30) - (sown[Operation.THIN].best - timedelta(days=10))
    assert up[Operation.THIN].best == date(2026, 6, 9)
    assert up[Operation.HARVEST].earliest - sown[Operation.HARVEST].earliest == late
    assert "after they show" in told(up[Operation.THIN])[3]
    unsown = by_operation(moved("carrot", logs(came_up="5-30")))
    assert unsown[Operation.HARVEST].earliest == up[Operation.HARVEST].earliest
    assert told(unsown[Operation.SOW]) == ["It came up on May 30, so that this lies behind it."]


def test_seedlings_are_set_out_when_they_are_ready_and_frost_allows_it():
    def tomato(**works: str) -> dict[str, str]:
        return dates(moved("tomato", logs(**works), start=Start.TRANSPLANT))

    plan = tomato()
    early, late, never = (tomato(start_indoors=day) for day in ("2-20", "4-20", "7-1"))
    assert early["transplant"].split()[0] == plan["transplant"].split()[0]
    weeks = timedelta(weeks=CROPS["tomato"].indoor_weeks_low)
    ready = date(2026, 4, 20) + weeks
    assert late["transplant"].startswith(f"{ready.month}-{ready.day} ")
    assert late["start-indoors"] == "done 4-20 4-20 4-20"
    windows = by_operation(moved("tomato", logs(start_indoors="7-1"), start=Start.TRANSPLANT))
    assert windows[Operation.TRANSPLANT].earliest == date(2026, 7, 1) + weeks
    assert "may not ripen in time" in " ".join(told(windows[Operation.TRANSPLANT]))
    assert "is not ripe before" in " ".join(told(windows[Operation.HARVEST]))
    assert never["harvest"].split()[0] == never["harvest"].split()[2]
    assert tomato(harden_off="5-20")["transplant"].split()[:2] == ["5-27", "5-30"]


def test_bought_seedlings_leave_the_window_sill_behind():
    windows = moved("tomato", logs(transplant="5-20"), start=Start.TRANSPLANT)
    found = dates(windows)
    assert (found["start-indoors"], found["harden-off"]) == ("passed-by", "passed-by")
    assert all(lies_behind(window) for window in windows[:2])
    days = CROPS["tomato"].maturity_days_low
    assert by_operation(windows)[Operation.HARVEST].earliest == date(2026, 5, 20) + timedelta(days=days)


def test_picking_goes_on_for_its_time_from_the_first_and_as_long_as_it_does():
    days = timedelta(days=CROPS["carrot"].harvest_days_high)
    once = by_operation(moved("carrot", logs(sow="5-4", harvest="7-30")))[Operation.HARVEST]
    assert (once.earliest, once.latest) == (date(2026, 7, 30), date(2026, 7, 30) + days)
    assert (once.done, once.last_picked.day) == (None, date(2026, 7, 30))
    long = by_operation(moved("carrot", logs(sow="5-4", harvest=("7-30", "9-20"))))[Operation.HARVEST]
    assert (long.latest, long.last_picked.day) == (date(2026, 9, 20), date(2026, 9, 20))
    thinnings = by_operation(moved("carrot", logs(sow="5-4", harvest="6-1")))[Operation.HARVEST]
    unpicked = by_operation(moved("carrot", logs(sow="5-4")))[Operation.HARVEST]
    assert (thinnings.earliest, thinnings.latest) == (date(2026, 6, 1), unpicked.latest)


def test_clearing_ends_what_is_left_to_do():
    unpicked = dates(moved("carrot", logs(sow="5-4", clear="6-20")))
    assert unpicked == {"sow": "done 5-4 5-4 5-4", "thin": "cleared", "harvest": "cleared"}
    picked = dates(moved("carrot", logs(sow="5-4", harvest=("7-20", "8-2"), clear="8-9")))
    assert picked == {"sow": "done 5-4 5-4 5-4", "thin": "passed-by", "harvest": "done 7-20 7-20 8-2"}


def test_the_next_sowing_counts_from_the_last_one_that_was_logged():
    interval = timedelta(days=CROPS["radish"].succession_days)
    windows = moved("radish", logs(sow="5-1"), sowings=2, climate="mean")
    second = next(one for one in windows if one.succession == 2 and one.operation is Operation.SOW)
    assert second.best == date(2026, 5, 1) + interval
    assert told(second)[0] == "An earlier sowing was logged for May 1; this is counted from that day."
    late = dates(moved("radish", logs(sow="8-20"), sowings=2), number=2)
    assert set(late.values()) == {"too-late-for-another"}
    both = moved("radish", [Logged(1, "sow", date(2026, 5, 1), 2)], sowings=2)
    assert [window for window in both if window.succession == 1] == [
        window for window in planned("radish", Start.SOW, Turn.SPRING, 2, "mean") if window.succession == 1
    ]


def test_garlic_ripens_with_the_days_whenever_it_was_set():
    plan = by_operation(planned("garlic", Start.SOW, Turn.AUTUMN, 1, "mean"))
    late = by_operation(moved("garlic", logs(sow="11-20"), turn=Turn.AUTUMN))
    assert late[Operation.HARVEST] == plan[Operation.HARVEST]
    assert told(late[Operation.SOW])[0].startswith("It was set on November 20, as logged; planned was ")


def test_what_has_no_window_here_may_grow_all_the_same():
    assert dates(moved("tomato", [], start=Start.TRANSPLANT, climate="polar"))["transplant"] != ""
    windows = by_operation(
        moved("tomato", logs(start_indoors="3-1"), start=Start.TRANSPLANT, climate="polar")
    )
    assert windows[Operation.TRANSPLANT].earliest is not None
    assert "from the logs alone" in " ".join(told(windows[Operation.TRANSPLANT]))
    assert windows[Operation.START_INDOORS].reasons[0].values["best"] is None


@st.composite
def histories(draw: st.DrawFn) -> tuple[str, dict[str, object], list[Logged]]:
    """A way of growing one of several unlike crops, and whatever somebody may have logged of it."""
    crop = draw(st.sampled_from(["carrot", "tomato", "kale", "garlic", "potato", "asparagus", "radish"]))
    climate, turn = draw(st.sampled_from(list(CLIMATE))), draw(st.sampled_from(Turn))
    starts = {window.start for window in derived(crop, climate)}
    days = st.dates(date(2025, 11, 1), date(2027, 9, 1))
    one = st.builds(Logged, st.integers(1, 99), st.sampled_from(Work), days, st.none() | st.integers(1, 3))
    way = {
        "start": draw(st.sampled_from(sorted(starts))),
        "turn": turn,
        "sowings": draw(st.integers(1, 3)),
        "climate": climate,
    }
    known = draw(st.lists(one, max_size=12, unique_by=lambda log: log.log))
    return crop, way, [_of_whole_plot(log) if log.log % 2 else log for log in known]


def _of_whole_plot(log: Logged) -> Logged:
    return replace(log, whole_plot=log.work == Work.CLEAR and log.sowing is None)


@settings(max_examples=150, deadline=None)
@given(histories())
def test_whatever_is_logged_operations_stay_in_order_and_every_reason_has_words(history):
    crop, way, known = history
    windows = moved(crop, known, **way)
    assert moved(crop, known[::-1], **way) == windows
    days = {(one.log, one.day) for one in known}
    sowings: dict[int, list[Window]] = {}
    for window in windows:
        edges = {reason.edge for reason in window.reasons}
        if window.best is None:
            assert edges == {Edge.NONE}
        else:
            assert window.earliest <= window.best <= window.latest
            assert edges == ({Edge.DONE} if window.done else {Edge.EARLIEST, Edge.BEST, Edge.LATEST})
            sowings.setdefault(window.succession, []).append(window)
        for done in (window.done, window.last_picked):
            assert done is None or (done.log, done.day) in days
        for sentence in told(window):
            assert sentence[0].isupper()
            assert sentence[-1] == "."
            assert not {"%(", "None"} & set(sentence.split())
    for own in sowings.values():
        own.sort(key=lambda window: list(Operation).index(window.operation))
        chain = [window for window in own if window.operation is not Operation.THIN or window.done]
        for one, after in pairwise(chain):
            assert one.earliest <= after.earliest
            assert one.best <= after.best


def test_what_had_not_begun_when_its_plot_was_cleared_begins_after_that():
    """Its own time is from April 12 to May 30, best on April 28."""

    def cleared(month: int, day: int) -> tuple[Window, ...]:
        return moved("carrot", [Logged(1, "clear", date(2026, month, day), whole_plot=True)], sowings=2)

    plan = planned("carrot", Start.SOW, Turn.SPRING, 2, "mean")
    assert cleared(4, 12) == cleared(4, 28) == plan
    first = by_operation(tuple(window for window in cleared(5, 4) if window.succession == 1))
    assert _dates(first[Operation.SOW]) == "5-4 5-4 5-30"
    why = "The whole plot was cleared on May 4: what had not begun begins after that."
    assert told(first[Operation.SOW]).count(why) == 2
    assert first[Operation.SOW].moved_days == 6
    assert first[Operation.HARVEST].earliest == date(2026, 5, 4) + timedelta(
        days=CROPS["carrot"].maturity_days_low
    )


def test_every_reason_of_a_log_is_tried():
    """The codes that the tests above meet are all that there are."""
    tried = {
        reason.code
        for crop, works, way in [
            ("carrot", {"sow": "5-20"}, {}),
            ("carrot", {"came_up": "5-20"}, {}),
            ("carrot", {"thin": "12-20"}, {}),
            ("carrot", {"sow": "5-4", "harvest": "7-30"}, {}),
            ("carrot", {"clear": "6-20"}, {}),
            ("tomato", {"start_indoors": "7-1"}, {"start": Start.TRANSPLANT}),
            ("tomato", {"start_indoors": "3-1"}, {"start": Start.TRANSPLANT, "climate": "polar"}),
            ("radish", {"sow": "5-1"}, {"sowings": 2}),
            ("radish", {"sow": "8-20"}, {"sowings": 2}),
        ]
        for window in moved(crop, logs(**works), **way)
        for reason in window.reasons
    }
    cleared = moved("carrot", [Logged(1, "clear", date(2026, 5, 4), whole_plot=True)])
    tried |= {reason.code for window in cleared for reason in window.reasons}
    assert tried >= anchored_reasons.SENTENCES.keys()


@pytest.mark.parametrize("day", [date(2028, 2, 29), date(2028, 2, 28)])
def test_a_leap_day_is_kept_as_it_was_logged(day):
    course = course_of(CROPS["carrot"], MEAN, year=2028, nerve=MIDDLING, turn=Turn.SPRING, start=Start.SOW)
    told_then = happened([Logged(1, "sow", day)], Start.SOW, sowings=1)
    sown = next(iter(anchored((), course, told_then)))
    assert (sown.best, sown.done) == (day, replace(sown.done, day=day))
