"""The station record, the catalogue and the reference values that several tests share."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from typing import Any

from crops.catalogue import load_catalogue
from crops.facts import CropFacts
from schedules.days import DayWeather
from schedules.frost import FrostRecord
from schedules.seasons import Hemisphere
from schedules.stations import StationFile, read_station

ROOT = Path(__file__).parents[2]
CHAMPION = ROOT / "fixtures/stations/champion_daily.csv"
TODAY = date(2026, 6, 1)


@cache
def champion_read() -> tuple[StationFile, list[int]]:
    """The record of Champion, Nebraska, 1982 to 2018, and the lines that were told while it was read."""
    told: list[int] = []
    with CHAMPION.open("rb") as stream:
        return read_station(stream, today=TODAY, on_progress=told.append), told


def champion() -> StationFile:
    """The record alone."""
    return champion_read()[0]


@cache
def catalogue() -> Mapping[str, CropFacts]:
    """The catalogue's crops by slug; nobody changes them."""
    return load_catalogue().crops


@cache
def minimums() -> dict[date, float]:
    """Its minimums by day."""
    return {day.day: day.tmin_c for day in champion().days if day.tmin_c is not None}


@cache
def champion_record() -> FrostRecord:
    """Its freezes."""
    return FrostRecord(minimums(), Hemisphere.NORTH)


@cache
def expected() -> dict[str, Any]:
    """What independent code found in the same record."""
    return json.loads((ROOT / "tests/reference/frost_expected.json").read_text())


@cache
def thermal_check(name: str) -> dict[str, Any]:
    """One entry of the thermal checks."""
    checks = json.loads((ROOT / "tests/reference/thermal_checks.json").read_text())
    return next(check for check in checks if check["name"] == name)


def small_record(*, minimum: float, seasons: int = 3) -> StationFile:
    """Whole northern cold seasons with one and the same minimum."""
    days = (date(2001, 8, 1) + timedelta(days=n) for n in range(365 * seasons))
    return replace(champion(), days=tuple(DayWeather(day, minimum, 25.0) for day in days), runs=())
