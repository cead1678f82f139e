"""The arithmetic of soil and water against worked examples of extension services, laboratories and rules.

Every check of `tests/reference/soil_water_checks.json` names its source. Each is tried in its own units and
at its own tolerance, by `kind`; kinds that belong elsewhere are named with the reason.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from crops import feeding, lime, manure, rotation, soil_test, spacing, volumes
from crops.feeding import KG_PER_POUND, M2_PER_ACRE, M2_PER_SQUARE_FOOT, Grade, Nutrients
from crops.volumes import M3_PER_CUBIC_FOOT, M3_PER_CUBIC_YARD
from plots.quantities import LITRES_PER_GALLON, METRES_PER_FOOT, METRES_PER_INCH
from schedules.amounts import MM_PER_INCH, depth_mm, litres_over
from schedules.intervals import Treated
from schedules.water import giving
from schedules.water.need import owed_by_practice
from tests.schedules.records import catalogue

CHECKS = json.loads(
    (Path(__file__).parents[1] / "reference" / "soil_water_checks.json").read_text(encoding="utf-8")
)
Values = Mapping[str, Any]

LITRES_PER_IMPERIAL_GALLON = 4.54609
LITRES_PER_CUBIC_INCH = LITRES_PER_GALLON / 231

# What a harvest weighs and whom it feeds is logged and reported here, never foretold from a table.
OF_HARVESTS = "what a bed yields is told by its own logs; no sheet plans by published yields"
ELSEWHERE = {
    "yield": OF_HARVESTS,
    "row_feet_needed": OF_HARVESTS,
    "per_person": OF_HARVESTS,
    "area_yield": OF_HARVESTS,
    "bushel": OF_HARVESTS,
    "people_fed": "what is given away is told by weight; no number of people is guessed from it",
    "volunteer_value": "hours are reported as hours; no wage is put on them",
}


def area(one: Values) -> float:
    """m²."""
    sqft = one.get("area_sqft") or one["length_ft"] * one["width_ft"]
    return float(sqft) * M2_PER_SQUARE_FOOT


def grade(one: Values) -> Grade:
    return Grade(*one["grade"])


def pounds(kg: float) -> float:
    return kg / KG_PER_POUND


def per_m2(one: Values, name: str) -> float:
    """kg to the m², of pounds to 100 or 1,000 square feet."""
    if f"{name}_per_100sqft" in one:
        return float(one[f"{name}_per_100sqft"]) * lime.PER_100_SQUARE_FEET
    return float(one[f"{name}_per_1000sqft"]) * lime.PER_1000_SQUARE_FEET


def days(*given: date) -> list[str]:
    return [day.isoformat() for day in given]


def fert_rate(one: Values) -> Values:
    asked = feeding.over_area(per_m2(one, "n_lb"), area(one))
    product = pounds(grade(one).kg_for_n(asked))
    return {"product_lb": product, "n_lb": pounds(asked), "area_sqft": area(one) / M2_PER_SQUARE_FOOT}


def fert_rate_range(one: Values) -> Values:
    found = [fert_rate({**one, "n_lb_per_100sqft": rate}) for rate in one["n_lb_per_100sqft"]]
    return {"product_lb": [rate["product_lb"] for rate in found]}


def nutrients(found: Nutrients) -> Values:
    return {"n_lb": pounds(found.n), "p2o5_lb": pounds(found.p2o5), "k2o_lb": pounds(found.k2o)}


def nutrients_supplied(one: Values) -> Values:
    bags = [(grade(product), product["lb"] * KG_PER_POUND) for product in one["products"]]
    return nutrients(feeding.brought(bags))


def label_content(one: Values) -> Values:
    kg = one["lb"] * KG_PER_POUND
    return {**nutrients(grade(one).in_kg(kg)), "other_lb": pounds(grade(one).rest_in_kg(kg))}


def blend_two(one: Values) -> Values:
    per_1000 = {name: per * lime.PER_1000_SQUARE_FEET for name, per in one["need_lb_per_1000sqft"].items()}
    first, second = (grade(product) for product in one["products"])
    made = feeding.blend(first, second, Nutrients(**per_1000) * area(one))
    return {
        "product1_lb": pounds(made.first_kg),
        "n_from_product1_lb": pounds(first.in_kg(made.first_kg).n),
        "product2_lb": pounds(made.second_kg),
    }


def row_rate(one: Values) -> Values:
    kg_per_m = one["lb_per_100ft_row"] * KG_PER_POUND / (100 * METRES_PER_FOOT)
    kg = feeding.along_row(kg_per_m, one["row_ft"] * METRES_PER_FOOT)
    found = grade(one).in_kg(kg)
    return {"product_lb": pounds(kg), "n_lb": pounds(found.n), "p2o5_lb": pounds(found.p2o5)}


def row_rate_compare(one: Values) -> Values:
    both = [row_rate({**one[name], "row_ft": 100}) for name in ("a", "b")]
    return {
        "n_lb_per_100ft": [rate["n_lb"] for rate in both],
        "p2o5_lb_per_100ft": [rate["p2o5_lb"] for rate in both],
    }


def oxide_to_element(one: Values) -> Values:
    if "p2o5_pct" in one:
        return {"p_pct": feeding.p_of(one["p2o5_pct"])}
    return {"k_pct": feeding.k_of(one["k2o_pct"])}


def lime_split(one: Values) -> Values:
    count = lime.parts(one["lb_per_100sqft"] * lime.PER_100_SQUARE_FEET)
    return {
        "applications": count,
        "lb_each": one["lb_per_100sqft"] / count,
        "months_apart": lime.MONTHS_BETWEEN_PARTS,
    }


def lime_per_unit(one: Values) -> Values:
    assert one["table_lb_per_1000sqft_per_pH_unit"] == lime.PER_UNIT.pounds
    rate = lime.PER_UNIT.kg_m2(one["texture"], ph=one["from_pH"], target=one["to_pH"])
    return {"lb": pounds(feeding.over_area(rate, area(one)))}


def lime_table(one: Values) -> Values:
    printed = {float(ph): tuple(row) for ph, row in one["table_lb_per_100sqft_to_pH6.5"].items()}
    assert (printed, tuple(one["columns"])) == (lime.TO_TARGET.pounds, lime.TO_TARGET.soils)
    rate = lime.TO_TARGET.kg_m2(one["texture"], ph=one["pH"])
    assert rate is not None
    lb = pounds(feeding.over_area(rate, area(one)))
    return {"lb_per_100sqft": rate / lime.PER_100_SQUARE_FEET, "lb": lb}


def lime_buffer_ncda(one: Values) -> Values:
    acidity = {"ph": one["soil_pH"], "target": one["target_pH"]}
    rate = lime.ncda_kg_m2(
        **acidity, acidity=one["acidity_meq_100cm3"], credit_kg_m2=one["residual_credit"] * lime.PER_ACRE_TON
    )
    return {"factor": lime.ncda_factor(**acidity), "tons_per_acre": rate / lime.PER_ACRE_TON}


def wood_ash(one: Values) -> Values:
    left = lime.lime_left(
        one["lime_needed_lb_per_100sqft"], one["ash_lb_per_100sqft"], ash_for_lime=one["ash_to_lime_ratio"]
    )
    return {"lime_still_needed_lb": left, "lime_replaced_lb": one["lime_needed_lb_per_100sqft"] - left}


def volume(one: Values) -> Values:
    m3 = volumes.layer_m3(area(one), one["depth_in"] * METRES_PER_INCH)
    return {
        "area_sqft": area(one) / M2_PER_SQUARE_FOOT,
        "cuft": m3 / M3_PER_CUBIC_FOOT,
        "cuyd": m3 / M3_PER_CUBIC_YARD,
    }


def water_volume(one: Values) -> Values:
    litres = litres_over(one["depth_in"] * MM_PER_INCH, area(one))
    return {
        "area_sqft": area(one) / M2_PER_SQUARE_FOOT,
        "us_gal": litres / LITRES_PER_GALLON,
        "imperial_gal": litres / LITRES_PER_IMPERIAL_GALLON,
        "cubic_in": litres / LITRES_PER_CUBIC_INCH,
    }


def water_gross(one: Values) -> Values:
    assert one["efficiency"] == giving.ARRIVES
    net = litres_over(one["depth_in"] * MM_PER_INCH, area(one))
    by_way = {
        f"{way}_us_gal": giving.given_for(net, share) / LITRES_PER_GALLON
        for way, share in one["efficiency"].items()
    }
    return {"net_us_gal": net / LITRES_PER_GALLON, **by_way}


def flow(one: Values) -> Values:
    gpm = giving.flow(one["gallons"] * LITRES_PER_GALLON, one["seconds"]) / LITRES_PER_GALLON
    return {"gpm": gpm, "gph": gpm * 60}


def hose_time(one: Values) -> Values:
    litres = litres_over(one["depth_in"] * MM_PER_INCH, area(one))
    l_min = giving.flow(one["bucket_gal"] * LITRES_PER_GALLON, one["bucket_seconds"])
    return {
        "us_gal": litres / LITRES_PER_GALLON,
        "gpm": l_min / LITRES_PER_GALLON,
        "minutes": giving.minutes(litres, l_min),
    }


def line(one: Values) -> float:
    """Litres a minute and metre of a drip line."""
    return float(one["gpm_per_100ft"]) * LITRES_PER_GALLON / (100 * METRES_PER_FOOT)


def drip_time(one: Values) -> Values:
    width = one["bed_width_in"] * METRES_PER_INCH
    return {"hours": giving.drip_hours(one["depth_in"] * MM_PER_INCH, width, line(one))}


def drip_applied(one: Values) -> Values:
    tape = one["tape_ft"] * METRES_PER_FOOT
    litres = giving.drip_litres(tape, line(one), one["hours"])
    return {
        "gpm": tape * line(one) / LITRES_PER_GALLON,
        "us_gal": litres / LITRES_PER_GALLON,
        "inches": depth_mm(litres, area(one)) / MM_PER_INCH,
    }


def water_need(one: Values) -> Values:
    rain = 0.0 if one["mulch"] == "plastic" else one["rain_in"]
    owed = owed_by_practice(rain=rain * MM_PER_INCH, poured=0, week_mm=one["weekly_in"] * MM_PER_INCH)
    return {
        "irrigate_in": owed / MM_PER_INCH,
        "us_gal": litres_over(owed, area(one)) / LITRES_PER_GALLON,
    }


def water_volume_metric(one: Values) -> Values:
    litres = litres_over(one["litres_per_m2"], one["area_m2"])
    return {"litres": litres, "mm": depth_mm(litres, one["area_m2"])}


def soil_class(one: Values) -> Values:
    table = {"P": soil_test.RUTGERS_P, "K": soil_test.RUTGERS_K}[one["nutrient"]]
    assert (table.unit, one["lab"] in table.laboratory.replace(" NJAES Soil Testing Laboratory,", "")) == (
        one["unit"],
        True,
    )
    rows = [table.of(value) for value in one["values"]]
    return {"class": [row.name for row in rows], "rating": [row.rating for row in rows]}


def p_restriction(one: Values) -> Values:
    assert one["sufficient_at_ppm"] == soil_test.UMN_BRAY_P_ENOUGH_PPM
    enough = [soil_test.p_is_enough(ppm) for ppm in one["p_ppm"]]
    return {"add_phosphorus": ["no" if is_so else "per lab report" for is_so in enough]}


def p_pause(one: Values) -> Values:
    pause = soil_test.EXCESS_P_PAUSE_YEARS
    due = soil_test.retest_due(date.fromisoformat(one["tested_on"]), pause)
    return {"no_manure_or_compost_years": list(pause), "retest_between": days(*due)}


def compost_p_load(one: Values) -> Values:
    told = manure.INCH_OF_MANURE_COMPOST
    assert told.depth_m == one["depth_in"] * METRES_PER_INCH
    return {"n_seasons": told.n_seasons, "k_years": told.k_years, "p_years": told.p_years}


def sampling(_one: Values) -> Values:
    depth = [round(metres / METRES_PER_INCH, 6) for metres in soil_test.CLEMSON.depth_m]
    return {"depth_in": depth, "min_subsamples": soil_test.CLEMSON.fewest_cores}


def retest_due(one: Values) -> Values:
    low, high = one["interval_years"]
    assert (low, high) in soil_test.RETEST_YEARS
    due = soil_test.retest_due(date.fromisoformat(one["last_test"]), (low, high))
    return {"due_between": days(*due)}


def lead_class(one: Values) -> Values:
    rows = [soil_test.ohio_state_class(ppm) for ppm in one["ppm"]]
    return {
        "class": [row.name for row in rows],
        "no_leafy_or_root": [row.no_leafy_or_root for row in rows],
        "no_food": [row.no_food for row in rows],
    }


def lead_epa(one: Values) -> Values:
    levels = soil_test.epa_lead(date(one["year"], 12, 31))
    assert levels.removal_management is not None
    return {
        "above_screening_200": [ppm > levels.screening for ppm in one["ppm"]],
        "above_removal_management_600": [ppm > levels.removal_management for ppm in one["ppm"]],
    }


def manure_interval(one: Values) -> Values:
    applied, touches = date.fromisoformat(one["applied"]), one["edible_part_touches_soil"]
    first = manure.earliest_harvest(applied, touches_soil=touches)
    assert manure.latest_manure(first, touches_soil=touches) == applied
    return {"earliest_harvest": first.isoformat()}


def compost_log(one: Values) -> Values:
    logs = zip(one["days_131_to_170F"], one["turns"], strict=True)
    system = manure.System(one["system"])
    return {"meets": [manure.counts_as_composted(system, hot_days=hot, turns=n) for hot, n in logs]}


def phi(one: Values) -> Values:
    used = Treated(1, date.fromisoformat(one["applied"]), one["label_phi_days"], "as on its label")
    return {"earliest_harvest": used.until.isoformat()}


def seed(one: Values) -> Values:
    per, unit = ("lb_per_100ft", "lb") if "lb_per_100ft" in one else ("oz_per_100ft", "oz")
    amount = spacing.along(one[per] / (100 * METRES_PER_FOOT), one["row_ft"] * METRES_PER_FOOT)
    return {unit: amount, "seeds": amount * one.get("seeds_per_oz", 0)}


def family(name: str) -> str:
    """That of the first crop of a name; the catalogue has two kinds of pepper."""
    return next(crop.family for slug, crop in catalogue().items() if slug.startswith(name))


def rotation_of(one: Values) -> Values:
    (stood,), planned = one["history"], one["plan"]
    back = [rotation.back_from(stood["year"], gap) for gap in one["gap_years"]]
    assert tuple(one["gap_years"]) == rotation.YEARS_BETWEEN
    same = family(stood["crop"]) == family(planned["crop"])
    return {"same_family": same, "warn": same and planned["year"] < min(back), "clear_from_year": back}


TRIED: dict[str, Callable[[Values], Values]] = {
    "fert_rate": fert_rate,
    "fert_rate_range": fert_rate_range,
    "nutrients_supplied": nutrients_supplied,
    "label_content": label_content,
    "acre_to_area": lambda one: {
        "lb": pounds(feeding.over_area(one["lb_per_acre"] * KG_PER_POUND / M2_PER_ACRE, area(one)))
    },
    "sqft_to_acre": lambda one: {"sqft": area(one) / M2_PER_SQUARE_FOOT, "acre": area(one) / M2_PER_ACRE},
    "ppm_to_lb_acre": lambda one: {"lb_per_acre": pounds(feeding.kg_m2_of_ppm(one["ppm"])) * M2_PER_ACRE},
    "blend_two": blend_two,
    "nutrients_supplied_range": lambda one: {
        "n_lb_per_100sqft": [grade(one).in_kg(lb).n for lb in one["lb_per_100sqft"]]
    },
    "row_rate": row_rate,
    "row_rate_compare": row_rate_compare,
    "oxide_to_element": oxide_to_element,
    "element_to_oxide": lambda one: {"p2o5_pct": feeding.p2o5_of(one["p_pct"])},
    "oxide_factors": lambda _one: {"p2o5_to_p": feeding.p_of(1), "k2o_to_k": feeding.k_of(1)},
    "lime_cce": lambda one: {
        "material_lb_per_100sqft": lime.of_material(one["recommended_lb_per_100sqft"], one["cce_pct"])
    },
    "lime_split": lime_split,
    "lime_per_unit": lime_per_unit,
    "lime_table": lime_table,
    "lime_buffer_ncda": lime_buffer_ncda,
    "acidity_ncda": lambda one: {"acidity_meq_100cm3": lime.ncda_acidity(one["buffer_pH"])},
    "tons_acre_to_area": lambda one: {
        "lb": pounds(feeding.over_area(one["tons_per_acre"] * lime.PER_ACRE_TON, area(one)))
    },
    "wood_ash": wood_ash,
    "volume_cuyd": volume,
    "bed_fill": volume,
    "coverage": lambda one: {
        "sqft": [
            volumes.covered_m2(one["cuyd"] * M3_PER_CUBIC_YARD, depth * METRES_PER_INCH) / M2_PER_SQUARE_FOOT
            for depth in one["depth_in"]
        ]
    },
    "area_circle": lambda one: {
        "sqft": volumes.circle_m2(one["radius_ft"] * METRES_PER_FOOT) / M2_PER_SQUARE_FOOT
    },
    "bags": lambda one: {
        "bags": [
            volumes.whole_bags(one["cuft"] * M3_PER_CUBIC_FOOT, bag * M3_PER_CUBIC_FOOT)
            for bag in one["bag_cuft"]
        ]
    },
    "volume_litres": lambda one: {
        "litres": volumes.layer_m3(one["area_m2"], one["depth_cm"] / 100) * volumes.LITRES_PER_M3
    },
    "water_volume": water_volume,
    "water_volume_metric": water_volume_metric,
    "water_gross": water_gross,
    "water_need": water_need,
    "flow": flow,
    "hose_time": hose_time,
    "drip_time": drip_time,
    "drip_applied": drip_applied,
    "rate_scale": lambda one: {
        "lb": pounds(feeding.over_area(one["lb_per_100sqft"] * lime.PER_100_SQUARE_FEET, area(one)))
    },
    "soil_class": soil_class,
    "p_restriction": p_restriction,
    "p_pause": p_pause,
    "compost_p_load": compost_p_load,
    "sampling": sampling,
    "retest_due": retest_due,
    "lead_class": lead_class,
    "lead_epa": lead_epa,
    "manure_interval": manure_interval,
    "compost_log": compost_log,
    "phi": phi,
    "seed": seed,
    "rotation": rotation_of,
    "rotation_disease": lambda one: {
        "clear_from_year": rotation.back_from(one["year_seen"], one["gap_years"])
    },
}


def misses(check: Values) -> list[str]:
    """What our result for a check is not as it says."""
    found, tolerance = TRIED[check["inputs"]["kind"]](check["inputs"]), check["tolerance"]
    wrong = []
    for name, wanted in check["expected"].items():
        plain = name.removeprefix("must_not_equal_")
        result = found[plain]
        close = wanted if tolerance == "exact" else pytest.approx(wanted, **_allowed(tolerance))
        if (result == close) is (name != plain):
            wrong.append(f"{check['name']}: {name} is {result}, not {wanted}")
    return wrong


def _allowed(tolerance: Mapping[str, float]) -> dict[str, float]:
    return {"rel": tolerance.get("rel", 0.0), "abs": tolerance.get("abs", 0.0)}


def test_every_check_comes_out_at_its_tolerance() -> None:
    assert len(CHECKS) == 88
    kinds = {check["inputs"]["kind"] for check in CHECKS}
    assert kinds == TRIED.keys() | ELSEWHERE.keys()
    assert [miss for check in CHECKS if check["inputs"]["kind"] in TRIED for miss in misses(check)] == []


def test_a_wrong_sum_is_found() -> None:
    check = next(one for one in CHECKS if one["name"] == "raised_bed_not_divided_by_3")
    wrong = {**check, "expected": {"cuyd": 10.67, "must_not_equal_cuyd": 1.185}}
    assert (misses(check), len(misses(wrong))) == ([], 2)


def test_tables_that_disagree_stand_side_by_side() -> None:
    """For a loam from pH 5.5 to 6.5 two published tables differ by 60 percent; two caps for ash by 2.5."""
    one = lime.PER_UNIT.kg_m2("medium loam", ph=5.5, target=6.5)
    other = lime.TO_TARGET.kg_m2("loam", ph=5.5)
    assert other is not None
    assert other / one == pytest.approx(1.6)
    caps = [cap.kg_m2 for cap in lime.ASH_CAPS]
    assert max(caps) / min(caps) == pytest.approx(2.5)
    assert lime.ash_allowed(6.0) == min(caps)
    assert [one.fewest_cores for one in soil_test.SAMPLINGS] == [12, 8]
    assert soil_test.RETEST_YEARS == ((2, 3), (3, 5))


def test_no_more_is_spread_than_the_test_asks_for() -> None:
    """Excess phosphorus pollutes water and blocks zinc and iron (UMN Extension; UW-Extension Kenosha)."""
    enough_p = Nutrients(n=1.0, k2o=1.0)
    assert Grade(10, 10, 10).kg_within(enough_p) == 0.0
    assert Grade(21, 0, 0).kg_within(enough_p) == pytest.approx(100 / 21)
    made = feeding.blend(Grade(10, 10, 10), Grade(21, 0, 0), Nutrients(n=0.1, p2o5=1.0))
    assert made.brought.n == pytest.approx(0.1)
    assert (made.second_kg, made.left.p2o5) == (0.0, pytest.approx(0.9))
    with pytest.raises(ValueError, match="none of it"):
        Grade(0, 20, 0).kg_for_n(1)
