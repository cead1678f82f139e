"""Days of the year as people write them."""

import pytest

from plots.months import AmbiguousDayError, NotADayError, month_and_day

ENGLISH = {"may": 5, "march": 3, "mar": 3, "june": 6, "july": 7, "february": 2}
GERMAN = {"mai": 5, "märz": 3}


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("May 10", (5, 10)),
        ("10 May", (5, 10)),
        ("10. Mai", (5, 10)),
        ("3 MÄRZ", (3, 3)),
        ("Febr. 29", (2, 29)),
        ("may10", (5, 10)),
        ("5/26", (5, 26)),
        ("26.5.", (5, 26)),
        ("05-26", (5, 26)),
        ("6/6", (6, 6)),
    ],
)
def test_readable(text, day):
    assert month_and_day(text, [GERMAN, ENGLISH]) == day


@pytest.mark.parametrize("text", ["5/10", "10.5.", "01-02"])
def test_two_numbers_that_may_both_be_the_month_are_not_guessed(text):
    with pytest.raises(AmbiguousDayError):
        month_and_day(text, [ENGLISH])


@pytest.mark.parametrize(
    "text", ["May", "10", "May 10 2024", "ju 3", "Brumaire 3", "June 31", "13/32", "may x"]
)
def test_no_day_of_the_year(text):
    with pytest.raises(NotADayError):
        month_and_day(text, [ENGLISH])
