"""What tests of the print table begin with."""

from __future__ import annotations

import pytest
from django.test import Client

from tests.cast import Cast
from tests.schedules.samples import set_mean_frost


@pytest.fixture
def run(cast: Cast, as_user, time_machine) -> Client:
    """The coordinator, on a Wednesday in April 2026, in a garden with mean frost dates."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return as_user(cast.coordinator)
