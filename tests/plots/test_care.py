"""Care by its rules: every case is a story told in steps, and what is next."""

from datetime import date, timedelta

import pytest

from plots.care import Kind, Proposal, Reason, Rules, Step, next_round, propose, rubric_lines

RULES = Rules(contact_tries=3, cure_days=14, recheck_days=7, notices_before_decision=2, appeal_days=14)
MAY_1 = date(2024, 5, 1)


def day(number: int) -> date:
    return MAY_1 + timedelta(days=number)


def tried(number: int, *, reached: bool = False) -> Step:
    return Step("contact", day(number), done=reached)


def noticed(number: int) -> Step:
    return Step("notice", day(number), due_on=day(number + 14))


def looked(number: int, *, fine: bool) -> Step:
    return Step("recheck", day(number), done=fine)


TRIES = [tried(0), tried(1), tried(2)]
TWICE = [*TRIES, noticed(3), looked(18, fine=False), noticed(19), looked(34, fine=False)]
DECIDED = [*TWICE, Step("decision", day(35), due_on=day(49))]


@pytest.mark.parametrize(
    ("steps", "on", "expected"),
    [
        ([], 0, Proposal(Kind.CONTACT, Reason.TRY, None, 0, 3)),
        (TRIES[:2], 2, Proposal(Kind.CONTACT, Reason.TRY, None, 2, 3)),
        (TRIES, 3, Proposal(Kind.NOTICE, Reason.TRIED, None, 3, 3)),
        ([tried(0, reached=True)], 1, Proposal(Kind.RECHECK, Reason.TIME_RUNS, day(8))),
        ([tried(0, reached=True)], 9, Proposal(Kind.RECHECK, Reason.TIME_IS_UP, day(8))),
        ([*TRIES, noticed(3)], 17, Proposal(Kind.RECHECK, Reason.TIME_RUNS, day(18))),
        ([*TRIES, noticed(3)], 18, Proposal(Kind.RECHECK, Reason.TIME_IS_UP, day(18))),
        (
            [*TRIES, noticed(3), Step("deadline", day(4), due_on=day(30))],
            18,
            Proposal(Kind.RECHECK, Reason.TIME_RUNS, day(31)),
        ),
        ([*TRIES, noticed(3), looked(18, fine=True)], 18, Proposal(Kind.OUTCOME, Reason.IN_ORDER)),
        (TWICE[:5], 18, Proposal(Kind.NOTICE, Reason.STILL, None, 1, 2)),
        (TWICE, 34, Proposal(Kind.DECISION, Reason.ENOUGH_NOTICES, None, 2, 2)),
        (DECIDED, 36, Proposal(Kind.OUTCOME, Reason.MAY_APPEAL, day(50))),
        (DECIDED, 50, Proposal(Kind.OUTCOME, Reason.NO_APPEAL)),
        ([*DECIDED, Step("appeal", day(40))], 41, Proposal(Kind.OUTCOME, Reason.APPEALED)),
        ([*DECIDED, Step("outcome", day(60))], 61, Proposal(None, Reason.CLOSED)),
    ],
)
def test_what_is_next(steps, on, expected):
    assert propose(steps, RULES, today=day(on)) == expected


def test_a_pause_stops_every_clock():
    told = propose([*TRIES, noticed(3)], RULES, today=day(18), paused=True, paused_until=day(30))
    assert told == Proposal(None, Reason.PAUSED, day(30))
    assert not told.is_ripe(day(18))


def test_a_step_is_ripe_from_its_day():
    waiting = Proposal(Kind.RECHECK, Reason.TIME_RUNS, day(8))
    assert [waiting.is_ripe(day(7)), waiting.is_ripe(day(8))] == [False, True]


@pytest.mark.parametrize(
    ("last", "today", "first", "until", "expected"),
    [
        (None, date(2024, 3, 1), "", "", date(2024, 3, 1)),
        (None, date(2024, 3, 1), "05-01", "10-31", date(2024, 5, 1)),
        (date(2024, 5, 1), date(2024, 6, 30), "05-01", "10-31", date(2024, 5, 15)),
        (date(2024, 10, 25), date(2024, 12, 1), "05-01", "10-31", date(2025, 5, 1)),
        (date(2023, 12, 28), date(2024, 1, 2), "10-01", "03-31", date(2024, 1, 11)),
        (date(2022, 10, 25), date(2024, 6, 1), "05-01", "10-31", date(2024, 5, 1)),
    ],
)
def test_when_a_round_is_due(last, today, first, until, expected):
    assert next_round(last, every_days=14, first=first, until=until, today=today) == expected


def test_the_rubric_leaves_empty_lines_out():
    assert rubric_lines(" good\n\nbad \n") == ["good", "bad"]
