"""Amounts as people have them; expected values worked out by hand from the definitions of the units."""

import json
from typing import Any

import pytest

from plots.quantities import LITRES_PER_GALLON
from schedules.amounts import Amount, AmountError, Measured, depth_mm, worked_out
from schedules.models import HoseFlow
from tests.schedules.records import ROOT

METRES_PER_FOOT = 0.3048

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


def checks(kind: str) -> list[dict[str, Any]]:
    """Published conversions; beside each in the file stands its source."""
    found = json.loads((ROOT / "tests/reference/water_checks.json").read_text())
    return [one for one in found if one["inputs"]["kind"] == kind]


def near(check: dict[str, Any], key: str) -> Any:
    return pytest.approx(check["expected"][key], abs=check["tolerance"]["abs"])


def square_metres(given: dict[str, Any]) -> float:
    feet = given.get("area_sqft") or given["length_ft"] * given["width_ft"]
    return feet * METRES_PER_FOOT**2


def gallons(number: float, unit: str, area_m2: float | None = None) -> float:
    return worked_out(number, unit, Measured(can_litres=10, area_m2=area_m2)).litres / LITRES_PER_GALLON


def test_depths_over_ground_come_to_the_published_volumes() -> None:
    for check in checks("water_volume"):
        given = check["inputs"]
        assert gallons(given["depth_in"], "in", square_metres(given)) == near(check, "us_gal"), check["name"]
    (check,) = checks("water_volume_metric")
    given = check["inputs"]
    litres = worked_out(given["litres_per_m2"], "mm", Measured(10, area_m2=given["area_m2"])).litres
    assert litres == near(check, "litres")
    assert depth_mm(litres, given["area_m2"]) == near(check, "mm")
    (check,) = checks("convert")
    bed, ten_square_feet = 32 * METRES_PER_FOOT**2, 10 * METRES_PER_FOOT**2
    inch_on_a_bed = worked_out(1, "in", Measured(10, area_m2=bed)).litres
    assert depth_mm(worked_out(1, "in", Measured(10, area_m2=1)).litres, 1) == near(check, "inch_mm")
    assert worked_out(1, "mm", Measured(10, area_m2=1)).litres == near(check, "mm_m2_litre")
    assert gallons(1, "in", 100 * METRES_PER_FOOT**2) == near(check, "inch_100sqft_gal")
    assert inch_on_a_bed / LITRES_PER_GALLON == near(check, "bed_gal")
    assert inch_on_a_bed == near(check, "bed_litre")
    assert worked_out(25, "mm", Measured(10, area_m2=3)).litres == near(check, "25mm_3m2_litre")
    assert depth_mm(worked_out(1, "gal", MEASURED).litres, ten_square_feet) == near(check, "gal_10sqft_mm")


def flow(gallons: float, seconds: float) -> HoseFlow:
    return HoseFlow(litres=gallons * LITRES_PER_GALLON, seconds=seconds)


def poured(minutes: float, hose: HoseFlow) -> float:
    """Gallons that run in so many minutes."""
    measured = Measured(can_litres=10, flow_l_min=hose.litres_per_minute)
    return worked_out(minutes, "min", measured).litres / LITRES_PER_GALLON


def test_minutes_at_a_hose_come_to_what_its_bucket_says() -> None:
    for check in checks("flow"):
        hose, expected = flow(check["inputs"]["gallons"], check["inputs"]["seconds"]), check["expected"]
        assert poured(1, hose) == near(check, "gpm"), check["name"]
        assert "gph" not in expected or poured(60, hose) == near(check, "gph")
    (check,) = checks("minutes")
    hose = flow(check["inputs"]["bucket_gal"], check["inputs"]["fill_seconds"])
    need = check["inputs"]["need_gal"]
    assert poured(1, hose) == near(check, "gal_per_min")
    assert need / poured(1, hose) == near(check, "minutes")
    assert poured(check["expected"]["minutes"], hose) == pytest.approx(need, abs=0.1)
    (check,) = checks("hose_time")
    given = check["inputs"]
    hose = flow(given["bucket_gal"], given["bucket_seconds"])
    assert poured(1, hose) == pytest.approx(check["expected"]["gpm"], abs=0.001)
    need = gallons(given["depth_in"], "in", square_metres(given))
    assert need == near(check, "us_gal")
    assert need / poured(1, hose) == near(check, "minutes")
