from datetime import date, time

from plots.dates import GardenDay, ahead, in_order

OPENS = GardenDay("opens", "opens", "The garden opens", date(2026, 4, 1))
WATER = GardenDay("water", "water_on", "Water on", date(2026, 4, 1))
WORK = GardenDay("work", "workday", "Paths", date(2026, 4, 1), starts_at=time(9))
FAIR = GardenDay("fair", "other", "Fair", date(2026, 3, 28), last_day=date(2026, 4, 2))
LATE = GardenDay("late", "closes", "Closes", date(2026, 10, 31))


def test_dates_stand_by_day_and_whole_days_first():
    assert in_order([WORK, LATE, WATER, OPENS, FAIR]) == [FAIR, OPENS, WATER, WORK, LATE]


def test_what_is_not_over_lies_ahead():
    assert ahead([LATE, WORK, FAIR], date(2026, 4, 2)) == [FAIR, LATE]
    assert ahead([LATE, WORK, FAIR], date(2026, 3, 20), within=14) == [FAIR, WORK]
