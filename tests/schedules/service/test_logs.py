"""A log is kept once, refused in words, and taken back with all that it did."""

from datetime import date
from uuid import UUID, uuid4, uuid5

import pytest
from django.core.exceptions import ValidationError
from django.db import connection
from django.test.utils import CaptureQueriesContext

from plots.access import plots_to_log
from plots.models import Change, HoursDone, StandIn
from plots.service import ask_stand_in, end_stand_in, remove_hours
from schedules.models import HoseFlow, WorkLog
from schedules.scouting import Used
from schedules.service.logs import change_log, keep_logs, remove_log, restore_log
from tests.cast import make_cast
from tests.concurrency import at_once
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


def test_what_is_refused_is_said_by_field_once_for_all_plots_or_by_plot(cast):
    bed = PlotFactory(garden=cast.garden, label="Z1", kind="communal")
    nothing = PlotFactory(garden=cast.garden, label="Z2", kind="communal", width_m=None, length_m=None)
    assert faults(cast, plots=[cast.plot, bed], day=date(2024, 6, 6)) == {
        "day": ["This day is still to come: today is June 5, 2024 at the garden."]
    }
    assert faults(cast, plots=[bed, nothing], amount=1, unit="in") == {
        "amount": [
            "Plot Z2: The size of this plot is not known, so a depth says no amount:"
            " give litres, gallons or cans."
        ]
    }
    assert faults(cast, plots=[]) == {"plot": ["At which plot?"]}
    planting = PlantingFactory(plot=cast.plot)
    assert list(faults(cast, work="harvest", plots=[bed], planting=planting)) == ["planting"]
    assert not WorkLog.objects.exists()


def test_a_product_used_holds_back_picking_until_its_label_says(cast):
    planting = PlantingFactory(plot=cast.plot)
    keep(
        cast,
        key=uuid4(),
        work="treat",
        planting=planting,
        used=Used("Alder Soap", 5, ""),
        day=date(2024, 6, 1),
    )
    held = faults(cast, work="harvest", planting=planting, day=date(2024, 6, 5))
    assert held["day"][0].startswith("Not before June 6: “Alder Soap” was used on June 1")
    elsewhere = PlantingFactory(plot=cast.plot)
    assert keep(cast, work="harvest", planting=elsewhere, day=date(2024, 6, 5)).is_new


def test_nothing_is_picked_after_clearing_until_that_is_taken_back(cast):
    planting = PlantingFactory(plot=cast.plot)
    clear = keep(cast, key=uuid4(), work="clear", planting=planting, day=date(2024, 6, 1)).rows[0]
    told = {"work": "harvest", "planting": planting, "day": date(2024, 6, 2), "amount": 2, "unit": "lb"}
    assert faults(cast, **told) == {"day": ["This planting was cleared on June 1, 2024."]}
    remove_log(log=clear, by=cast.holder)
    picked = keep(cast, **told).rows[0]
    assert picked.grams == 907.18474
    with pytest.raises(ValidationError) as refused:
        restore_log(log=clear, by=cast.holder)
    assert refused.value.messages == ["On June 2, 2024 it was still “picked”, so it was not cleared before."]


def test_clearing_the_whole_plot_ends_what_stood_there(cast):
    stood, later = PlantingFactory(plot=cast.plot), PlantingFactory(plot=cast.plot)
    keep(cast, key=uuid4(), work="sow", planting=stood, day=date(2024, 5, 1))
    keep(cast, key=uuid4(), work="clear", day=date(2024, 6, 1))
    assert list(faults(cast, work="harvest", planting=stood)) == ["day"]
    assert keep(cast, work="sow", planting=later).is_new


def test_a_crop_named_for_several_plots_is_each_plots_planting_of_it(cast):
    beds = [cast.plot, *(PlotFactory(garden=cast.garden, label=f"Z{number}") for number in range(3))]
    one, crop = PlantingFactory(plot=beds[0]), PlantingFactory(plot=beds[1]).crop
    PlantingFactory(plot=beds[0], crop=crop)
    twice = [PlantingFactory(plot=beds[2], crop=crop) for _time in range(2)]
    told = {"plots": beds, "crop": crop, "by": cast.coordinator, "person": cast.coordinator}
    kept = keep(cast, work="thin", **told)
    assert [row.planting and row.planting.crop for row in kept.rows] == [crop, crop, None, None]
    assert [row.crop for row in kept.rows] == [None, None, crop, crop]
    assert one.logs.count() + sum(planting.logs.count() for planting in twice) == 0
    assert kept.same_as(work="thin", plots=beds, planting=None, crop=crop, amount=None, unit="", hose=None)
    keep(cast, key=uuid4(), work="clear", **told)
    told |= {"plots": beds[1:2], "crop": None, "planting": kept.rows[1].planting}
    late = faults(cast, key=uuid4(), work="thin", **{**told, "day": date(2024, 6, 4)})
    assert list(late) == ["day"]


def test_a_hose_measured_again_changes_nothing_that_was_poured(cast):
    slow = HoseFlow.objects.create(garden=cast.garden, name="Tap", litres=10, seconds=60, measured_on=DAY)
    log = keep(cast, amount=10, unit="min", hose=slow).rows[0]
    HoseFlow.objects.filter(pk=slow.pk).update(litres=20)
    assert change_log(log=log, by=cast.holder, note="Dry").litres == 100.0
    assert change_log(log=log, by=cast.holder, amount=11.0).litres == 220.0
    assert [change.what for change in Change.objects.all()] == ["log-changed", "log-changed"]
    assert change_log(log=log, by=cast.holder, work="weed", amount=None).unit == ""


def test_hours_struck_off_the_list_stay_off_when_their_log_comes_back(cast):
    log = keep(cast, work="hours", plots=[], minutes=90).rows[0]
    remove_log(log=log, by=cast.holder)
    restore_log(log=log, by=cast.holder)
    assert HoursDone.objects.get().removed_at is None
    remove_hours(hours=HoursDone.objects.get(), by=cast.coordinator)
    remove_log(log=log, by=cast.holder)
    restore_log(log=log, by=cast.holder)
    assert HoursDone.objects.get().removed_by == cast.coordinator


def test_many_plots_take_as_many_queries_as_two(cast, django_assert_max_num_queries):
    beds = [PlotFactory(garden=cast.garden, kind="communal") for _n in range(12)]
    with CaptureQueriesContext(connection) as two:
        keep(cast, plots=beds[:2], key=uuid4(), amount=2, unit="cans")
    with django_assert_max_num_queries(len(two)):
        keep(cast, plots=beds[2:], key=uuid4(), amount=2, unit="cans")


def test_a_log_that_comes_through_two_doors_at_once_is_kept_once(many_connections):
    cast = make_cast()
    kept = at_once(lambda _: keep(cast, work="hours", plots=[], minutes=60), [1, 2, 3])
    assert sorted(one.is_new for one in kept) == [False, False, True]
    assert (WorkLog.objects.count(), HoursDone.objects.count()) == (1, 1)


def test_a_log_is_not_refused_for_having_just_come_itself(many_connections):
    """What was cleared cannot be cleared again, but the second copy of a log is no second clearing."""
    cast = make_cast()
    planting = PlantingFactory(plot=cast.plot, year=2024)
    kept = at_once(lambda _: keep(cast, work="clear", planting=planting), [1, 2, 3])
    assert sorted(one.is_new for one in kept) == [False, False, True]


def test_a_neighbour_who_was_asked_logs_within_their_days(cast):
    ask_stand_in(
        assignment=cast.assignment, person=cast.member, first_day=date(2024, 6, 2),
        last_day=date(2024, 6, 4), on=date(2024, 6, 2), by=cast.holder,
    )  # fmt: skip
    own = {"person": cast.member, "by": cast.member}
    assert cast.plot not in plots_to_log(cast.member, cast.garden)
    assert cast.plot in plots_to_log(cast.member, cast.garden, late=True)
    assert keep(cast, day=date(2024, 6, 4), **own).is_new
    after = faults(cast, key=uuid4(), day=date(2024, 6, 5), **own)
    assert after == {"day": ["You gardened this plot until June 4, 2024: this was after."]}
    end_stand_in(stand_in=StandIn.objects.get(), by=cast.holder)
    assert cast.plot not in plots_to_log(cast.member, cast.garden, late=True)
