"""What a reading that cannot be right looks like."""

from __future__ import annotations

import pytest

from schedules.misreadings import Flaw, flaw_of

USUAL = {"expected_c": -5.8, "near_c": [-1.0, 2.0], "by_day_c": 6.0, "within_c": 0.8}


@pytest.mark.parametrize(
    ("reading", "flaw"),
    [
        (21.5, Flaw.UNIT),  # 21.5 °F
        (-21.0, Flaw.UNIT),  # −5.8 °C, in a garden that types °F
        (6.0, Flaw.SIGN),
        (-29.8, Flaw.SIGN),  # −21.6 °F, which were 21.6
        (11.0, Flaw.BY_DAY),
        (-58.5, Flaw.POINT),
        (2.3, Flaw.BY_DAY),
        (-1.4, Flaw.OTHER_NIGHT),
        (-14.0, Flaw.FAR_OFF),
    ],
)
def test_slips_by_what_they_leave(reading: float, flaw: Flaw) -> None:
    if flaw is Flaw.SIGN and reading > 0:
        assert flaw_of(reading, **USUAL | {"by_day_c": 20.0}) is flaw
    assert flaw_of(reading, **USUAL) is flaw
