"""What the soil thermometer shows moves sowings as gardeners would: cold holds back, warm lets begin."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import pytest

from schedules.climate import Climate
from schedules.soil import SoilReading
from schedules.windows import MIDDLING, Operation, Turn, Window, derive
from tests.schedules.records import catalogue
from tests.schedules.windows.climates import CLIMATES

CATALOGUE = catalogue()
CROPS = [CATALOGUE[name] for name in ("bean-bush", "chard", "cilantro", "kale", "pea-garden", "radish")]


def sowings(climate: Climate) -> Iterator[Window]:
    for facts in CROPS:
        for one in derive(facts, climate, year=2026, nerve=MIDDLING):
            if one.operation is Operation.SOW and one.turn is Turn.SPRING and one.succession == 1:
                yield one


@pytest.mark.parametrize("day", [date(2026, 4, 8), date(2026, 4, 25)])
def test_cold_soil_never_has_seed_sown_sooner_nor_warm_soil_later(day: date) -> None:
    """By hidden seed alone it would: in cold ground it lies safe from frost for longer."""
    usual = CLIMATES["high plains"]()
    expected = usual.soil_c[day.timetuple().tm_yday - 1]
    moved = {-6: 0, 6: 0}
    for warmer in moved:
        read = replace(usual, soil_read=(SoilReading(day, expected + warmer),))
        for before, after in zip(sowings(usual), sowings(read), strict=True):
            if before.earliest is None or after.earliest is None:
                assert before.earliest == after.earliest
                continue
            shift = (after.earliest - before.earliest).days
            assert shift * warmer <= 0, (before, after)
            assert after.latest >= before.latest, (before, after)
            moved[warmer] += bool(shift)
    assert all(moved.values())
