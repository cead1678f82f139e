"""Places, turns and letters in words."""

from collections import Counter
from datetime import UTC, date, datetime

import pytest

from plots.models import AfterDecline
from plots.waiting import Entry, FreePlot, Place, Priority, Reason, Rules, Why, line, next_for
from plots.wording.waiting import after_text, ahead_text, nobody_text, ordinal, place_text, reason_text


@pytest.mark.parametrize(
    ("number", "text"),
    [(1, "1st"), (2, "2nd"), (3, "3rd"), (4, "4th"), (11, "11th"), (12, "12th"), (13, "13th"),
     (21, "21st"), (102, "102nd"), (111, "111th")],
)  # fmt: skip
def test_ordinals(number, text):
    assert ordinal(number) == text


def test_a_place_is_explained_in_one_line():
    entry = Entry(1, *[datetime(2024, 5, 2, tzinfo=UTC)] * 2)
    reasons = (Reason(Why.JOINED, (date(2024, 5, 2),)), Reason(Why.ASKED_ACCESSIBLE))
    assert place_text(Place(3, entry, reasons)) == "3rd: joined May 2, 2024, asked for an accessible bed"


def test_every_reason_has_its_words():
    values = {Why.AT_CAP: (2,), Why.CHOSE: ("half",), Why.CHOSE_OTHERS: ("half",)}
    texts = {why: reason_text(Reason(why, values.get(why, (date(2024, 5, 2),)))) for why in Why}
    assert all(texts.values())
    assert len(set(texts.values())) == len(Why)
    assert texts[Why.AT_CAP] == "the household has 2 plots already"


def test_who_stands_ahead_is_counted_without_a_name():
    ahead = Counter({Why.JOINED: 4, Why.NEAR: 1})
    assert ahead_text(ahead) == ["1 lives near, and neighbours come first", "4 have the earlier date"]


def test_why_nobody_can_have_a_plot():
    joined = datetime(2024, 5, 2, tzinfo=UTC)
    entries = [
        Entry(1, joined, joined, needs_accessible=True),
        Entry(2, joined, joined, needs_accessible=True, traits=frozenset({Priority.NEAR})),
        Entry(3, joined, joined, household_holds=2),
    ]
    rules = Rules()
    proposal = next_for(FreePlot(9), line(entries, rules, now=joined), rules)
    assert nobody_text(proposal) == (
        "Nobody who waits can have it (2: need an accessible bed; 1: household has its plots already)."
    )
    assert nobody_text(next_for(FreePlot(9), (), rules)) == "Nobody is waiting."


def test_each_rule_says_what_it_does():
    assert len({after_text(rule) for rule in AfterDecline.values}) == 3
