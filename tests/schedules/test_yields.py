"""What rows, ground and water gave, only of what was told in full."""

from datetime import date

from schedules.figures import Logged
from schedules.work import Work
from schedules.yields import RowPicked, crop_yields, litres_a_gram

PICKED = [
    Logged(date(2026, 7, 3), Work.PICK, plot=1, crop=7, grams=500.0),
    Logged(date(2026, 7, 9), Work.PICK, plot=1, crop=8, pieces=6),
]


def test_yields_by_row_count_only_rows_that_were_weighed():
    rows = [RowPicked(7, 2.0, 600.0), RowPicked(7, 1.0, 300.0)]
    kale, beans = crop_yields(PICKED, rows)
    assert (kale.crop, kale.sums.grams, kale.grams_a_metre) == (7, 500.0, 300.0)
    assert (beans.crop, beans.sums.pieces, beans.grams_a_metre) == (8, 6, None)


def test_water_is_set_against_food_only_where_both_are_told_in_full():
    watered = Logged(date(2026, 6, 1), Work.WATER, plot=1, litres=100.0)
    picked = Logged(date(2026, 7, 1), Work.PICK, plot=1, grams=2000.0)
    assert litres_a_gram([watered, picked]) == 0.05
    # begun to log water after the first picking; a watering without amount; a picking that was counted
    assert litres_a_gram([Logged(date(2026, 7, 2), Work.WATER, plot=1, litres=100.0), picked]) is None
    assert litres_a_gram([watered, picked, Logged(date(2026, 6, 9), Work.WATER, plot=1)]) is None
    assert litres_a_gram([watered, picked, Logged(date(2026, 7, 9), Work.PICK, plot=1, pieces=3)]) is None
