"""Days of the year without a year."""

from datetime import date

import pytest

from plots.month_days import in_year, parse_month_day, within


@pytest.mark.parametrize(
    ("text", "found"),
    [("06-30", (6, 30)), ("02-29", (2, 29)), ("02-30", None), ("6-30", None), ("", None), ("W01-1", None)],
)
def test_a_day_of_the_year_is_read(text, found):
    assert parse_month_day(text) == found


@pytest.mark.parametrize(
    ("text", "year", "day"),
    [
        ("06-30", 2023, date(2023, 6, 30)),
        ("02-29", 2024, date(2024, 2, 29)),
        ("02-29", 2023, date(2023, 2, 28)),
        ("", 2023, None),
    ],
)
def test_it_falls_in_a_year(text, year, day):
    assert in_year(text, year) == day


@pytest.mark.parametrize(
    ("text", "day"), [("12-01", date(2023, 12, 1)), ("03-01", date(2024, 3, 1)), ("10-31", None)]
)
def test_it_comes_once_between_two_days(text, day):
    assert within(text, date(2023, 11, 1), date(2024, 10, 30)) == day
