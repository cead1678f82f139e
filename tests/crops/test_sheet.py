"""Facts that cannot all be true are found."""

from dataclasses import replace

import pytest

from crops.catalogue import load_catalogue
from crops.sheet import Flaw, flaws

CARROT = load_catalogue().crops["carrot"]


@pytest.mark.parametrize(
    ("changes", "found"),
    [
        ({}, []),
        ({"maturity_days_low": 90}, [(Flaw.OUT_OF_ORDER, "maturity_days_low", "maturity_days_high")]),
        ({"maturity_days_low": 85}, []),
        ({"sow_weeks_late": None}, [(Flaw.HALF_GIVEN, "sow_weeks_late", "sow_weeks_early")]),
        ({"sow_weeks_early": None}, [(Flaw.HALF_GIVEN, "sow_weeks_early", "sow_weeks_late")]),
        ({"maturity_from": None}, [(Flaw.UNCOUNTED, "maturity_from", "maturity_days_low")]),
        ({"soil_min_c": 8.0, "soil_optimum_low_c": None, "soil_optimum_high_c": None, "soil_max_c": 7.0},
         [(Flaw.OUT_OF_ORDER, "soil_min_c", "soil_max_c")]),
    ],
)  # fmt: skip
def test_flaws(changes, found):
    assert list(flaws(replace(CARROT, **changes))) == found
