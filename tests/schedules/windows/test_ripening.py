"""Days to maturity counted by a garden's warmth, against what growers and stations tell."""

from __future__ import annotations

import csv
from collections import defaultdict
from datetime import date
from functools import cache
from statistics import fmean, median

import pytest

from schedules.bases import from_mean
from schedules.climate import Basis, Climate
from schedules.normals import daily_normals, smoothed
from schedules.seasons import Hemisphere, Side, day_number
from schedules.windows import AS_PUBLISHED, MIDDLING, Edge, Operation, Start, Turn, derive
from schedules.windows.growing_year import GrowingYear
from schedules.windows.growth import dies_at, starts
from schedules.windows.practice import FITTED
from schedules.windows.ripening import Counted, Pace, Ripening, ripening
from tests.schedules.records import ROOT, catalogue, champion, thermal_check
from tests.schedules.windows.climates import CLIMATES

CROPS = catalogue()
NORTH = Hemisphere.NORTH
Normals = tuple[tuple[float, ...], tuple[float, ...]]
YEAR = 2025


def by_warmth(crop: str, normals: Normals, turn: Turn = Turn.SPRING, start: Start = Start.SOW) -> Ripening:
    climate = Climate(Basis.RECORD, NORTH, lambda side, celsius: None, low_c=normals[0], high_c=normals[1])
    found = ripening(CROPS[crop], start, turn, GrowingYear(climate, YEAR, MIDDLING, FITTED))
    assert found is not None
    return found


def on(month: int, day: int, year: int = YEAR) -> int:
    return day_number(date(year, month, day), YEAR)


def of_months(fahrenheit: list[tuple[float, float]]) -> Normals:
    """Normals through monthly means of minimum and maximum in °F."""
    counts = [1] * 365
    months = [date.fromordinal(date(YEAR, 1, 1).toordinal() + n).month for n in range(365)]
    low, high = (
        smoothed([(fahrenheit[month - 1][side] - 32) / 1.8 for month in months], counts) for side in (0, 1)
    )
    return low, high


# Fresno, California, averages as printed at tripadvisor.co.uk, "Fresno: Weather and when to go" (seen).
FRESNO = of_months(
    [
        (38.4, 53.6), (41.4, 61.3), (44.9, 66.1), (48.4, 74.0), (54.9, 82.7), (61.2, 90.9),
        (66.1, 96.6), (64.9, 94.8), (60.4, 88.8), (51.9, 78.1), (42.3, 63.0), (37.0, 53.4),
    ]
)  # fmt: skip
# Central Delaware (Dover), monthly normals from memory.
DELAWARE = of_months(
    [
        (28, 44), (30, 47), (36, 55), (45, 66), (54, 75), (63, 83),
        (68, 87), (67, 85), (60, 79), (49, 69), (40, 58), (32, 49),
    ]
)  # fmt: skip


@pytest.mark.parametrize("sown", [on(11, 5, YEAR - 1), on(11, 25, YEAR - 1), on(12, 25, YEAR - 1)])
def test_lettuce_of_the_central_valley_stands_through_winter(sown):
    # "Spring plantings are made from early November to late December for harvest in April"; "as long as 130
    # days for late-fall plantings" (Jackson and others, Iceberg Lettuce Production in California, seen).
    lettuce = by_warmth("lettuce-head", FRESNO)
    quick, slow = lettuce.ripe(sown, Pace.QUICK), lettuce.ripe(sown, Pace.SLOW)
    assert on(4, 1) - 7 <= quick <= on(4, 30)
    assert slow <= on(5, 20)
    assert 115 <= quick - sown <= 165  # where a quick variety is printed with 55
    assert lettuce.counted is Counted.WARMTH


def test_lettuce_of_late_summer_there_is_cut_in_autumn():
    # "Planted from early August to early September for harvest from late October to mid-November" (as above).
    lettuce = by_warmth("lettuce-head", FRESNO, Turn.AUTUMN)
    assert on(10, 25) <= lettuce.ripe(on(9, 5), Pace.MIDDLING) <= on(11, 20)


def test_early_peas_take_their_time_in_a_cold_march():
    # Sown on 15 March, the earliest varieties were ready between 20 May and 3 June: 66 to 80 days where
    # tables print 58 (University of Delaware 2025; thermal_checks.json, "heat_unit_requirements").
    peas = by_warmth("pea-garden", DELAWARE)
    usual = peas.ripe(on(3, 15), Pace.QUICK)  # by the normals, not by the weather of that spring
    assert on(5, 20) <= usual <= on(6, 3) + 3
    assert peas.ripe(on(5, 1), Pace.QUICK) - on(5, 1) < 58


@pytest.mark.parametrize(
    ("crop", "published"),
    [
        ("corn-sweet", "sweet corn (Jubilee), planting to fresh harvest"),
        ("corn-sweet", "sweet corn, early / midseason"),
        ("bean-bush", "snap bean, planting to harvest, Corvallis 1961-68"),
        ("pea-garden", "pea, earliest varieties"),
    ],
)
def test_days_at_the_best_temperatures_are_the_heat_units_growers_count(crop, published):
    entry = thermal_check("heat_unit_requirements")["expected"][published]
    needs = entry["dd_f"] if isinstance(entry["dd_f"], list) else [entry["dd_f"]]
    found = by_warmth(crop, FRESNO)
    ours = [1.8 * found.per_day * days for days in (found.days[Pace.QUICK], found.days[Pace.SLOW])]
    # One method's degree-days are not another's: within a fifth of the published range.
    assert 0.8 * min(needs) <= ours[1]
    assert ours[0] <= 1.2 * max(needs)
    assert min(abs(our / need - 1) for our in ours for need in needs) <= 0.15


@cache
def stations() -> list[tuple[Normals, int]]:
    """Normals and first frost of Champion, 1982 to 2018, and of six stations in 2020 alone."""
    of_record = daily_normals(champion().days)
    found = [((of_record.tmin_c, of_record.tmax_c), 271)]
    rows = defaultdict(list)
    with (ROOT / "tests/reference/uscrn_soil_2020.csv").open() as file:
        for row in csv.DictReader(file):
            if row["date"] and row["tmin"] and row["tmax"]:
                rows[row["wban"]].append(row)
    for one in rows.values():
        sums, counts = ([0.0] * 365, [0.0] * 365), [0] * 365
        for row in one:
            index = day_number(date.fromisoformat(row["date"]), 2020) - 1
            counts[index] += 1
            for total, column in zip(sums, ("tmin", "tmax"), strict=True):
                total[index] += float(row[column])
        frost = next(
            day_number(date.fromisoformat(row["date"]), 2020)
            for row in one
            if row["date"] >= "2020-08-01" and float(row["tmin"]) <= 0
        )
        found.append(((smoothed(sums[0], counts), smoothed(sums[1], counts)), frost))
    return found


def extra_days() -> list[tuple[int, float, float]]:
    """Days that autumn crops take longer by warmth than published, and by counting; with the first frost."""
    counting = GrowingYear(from_mean(NORTH, first=(10, 1)), YEAR, AS_PUBLISHED, FITTED)
    found = []
    for normals, frost in stations():
        for slug, facts in CROPS.items():
            if not facts.fall_crop or facts.autumn_weeks_early is not None or facts.perennial:
                continue
            margin = facts.fall_margin_days
            ripe = frost - ((14 if dies_at(facts) >= 0 else 0) if margin is None else margin)
            for start in starts(facts):
                warm = by_warmth(slug, normals, Turn.AUTUMN, start)
                plain = ripening(facts, start, Turn.AUTUMN, counting)
                for pace in (Pace.QUICK, Pace.SLOW):
                    days = warm.days[pace]
                    took, counted = (ripe - one.begun_by(ripe, pace) for one in (warm, plain))
                    found.append((frost, took - days, counted - days))
    return found


def test_three_quarters_of_a_day_is_what_warmth_makes_of_one_after_the_equinox():
    extra = extra_days()
    by_place = defaultdict(list)
    for frost, warm, _ in extra:
        by_place[frost].append(warm)
    late = [median(by_place[frost]) for frost in sorted(by_place)]
    assert late[:4] == pytest.approx([2, 0, 3, 5], abs=3)  # 28 September to 18 October
    assert late[-1] > 10  # 30 October
    misses = fmean(abs(warm - counted) for _, warm, counted in extra)
    a_fortnight = fmean(abs(warm - 14) for _, warm, _ in extra)
    assert misses < 6 < 10 < a_fortnight  # the fortnight of common practice misses by twice as much


def test_what_never_finds_its_warmth_says_so():
    windows = derive(CROPS["parsnip"], CLIMATES["polar"](), year=2026, nerve=MIDDLING)
    assert {reason.code for window in windows for reason in window.reasons} == {"too-little-warmth"}
    cold = ((0.0,) * 365, (8.0,) * 365)
    assert by_warmth("tomato", cold).never
    with pytest.raises(ValueError, match="warmth"):
        by_warmth("tomato", cold).ripe(100, Pace.QUICK)


def test_slow_varieties_give_place_to_quick_ones_where_they_never_ripen():
    cool = ((10.0,) * 365, (16.4,) * 365)
    pumpkin = by_warmth("pumpkin", cool)
    need = pumpkin.days[Pace.QUICK] * pumpkin.per_day
    assert need <= pumpkin.year.total < pumpkin.days[Pace.SLOW] * pumpkin.per_day
    assert pumpkin.ripe(100, Pace.SLOW) == pumpkin.ripe(100, Pace.QUICK)


def test_without_normals_days_are_counted_and_the_reason_says_so():
    for turn, counted in ((Turn.SPRING, Counted.DAYS), (Turn.AUTUMN, Counted.SHORTER_DAYS)):
        windows = derive(
            CROPS["turnip"], from_mean(NORTH, last=(5, 1), first=(10, 6)), year=2026, nerve=AS_PUBLISHED
        )
        picked = next(w for w in windows if w.operation is Operation.HARVEST and w.turn is turn)
        assert {r.values["counted"] for r in picked.reasons if r.code == "days-to-maturity"} == {counted}
        assert next(r for r in picked.reasons if r.edge is Edge.BEST).code == "days-to-maturity"


def test_the_first_frost_of_the_south_counts_shorter_days_there():
    south = GrowingYear(from_mean(Hemisphere.SOUTH, last=(9, 20), first=(4, 20)), YEAR, AS_PUBLISHED, FITTED)
    turnip = ripening(CROPS["turnip"], Start.SOW, Turn.AUTUMN, south)
    assert south.curve(Side.FIRST, 0.0).day(50) == on(4, 20)
    # Ripe on 20 April, 28 days after the equinox of 23 March, which count for 21 of 45.
    assert turnip.begun_by(on(4, 20), Pace.QUICK) == on(3, 23) - 24
