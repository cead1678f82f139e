"""Soil temperature against soil measured at six stations (NOAA USCRN 2020) and against soil physics."""

from __future__ import annotations

import csv
from collections import defaultdict
from datetime import date
from functools import cache
from math import cos, pi
from statistics import fmean, median

import pytest

from schedules.normals import smoothed
from schedules.seasons import Hemisphere
from schedules.soil import SPRING_CHECK, SoilReading, damping_depth, soil_as_read, soil_normals, soil_series
from tests.schedules.records import ROOT, thermal_check

MEASURED = thermal_check("soil_measured_2020")["expected"]["stations"]
SPRING, SUMMER, AUTUMN = (3, 4, 5), (6, 7, 8), (9, 10, 11)
DEPTHS = {0.05: "soil5", 0.10: "soil10"}


@cache
def stations() -> dict[str, list[dict[str, str]]]:
    found = defaultdict(list)
    with (ROOT / "tests/reference/uscrn_soil_2020.csv").open() as file:
        for row in csv.DictReader(file):
            if row["date"]:  # the row of units has none
                found[row["wban"]].append(row)
    return dict(found)


def air(rows: list[dict[str, str]]) -> list[float]:
    """Daily means, a missing one as on the day before."""
    means: list[float] = []
    for row in rows:
        known = row["tmin"] and row["tmax"]
        means.append((float(row["tmin"]) + float(row["tmax"])) / 2 if known else means[-1])
    return means


def score(rows: list[dict[str, str]], estimate: list[float], depth: float, months: tuple[int, ...]):
    """RMSE and bias in °C over the days with a measurement."""
    errors = [
        value - float(row[DEPTHS[depth]])
        for row, value in zip(rows, estimate, strict=True)
        if date.fromisoformat(row["date"]).month in months and row[DEPTHS[depth]]
    ]
    return fmean(error**2 for error in errors) ** 0.5, fmean(errors)


def ours(depth: float, months: tuple[int, ...]) -> dict[str, tuple[float, float]]:
    return {
        wban: score(rows, soil_series(air(rows), Hemisphere.NORTH, depth_m=depth), depth, months)
        for wban, rows in stations().items()
    }


def published(depth: float, season: str, model: str) -> dict[str, float]:
    return {
        station["wban"]: station[f"{round(depth * 100)}cm_{season}"][model]["rmse"] for station in MEASURED
    }


@pytest.mark.parametrize("depth", DEPTHS)
def test_in_spring_no_worse_than_a_weeks_mean_at_any_station(depth):
    found = ours(depth, SPRING)
    week, plain = published(depth, "mar_may", "mean7"), published(depth, "mar_may", "air_mean")
    assert all(rmse < week[wban] for wban, (rmse, _) in found.items())
    assert all(rmse < plain[wban] for wban, (rmse, _) in found.items())


@pytest.mark.parametrize(
    ("depth", "middle", "worst", "bias"), [(0.05, 1.43, 1.94, -0.11), (0.10, 1.27, 1.62, 0.17)]
)
def test_the_stated_error_in_spring(depth, middle, worst, bias):
    found = ours(depth, SPRING).values()
    assert median(rmse for rmse, _ in found) == pytest.approx(middle, abs=0.01)
    assert max(rmse for rmse, _ in found) == pytest.approx(worst, abs=0.01)
    assert fmean(bias for _, bias in found) == pytest.approx(bias, abs=0.01)


def test_the_page_states_the_check_as_it_is():
    found = ours(0.05, SPRING).values()
    assert SPRING_CHECK.median_c == round(median(rmse for rmse, _ in found), 1)
    assert SPRING_CHECK.worst_c == round(max(rmse for rmse, _ in found), 1)
    assert SPRING_CHECK.bias_c == round(fmean(bias for _, bias in found), 1)
    assert SPRING_CHECK.air_alone_c == round(median(published(0.05, "mar_may", "air_mean").values()), 1)


@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize(("season", "months"), [("jun_aug", SUMMER), ("sep_nov", AUTUMN)])
def test_the_stated_error_in_summer_and_autumn(depth, season, months):
    found = [rmse for rmse, _ in ours(depth, months).values()]
    assert 0.95 < median(found) < 1.45
    assert max(found) < 2.45
    assert median(found) < median(published(depth, season, "air_mean").values())


def test_the_plain_mean_scores_as_published():
    """The yardstick itself: our scoring of the air's mean gives the published figures."""
    for wban, rows in stations().items():
        rmse, _ = score(rows, air(rows), 0.05, SPRING)
        assert rmse == pytest.approx(published(0.05, "mar_may", "air_mean")[wban], abs=0.06)


def test_damping_depth():
    check = thermal_check("damping_depth")
    for period, wanted in ((365, "annual_m"), (1, "daily_m")):
        found = [damping_depth(d, period) for d in check["inputs"]["diffusivity_m2_s"]]
        assert found == pytest.approx(check["expected"][wanted], abs=check["tolerance"]["abs"])


def test_deeper_soil_follows_the_annual_wave():
    """The step from 5 to 10 cm is the one of the published wave at both depths."""
    check = thermal_check("soil_sinusoid")
    points = check["inputs"]["points_depth_m_day"]
    published_at = {(depth, day): t for (depth, day), t in zip(points, check["expected"]["t_c"], strict=True)}
    surface = [10 - 15 * cos(2 * pi * (day - 20) / 365) for day in range(1, 366)] * 3
    shallow, deep = (soil_series(surface, Hemisphere.NORTH, depth_m=depth)[-365:] for depth in DEPTHS)
    for day in (15, 105, 196, 288):
        step = published_at[0.1, day] - published_at[0.05, day]
        assert deep[day - 1] - shallow[day - 1] == pytest.approx(step, abs=0.05)


def test_normals_join_over_new_year_and_mirror_in_the_south():
    north = [10 - 12 * cos(2 * pi * (day - 20) / 365) for day in range(365)]
    south = north[182:] + north[:182]
    soil = soil_normals(north, Hemisphere.NORTH)
    assert len(soil) == 365
    assert abs(soil[0] - soil[-1]) < 0.3
    mirrored = soil_normals(south, Hemisphere.SOUTH)
    assert mirrored[:183] == pytest.approx(soil[182:], abs=0.15)
    assert soil_series([], Hemisphere.NORTH) == []


def test_a_reading_a_week_beats_the_normals_on_the_days_between() -> None:
    """At the six stations, March to May: only days without a reading of their own are counted."""
    errors = {"read": [], "unread": []}
    for rows in stations().values():
        days = [row for row in rows if row["date"] != "2020-02-29"]
        normals = soil_normals(smoothed(air(days), [1] * 365), Hemisphere.NORTH)
        weekly = [
            SoilReading(date.fromisoformat(days[index]["date"]), float(days[index]["soil5"]))
            for index in range(59, 151, 7)
            if days[index]["soil5"]
        ]
        between = [index for index in range(59, 151) if days[index]["soil5"] and (index - 59) % 7]
        for name, estimate in (("read", soil_as_read(normals, weekly, 2020)), ("unread", normals)):
            missed = [estimate[index] - float(days[index]["soil5"]) for index in between]
            errors[name].append(fmean(by**2 for by in missed) ** 0.5)
    assert round(median(errors["unread"]), 1) == 2.0
    assert round(median(errors["read"]), 1) == 1.6
    assert all(read < unread for read, unread in zip(errors["read"], errors["unread"], strict=True))


def test_readings_of_another_year_change_nothing() -> None:
    normals = tuple(10.0 + index % 3 for index in range(365))
    assert soil_as_read(normals, [SoilReading(date(2023, 5, 1), 20.0)], 2024) == normals
