from datetime import date

from django.utils import translation

from schedules.reports.days import short_day


def test_a_day_says_its_year_where_it_differs():
    assert short_day(date(2026, 5, 4)) == "May 4"
    assert short_day(date(2026, 5, 4), 2026) == "May 4"
    assert short_day(date(2027, 5, 4), 2026) == "May 4, 2027"


def test_months_speak_the_readers_language():
    with translation.override("fr"):
        assert short_day(date(2026, 5, 4)) == "Mai 4"
