from datetime import date

from schedules.months import month_end, month_start, month_starts


def test_months_count_over_new_year():
    assert month_start(date(2026, 11, 30), 3) == date(2027, 2, 1)
    assert month_start(date(2026, 1, 31), -1) == date(2025, 12, 1)
    assert month_end(date(2024, 2, 10)) == date(2024, 2, 29)
    assert month_starts(date(2026, 11, 5), date(2027, 1, 2)) == [
        date(2026, 11, 1),
        date(2026, 12, 1),
        date(2027, 1, 1),
    ]
