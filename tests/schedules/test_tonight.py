"""A cold night: what dies at which temperature, what a cover saves, in the order of plots."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from schedules.tonight import Danger, Growing, at_risk, expected_low

NIGHT = date(2026, 5, 12)
TOMATO = Growing(
    planting=1, plot=1, plot_label="A10", name="Tomato", shows=date(2026, 5, 5), logged=True,
    young_dies_c=0.0, grown_dies_c=0.0,
)  # fmt: skip
KALE = replace(TOMATO, planting=2, plot=2, plot_label="A2", name="Kale", young_dies_c=-4.4, grown_dies_c=-9.0)


def dangers(low_c: float, *growing: Growing, cover_c: float = 1.11) -> list[tuple[str, Danger, bool]]:
    found = at_risk(growing, low_c, night=NIGHT, cover_c=cover_c)
    return [(row.growing.name, row.danger, row.saved) for plot in found for row in plot.rows]


@pytest.mark.parametrize(
    ("low_c", "expected"),
    [
        (2.01, []),
        (2.0, [("Tomato", Danger.CLOSE, True)]),
        (0.01, [("Tomato", Danger.CLOSE, True)]),
        (0.0, [("Tomato", Danger.KILLED, True)]),
        (-1.1, [("Tomato", Danger.KILLED, True)]),
        (-1.11, [("Tomato", Danger.KILLED, False)]),  # a freeze at its own temperature still kills
        (-2.4, [("Kale", Danger.CLOSE, True), ("Tomato", Danger.KILLED, False)]),
    ],
)
def test_what_a_low_endangers_by_plots_as_people_count_them(low_c: float, expected: list[object]) -> None:
    assert dangers(low_c, TOMATO, KALE) == expected


def test_after_six_weeks_the_grown_plant_counts() -> None:
    grown = replace(KALE, shows=date(2026, 3, 31))
    assert dangers(-4.4, grown) == []
    assert dangers(-4.4, replace(KALE, shows=date(2026, 4, 1))) == [("Kale", Danger.KILLED, True)]
    assert dangers(-9.0, grown) == [("Kale", Danger.KILLED, True)]
    tender_when_grown = replace(TOMATO, shows=date(2026, 3, 1), young_dies_c=-2.2)
    assert dangers(-2.0, tender_when_grown) == [("Tomato", Danger.CLOSE, True)]


def test_what_stands_under_a_cover_feels_less_cold() -> None:
    covered = replace(TOMATO, covered=True)
    assert dangers(-1.0, covered) == [("Tomato", Danger.CLOSE, False)]
    assert dangers(-1.11, covered) == [("Tomato", Danger.KILLED, False)]


def test_the_garden_is_as_much_colder_as_its_station_says() -> None:
    assert expected_low(0.56, -1.17) == -0.61
