"""Amounts as people have them; expected values worked out by hand from the definitions of the units."""

import pytest

from schedules.amounts import Amount, AmountError, Measured, worked_out

MEASURED = Measured(can_litres=10, flow_l_min=15.0, bunch_grams=50.0, area_m2=20.0)


def test_water_comes_to_litres_and_harvest_to_grams():
    assert {
        unit: worked_out(2, unit, MEASURED)
        for unit in ("min", "cans", "L", "gal", "mm", "in", "kg", "g", "lb", "oz", "pcs", "bunches")
    } == {
        "min": Amount(litres=30.0),
        "cans": Amount(litres=20.0),
        "L": Amount(litres=2.0),
        "gal": Amount(litres=7.570823568),
        "mm": Amount(litres=40.0),
        "in": Amount(litres=1016.0),
        "kg": Amount(grams=2000.0),
        "g": Amount(grams=2.0),
        "lb": Amount(grams=907.18474),
        "oz": Amount(grams=56.69904625),
        "pcs": Amount(pieces=2),
        "bunches": Amount(grams=100.0),
    }


def test_what_nobody_measured_is_not_guessed():
    unknown = Measured(can_litres=10)
    assert worked_out(5, "min", unknown) == worked_out(5, "bunches", unknown) == Amount()


@pytest.mark.parametrize(
    ("number", "unit", "code"), [(1, "mm", "no-area"), (1.5, "pcs", "part-of-a-piece"), (1, "tub", "unit")]
)
def test_what_cannot_be_worked_out_says_why(number, unit, code):
    with pytest.raises(AmountError) as refused:
        worked_out(number, unit, Measured(can_litres=10))
    assert refused.value.code == code
