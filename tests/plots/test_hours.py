from datetime import date
from functools import partial

import pytest

from plots.hours import HoursError, HoursRule, OwedBy, Reason, State, Tenure, Worked, parse_minutes, standings

SEASON = date(2026, 1, 1), date(2026, 12, 31)
RULE = partial(HoursRule, 480, prorata=True, step=15, first=SEASON[0], last=SEASON[1], due=date(2026, 6, 30))
WHOLE = Tenure(1, 10, (1, 2), *SEASON)
TODAY = date(2026, 5, 1)


def stand(by, tenures, worked=(), excused=None, today=TODAY, **rule):
    found = standings(RULE(by=by, **rule), tenures, worked, excused or {}, today=today)
    return [(one.people, one.owed, one.done, one.left) for one in found]


def worked(person, minutes, day=TODAY):
    return Worked(person, minutes, day)


def test_each_member_owes_once_however_many_plots():
    second = Tenure(2, 11, (1,), *SEASON)
    assert stand(OwedBy.MEMBER, [WHOLE, second], [worked(1, 500), worked(2, 120)]) == [
        ((1,), 480, 500, 0),
        ((2,), 480, 120, 360),
    ]


def test_people_who_share_plots_owe_together_as_a_household():
    chain = [
        WHOLE,
        Tenure(2, 11, (3,), *SEASON),
        Tenure(3, 12, (2, 3), *SEASON),
        Tenure(4, 13, (4,), *SEASON),
    ]
    found = stand(OwedBy.HOUSEHOLD, chain, [worked(1, 60), worked(3, 90)])
    assert [(set(people), *rest) for people, *rest in found] == [
        ({1, 2, 3}, 480, 150, 330),
        ({4}, 480, 0, 480),
    ]
    (family,) = standings(
        RULE(by=OwedBy.HOUSEHOLD), [chain[1], chain[3]], [], {}, today=TODAY, households={3: 7, 4: 7}
    )
    assert set(family.people) == {3, 4}


def test_each_plot_owes_and_work_goes_where_the_least_is_done():
    both = [WHOLE, Tenure(2, 11, (1,), *SEASON)]
    assert stand(OwedBy.PLOT, both, [worked(2, 100), worked(1, 300)]) == [
        ((1, 2), 480, 200, 280),
        ((1,), 480, 200, 280),
    ]
    assert stand(OwedBy.PLOT, both, [worked(2, 100), worked(1, 80)])[1] == ((1,), 480, 80, 400)


@pytest.mark.parametrize("count", [1, 2, 3, 5])
def test_no_minute_is_lost_or_counted_twice_between_plots(count):
    plots = [Tenure(n, n, (1, 100 + n), *SEASON) for n in range(count)]
    done = [worked(1, 997), *(worked(100 + n, 131 * n) for n in range(count))]
    found = stand(OwedBy.PLOT, plots, done)
    assert sum(row[2] for row in found) == sum(one.minutes for one in done)


def test_who_joins_late_owes_a_share_rounded_down():
    late = Tenure(1, 10, (1,), date(2026, 7, 1), date(2026, 12, 31))  # 184 days of 365: 241.97 minutes
    (found,) = standings(RULE(by=OwedBy.PLOT), [late], [], {}, today=TODAY)
    assert found.owed == 240
    assert found.reasons[1] == Reason("share", {"days": 184, "of": 365, "minutes": 240})
    assert stand(OwedBy.PLOT, [late], prorata=False) == [((1,), 480, 0, 480)]


def test_who_left_owes_their_share_or_nothing():
    gone = Tenure(1, 10, (1,), SEASON[0], date(2026, 3, 31))  # 90 days of 365: 118.4 minutes
    assert stand(OwedBy.MEMBER, [gone]) == [((1,), 105, 0, 105)]
    assert stand(OwedBy.MEMBER, [gone], prorata=False) == [((1,), 0, 0, 0)]
    (found,) = standings(RULE(by=OwedBy.MEMBER), [gone], [], {}, today=TODAY)
    assert found.has_left


def test_only_work_and_plots_of_the_season_count():
    before = Tenure(9, 10, (9,), date(2025, 1, 1), date(2025, 12, 31))
    assert stand(OwedBy.MEMBER, [before, WHOLE], [worked(1, 60, date(2025, 12, 31))])[0] == (
        (1,),
        480,
        0,
        480,
    )


def test_who_holds_nothing_owes_nothing_and_is_seen():
    assert stand(OwedBy.MEMBER, [], [worked(7, 60)]) == [((7,), 0, 60, 0)]


def test_excused_hours_come_off_and_never_below_nothing():
    assert stand(OwedBy.MEMBER, [WHOLE], [], {1: None, 2: 120}) == [((1,), 0, 0, 0), ((2,), 360, 0, 360)]
    assert stand(OwedBy.PLOT, [WHOLE], [], {1: 400, 2: 120}) == [((1, 2), 0, 0, 0)]


@pytest.mark.parametrize(
    ("done", "today", "state"),
    [
        (0, date(2026, 6, 30), State.OPEN),
        (479, date(2026, 7, 1), State.OVERDUE),
        (480, date(2026, 7, 1), State.DONE),
    ],
)
def test_hours_are_overdue_from_the_day_after(done, today, state):
    rows = [worked(1, done)] if done else []
    (found,) = standings(RULE(by=OwedBy.MEMBER), [Tenure(1, 1, (1,), *SEASON)], rows, {}, today=today)
    assert found.state(today) == state


def test_a_garden_that_asks_for_none_finds_everybody_free():
    rule = HoursRule(0, OwedBy.MEMBER, True, 15, *SEASON, due=SEASON[1])
    assert {one.state(TODAY) for one in standings(rule, [WHOLE], [], {}, today=TODAY)} == {State.NONE}


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [
        ("2", 120), ("2,5", 150), ("1 1/2", 90), ("0:45", 45), ("2 h 30", 150), ("3 hours", 180), ("3h", 180),
        ("90 min", 90), ("9-12", 180), ("9:15 – 11:45", 150), ("9am-1pm", 240), ("10 to 2", 240),
        ("13:00-15:30", 150), ("24", 1440),
    ],
)  # fmt: skip
def test_a_time_worked_is_read_as_people_write_it(typed, minutes):
    assert parse_minutes(typed) == minutes


@pytest.mark.parametrize(
    "typed", ["", "0", "-2", "two", "25", "2:75", "9-", "9:70-12", "13pm-15", "1e9", "2 3", "26-28"]
)
def test_anything_else_is_refused(typed):
    with pytest.raises(HoursError):
        parse_minutes(typed)
