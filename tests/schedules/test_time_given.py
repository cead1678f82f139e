"""What hours for the garden were for."""

from datetime import date

from schedules.time_given import work_given
from tests.schedules.test_summary import HOURS


def test_hours_are_told_by_workday_then_by_job():
    assert [(one.day, one.workday, one.task, one.people, one.minutes) for one in work_given(HOURS)] == [
        (date(2026, 4, 11), "Spring", "Chips", 2, 130),
        (date(2026, 10, 3), "Autumn", "", 1, 10),
        (None, "", "Wash pots", 1, 10),
    ]
