from datetime import date, timedelta
from decimal import Decimal

import pytest

from plots.renewal import (
    Advice,
    Advised,
    Candidate,
    FreePlot,
    Reason,
    Standing,
    Terms,
    Why,
    Wish,
    advise,
    propose,
)

BY, LAST = date(2024, 3, 1), date(2024, 3, 15)
TERMS = Terms(answer_by=BY, last_call=LAST)
STRICT = Terms(answer_by=BY, last_call=LAST, needs_hours=True, needs_dues=True)
DAY = timedelta(days=1)


@pytest.mark.parametrize(
    ("today", "advised"),
    [
        (BY, Advised(Advice.WAIT, (Reason(Why.NO_ANSWER_YET, (BY,)),))),
        (BY + DAY, Advised(Advice.REMIND, (Reason(Why.NO_ANSWER_IN_TIME, (BY, LAST)),))),
        (LAST, Advised(Advice.REMIND, (Reason(Why.NO_ANSWER_IN_TIME, (BY, LAST)),))),
        (LAST + DAY, Advised(Advice.FREE, (Reason(Why.NO_ANSWER_AT_ALL, (LAST,)),))),
    ],
)
def test_silence_is_asked_again_before_a_plot_is_proposed_as_free(today, advised):
    assert advise(Standing(hours_left=Decimal(3)), STRICT, today=today) == advised


@pytest.mark.parametrize(
    ("wish", "day", "advice", "whys"),
    [
        (Wish.KEEP, BY, Advice.RENEW, [Why.WANTS_TO_KEEP]),
        (Wish.KEEP, BY + DAY, Advice.RENEW, [Why.WANTS_TO_KEEP, Why.ANSWERED_LATE]),
        (Wish.KEEP, LAST + DAY, Advice.TALK, [Why.ANSWERED_TOO_LATE, Why.WANTS_TO_KEEP]),
        (Wish.MOVE, BY, Advice.RENEW, [Why.WANTS_TO_MOVE]),
        (Wish.LEAVE, LAST + DAY, Advice.FREE, [Why.GIVES_UP]),
    ],
)
def test_an_answer_decides_with_its_day(wish, day, advice, whys):
    advised = advise(Standing(wish, day), TERMS, today=LAST + 5 * DAY)
    assert advised.advice == advice
    assert [reason.why for reason in advised.reasons] == whys


def test_what_stands_against_renewing_is_for_a_person_to_weigh():
    owing = Standing(Wish.KEEP, BY, hours_left=Decimal("2.5"), dues_unpaid=True)
    assert advise(owing, STRICT, today=BY) == Advised(
        Advice.TALK,
        (
            Reason(Why.HOURS_MISSING, (Decimal("2.5"),)),
            Reason(Why.DUES_UNPAID),
            Reason(Why.WANTS_TO_KEEP, (BY,)),
        ),
    )
    assert advise(owing, TERMS, today=BY).advice == Advice.RENEW


A, B, C = FreePlot(1, "A"), FreePlot(2, "B", accessible=True), FreePlot(3, "C")
MOVER = Candidate(9, "Mona", date(2024, 2, 1))
FIRST, SECOND, THIRD = (Candidate(n, name, date(2020, n, 1)) for n, name in enumerate(("Ann", "Bo", "Cy"), 1))
LINES = {1: [FIRST, SECOND, THIRD], 2: [SECOND, FIRST, THIRD], 3: [FIRST, SECOND, THIRD]}


def names(proposals):
    return [
        (proposal.mover or proposal.place).name if proposal.mover or proposal.place else None
        for proposal in proposals
    ]


def test_movers_go_first_where_the_garden_says_so_and_nobody_is_proposed_twice():
    late = Candidate(4, "Lil", date(2024, 2, 9))
    assert names(propose([A, C], movers=[late, MOVER], lines=LINES, movers_first=True)) == ["Mona", "Lil"]
    first = propose([A, B, C], movers=[MOVER], lines=LINES, movers_first=False)
    assert names(first) == ["Ann", "Bo", "Cy"]


def test_an_accessible_bed_is_proposed_before_the_others_by_its_own_line():
    proposals = propose([A, B, C], movers=[], lines=LINES, movers_first=True)
    assert names(proposals) == ["Ann", "Bo", "Cy"]
    assert [proposal.reason for proposal in proposals] == [
        Reason(Why.NEXT_IN_LINE, (1, FIRST.since)),
        Reason(Why.NEXT_IN_LINE, (1, SECOND.since)),
        Reason(Why.NEXT_IN_LINE, (3, THIRD.since)),
    ]


def test_a_plot_that_nobody_waits_for_says_so():
    alone = propose([A, C], movers=[], lines={1: [FIRST]}, movers_first=True)
    assert names(alone) == ["Ann", None]
    assert alone[1].reason == Reason(Why.NOBODY_WAITS)
