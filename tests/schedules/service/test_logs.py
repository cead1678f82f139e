"""A log is kept once, refused in words, and taken back with all that it did."""

from datetime import date
from uuid import UUID, uuid5

import pytest
from django.core.exceptions import ValidationError

from plots.models import Change, HoursDone
from schedules.models import HoseFlow, WorkLog
from schedules.scouting import Used
from schedules.service.logs import change_log, keep_logs, remove_log, restore_log
from tests.factories import PlantingFactory, PlotFactory

KEY = UUID("6a2f3b1c-0000-4000-8000-000000000001")
DAY = date(2024, 6, 3)


@pytest.fixture(autouse=True)
def today(time_machine):
    time_machine.move_to("2024-06-05T18:00+00:00", tick=False)


def keep(cast, key=KEY, **told):
    values = {"work": "water", "plots": [cast.plot], "day": DAY, "person": cast.holder, "by": cast.holder}
    return keep_logs(garden=cast.garden, key=key, **{**values, **told})


def faults(cast, **told):
    with pytest.raises(ValidationError) as refused:
        keep(cast, **told)
    return refused.value.message_dict


def test_a_log_that_comes_twice_is_kept_once(cast):
    hose = HoseFlow.objects.create(
        garden=cast.garden, name="North tap", litres=10, seconds=40, measured_on=DAY
    )
    first = keep(cast, amount=10, unit="min", hose=hose)
    again = keep(cast, amount=99, unit="min")
    assert (first.is_new, again.is_new) == (True, False)
    assert [row.pk for row in first.rows] == [row.pk for row in again.rows]
    row = WorkLog.objects.get()
    assert (row.key, row.sent, row.litres, row.amount) == (KEY, KEY, 150.0, 10.0)


def test_several_plots_each_have_their_own(cast):
    beds = [cast.plot, PlotFactory(garden=cast.garden, label="Z1", kind="communal")]
    kept = keep(cast, plots=beds)
    assert [row.key for row in kept.rows] == [uuid5(KEY, str(bed.pk)) for bed in beds]
    assert {row.sent for row in kept.rows} == {KEY}
    assert len(keep(cast, plots=beds).rows) == 2 == WorkLog.objects.count()
