"""When quiet days ask for a look, and which days do not count."""

from datetime import date, timedelta

import pytest

from schedules.attended import Attended, attended

TODAY = date(2024, 6, 30)


def days_ago(days: int) -> date:
    return TODAY - timedelta(days=days)


def known(last: int | None = None, held: int | None = 200, pauses=(), opens: str = "") -> Attended:
    return attended(
        None if last is None else days_ago(last),
        held_since=None if held is None else days_ago(held),
        pauses=[(days_ago(first), None if end is None else days_ago(end)) for first, end in pauses],
        season_opens=opens,
        limit=21,
        today=TODAY,
    )


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({"last": 20}, Attended(20, 20, False)),
        ({"last": 21}, Attended(21, 21, True)),
        ({"last": 0}, Attended(0, 0, False)),
        ({"last": 40, "held": 5}, Attended(40, 5, False)),  # the work was somebody's before
        ({"held": 30}, Attended(None, 30, True)),  # nothing logged ever
        ({"last": 60, "opens": "06-20"}, Attended(60, 10, False)),  # rounds began ten days ago
        ({"last": 300, "held": 400, "opens": "07-01"}, Attended(300, 300, True)),  # a season over New Year
        ({"last": 30, "pauses": [(29, 20)]}, Attended(30, 20, False)),  # ten days away
        ({"last": 30, "pauses": [(29, 20), (25, 16)]}, Attended(30, 16, False)),  # overlapping, counted once
        ({"last": 40, "pauses": [(5, None)]}, Attended(40, 34, False)),  # still away: nothing is asked
        ({"last": 90, "held": None}, Attended(90, 0, False)),  # nobody's plot
    ],
)
def test_quiet_days_are_those_on_which_work_is_expected(facts, expected):
    assert known(**facts) == expected


def test_a_garden_without_a_limit_never_asks():
    found = attended(None, held_since=days_ago(99), pauses=[], season_opens="", limit=0, today=TODAY)
    assert not found.asks
