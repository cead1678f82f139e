"""Water against FAO-56 and what else is published; beside each check in the file stands its source."""

from __future__ import annotations

import csv
import json
from collections import defaultdict
from datetime import date, timedelta
from functools import cache
from typing import Any

import pytest

from crops.catalogue import FOLDER
from crops.water_needs import WaterNeeds
from schedules.intervals import Treated
from schedules.water.balance import Day, counted_rain, next_day, share_ready
from schedules.water.evaporation import radiation_above, reference_mm
from schedules.water.need import owed_by_practice
from tests.schedules.records import ROOT, champion

Check = dict[str, Any]
INCH = 25.4
STAGES = ("small", "growing", "full", "ageing")


@cache
def checks() -> dict[str, list[Check]]:
    found = defaultdict(list)
    for check in json.loads((ROOT / "tests/reference/water_checks.json").read_text()):
        found[check["inputs"]["kind"]].append(check)
    return found


def near(check: Check, key: str) -> Any:
    return pytest.approx(check["expected"][key], abs=check["tolerance"]["abs"])


def on(day_of_year: int) -> date:
    return date(2025, 1, 1) + timedelta(days=day_of_year - 1)


def test_radiation_above_the_air() -> None:
    for check in checks()["ra"] + checks()["ra_n"]:
        given = check["inputs"]
        assert radiation_above(given["lat_deg"], given["doy"]) == near(check, "ra_mj_m2_d"), check["name"]
    for check in checks()["ra_monthly"]:
        latitude = check["inputs"]["lat_deg"]
        months = [radiation_above(latitude, day) for day in check["inputs"]["doy"]]
        assert months == near(check, "ra_mj_m2_d"), check["name"]


def test_reference_of_a_day() -> None:
    for check in checks()["et0_hargreaves"]:
        given = check["inputs"]
        found = reference_mm(
            given["tmin_c"], given["tmax_c"], latitude=given["lat_deg"], day=on(given["doy"])
        )
        assert found == near(check, "et0_mm"), check["name"]
    assert reference_mm(16, 15, latitude=40, day=date(2026, 6, 1)) == 0.0  # a crossed pair is no number less


def test_reference_over_a_whole_record() -> None:
    (check,) = checks()["et0_hargreaves_monthly_mean"]
    months: dict[int, list[float]] = defaultdict(list)
    for day in champion().days:
        if day.tmin_c is not None and day.tmax_c is not None:
            months[day.day.month].append(reference_mm(day.tmin_c, day.tmax_c, latitude=40.4, day=day.day))
    means = [sum(months[month]) / len(months[month]) for month in range(1, 13)]
    assert means == near(check, "mean_mm_d")


def test_coefficient_of_each_stage() -> None:
    for check in checks()["kc_curve"]:
        needs = _needs(check["inputs"])
        season = sum(check["inputs"]["stage_days"])
        curve = [needs.kc(day, season) for day in check["inputs"]["day"]]
        assert curve == near(check, "kc"), check["name"]


def test_catalogue_holds_the_published_figures() -> None:
    """Every crop's row says which row of Tables 12 and 22 it is; the smaller root depth is taken."""
    (check,) = checks()["crop_table"]
    with (FOLDER / "water.csv").open(encoding="utf-8", newline="") as lines:
        rows = [row for row in csv.DictReader(lines) if row["basis"].startswith("seen")]
    wrong = {}
    for row in rows:
        published = check["expected"][row["seen_for"]]
        kcs = [float(row[key]) for key in ("kc_small", "kc_full", "kc_end")]
        same = kcs == [published[key] for key in ("kc_ini", "kc_mid", "kc_end")]
        if published["root_m"]:
            roots = [float(row["root_m"]), float(row["share"])]
            same = same and roots == [published["root_m"][0], published["p"]]
        if not same:
            wrong[row["crop_or_family"]] = row
    assert wrong == {}
    assert len(rows) == 35
    assert {round(sum(float(row[key]) for key in STAGES), 9) for row in rows} == {1.0}


def test_water_that_the_root_zone_holds() -> None:
    (check,) = checks()["taw"]
    given, found = check["inputs"], {}
    for crop, roots in given["crops"].items():
        for soil, holds in given["soils"].items():
            total = (holds["fc"] - holds["wp"]) * 1000 * roots["root_m"]
            at_five_mm = next_day(0, reference=5, kc=1, total=total, share=roots["p"], rain=0, water=0)
            found[f"{crop}, {soil}"] = {"taw_mm": total, "raw_mm": at_five_mm.ready}
    assert found == {
        key: pytest.approx(value, abs=check["tolerance"]["abs"]) for key, value in check["expected"].items()
    }


def test_share_and_light_rain() -> None:
    (check,) = checks()["p_adjusted"]
    given = check["inputs"]
    assert [share_ready(given["p_table"], need) for need in given["etc_mm_d"]] == near(check, "p")
    (check,) = checks()["effective_rain_day"]
    given = check["inputs"]
    assert [counted_rain(mm, given["et0_mm"]) for mm in given["p_mm"]] == near(check, "pe_mm")


def test_ten_dry_days() -> None:
    (check,) = checks()["ks_series"]
    given, depletion, found = check["inputs"], check["inputs"]["start_depletion_mm"], []
    total = (given["fc"] - given["wp"]) * 1000 * given["root_m"]
    for _day in range(given["days"]):
        day = next_day(
            depletion, reference=given["et0_mm_d"], kc=given["kc"], total=total, share=given["p_table"],
            rain=given["rain_mm"], water=0,
        )  # fmt: skip
        depletion = day.depletion
        found.append([day.stress, day.used, depletion])
    for day_found, expected in zip(found, check["expected"]["ks_eta_dr"], strict=True):
        assert day_found == pytest.approx(expected, abs=check["tolerance"]["abs"])


def test_a_tomato_through_three_summers() -> None:
    """Worked out elsewhere, day by day, over the record of Champion: dry, dry and watered, wet."""
    for check in checks()["balance"]:
        days, watered, totals = _season(check["inputs"])
        expected = check["expected"]
        assert watered == expected["watering_days"], check["name"]
        assert sum(day.stress < 1 for day in days.values()) == expected["days_with_stress"]
        assert totals == pytest.approx(
            {key: expected["totals"][key] for key in totals}, abs=check["tolerance"]["abs"]
        )
        for day, shown in expected["snapshots"].items():
            found = days[date.fromisoformat(day)]
            assert found.depletion == pytest.approx(shown["depletion_mm"], abs=check["tolerance"]["abs"])


def _season(given: Check) -> tuple[dict[date, Day], list[str], dict[str, float]]:
    needs, weather = _needs(given), {day.day: day for day in champion().days}
    total = (given["fc"] - given["wp"]) * 1000 * given["root_m"]
    found: dict[date, Day] = {}
    watered, depletion = [], float(given["start_depletion_mm"])
    for number in range(given["days"]):
        day = date.fromisoformat(given["start"]) + timedelta(days=number)
        air = weather[day]
        assert air.tmin_c is not None
        assert air.tmax_c is not None
        reference = reference_mm(air.tmin_c, air.tmax_c, latitude=given["lat_deg"], day=day)
        kc = needs.kc(number + 1, sum(given["stage_days"]))
        ready = share_ready(given["p_table"], kc * reference) * total
        water = (given["water_mm_when_needed"] or 0.0) if depletion > ready else 0.0
        watered += [day.isoformat()] if water else []
        found[day] = next_day(
            depletion, reference=reference, kc=kc, total=total, share=given["p_table"],
            rain=air.precip_mm or 0.0, water=water,
        )  # fmt: skip
        depletion = found[day].depletion
    values = found.values()
    totals = {
        "etc": sum(day.need for day in values),
        "eta": sum(day.used for day in values),
        "rain_counted": sum(day.rain_counted for day in values),
        "dp": sum(day.drained for day in values),
    }
    return found, watered, totals


def _needs(given: Check) -> WaterNeeds:
    season = sum(given["stage_days"])
    small, grow, full, ageing = (days / season for days in given["stage_days"])
    return WaterNeeds(*given["kc"], 0.7, 0.4, (small, grow, full, ageing), "as given")


def test_the_weekly_inch_less_the_rain() -> None:
    bare = next(check for check in checks()["water_need"] if check["inputs"]["mulch"] != "plastic")
    given = bare["inputs"]
    owed = owed_by_practice(rain=given["rain_in"] * INCH, poured=0, week_mm=given["weekly_in"] * INCH)
    assert owed / INCH == pytest.approx(bare["expected"]["irrigate_in"])


def test_the_label_s_own_days() -> None:
    (check,) = checks()["phi"]
    given = check["inputs"]
    used = Treated(1, date.fromisoformat(given["applied"]), given["label_phi_days"], "as on its label")
    assert used.until == date.fromisoformat(check["expected"]["earliest_harvest"])
