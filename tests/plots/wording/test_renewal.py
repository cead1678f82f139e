from datetime import date
from decimal import Decimal

import pytest

from plots.renewal import Advice, Reason, Why
from plots.wording.renewal import advice_text, reason_text

VALUES = {
    Why.HOURS_MISSING: (Decimal("2.5"),),
    Why.NEXT_IN_LINE: (3, date(2024, 5, 2)),
    Why.NO_ANSWER_IN_TIME: (date(2024, 3, 1), date(2024, 3, 15)),
}


@pytest.mark.parametrize("why", Why)
def test_every_rule_has_its_sentence(why):
    text = reason_text(Reason(why, VALUES.get(why, (date(2024, 3, 1),))))
    assert text.endswith(".")
    assert "%(" not in text


def test_values_stand_in_the_sentence():
    assert reason_text(Reason(Why.HOURS_MISSING, (Decimal("2.5"),))) == "Hours of work still owed: 2.5."
    line = "Number 3 of the waiting list, joined on May 2, 2024."
    assert reason_text(Reason(Why.NEXT_IN_LINE, (3, date(2024, 5, 2)))) == line


def test_every_proposal_has_its_words():
    assert len({advice_text(advice) for advice in Advice}) == len(Advice)
