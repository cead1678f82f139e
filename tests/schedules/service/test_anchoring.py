"""What a kept log does to page, paper, feed and week, and that taking it back undoes all of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from uuid import uuid4

import pytest
from icalendar import Calendar

from crops.models import Planting
from schedules.entries import Entry
from schedules.feeds import feed_calendar
from schedules.jobs import done_in_week, jobs_in_week
from schedules.models import WorkLog
from schedules.service import GardenDates, make_feed, plot_season
from schedules.service.logs import change_log, keep_logs, remove_log, restore_log
from schedules.service.sheet import calendar_rows
from schedules.service.water import plot_water
from schedules.windows import Done, Operation
from tests.conftest import Cast
from tests.factories import PlotFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

MONDAY = date(2026, 5, 18)
LONG_AGO = datetime.fromisoformat("2026-01-01T00:00Z")


@pytest.fixture
def garden(cast: Cast, time_machine) -> Cast:
    time_machine.move_to("2026-05-20T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return cast


def logged(cast: Cast, planting: Planting | None, work: str, day: date, **more: object) -> WorkLog:
    """A log of a planting; without one of the whole plot A1."""
    told = {"work": work, "day": day, "planting": planting, "person": cast.holder, "by": cast.holder}
    plot = planting.plot if planting else cast.plot
    return keep_logs(garden=cast.garden, plots=[plot], key=uuid4(), **told, **more).rows[0]


def rows(cast: Cast) -> list[Entry]:
    """The calendar as it would be asked for now, whenever it was changed."""
    found = GardenDates.of(cast.garden).entries([cast.plot], (2026,))
    return [replace(row, changed_at=LONG_AGO) for row in found]


def test_a_log_moves_every_date_and_taking_it_back_puts_all_of_them_back(garden: Cast) -> None:
    planting = planted(garden.plot, carrot(), successions=2)
    planted(garden.plot, tomato())
    before = rows(garden)
    log = logged(garden, planting, "sow", date(2026, 5, 19), succession=1)
    after = rows(garden)
    own = {(row.operation, row.succession): row for row in after if row.planting == planting.pk}
    assert own[Operation.SOW, 1].done_on == date(2026, 5, 19)
    assert own[Operation.HARVEST, 1].earliest == date(2026, 7, 18)
    assert [row for row in after if row.planting != planting.pk] == [
        row for row in before if row.planting != planting.pk
    ]
    assert [entry.operation for entry in done_in_week(after, MONDAY)] == [Operation.SOW]
    sowings = [
        task.entry.succession
        for job in jobs_in_week(after, MONDAY)
        if job.operation is Operation.SOW
        for task in job.tasks
    ]
    assert 1 not in sowings
    remove_log(log=log, by=garden.coordinator)
    assert rows(garden) == before
    restore_log(log=log, by=garden.coordinator)
    assert rows(garden) == after


def test_a_picking_asks_again_the_week_after_and_clearing_ends_it(garden: Cast) -> None:
    planting = planted(garden.plot, carrot())
    logged(garden, planting, "sow", date(2026, 3, 10))
    logged(garden, planting, "harvest", date(2026, 5, 19))

    def picking(monday: date) -> bool:
        return any(job.operation is Operation.HARVEST for job in jobs_in_week(rows(garden), monday))

    assert not picking(MONDAY)
    assert picking(date(2026, 5, 25))
    logged(garden, planting, "clear", date(2026, 5, 20))
    assert not picking(date(2026, 5, 25))
    (harvest,) = (row for row in rows(garden) if row.operation is Operation.HARVEST)
    assert harvest.done_on == date(2026, 5, 19)


def test_seedlings_instead_of_seed_are_told_of_as_seedlings(garden: Cast) -> None:
    either = carrot(method="either", transplant_weeks_early=0.0, transplant_weeks_late=4.0)
    planting = planted(garden.plot, either)
    logged(garden, planting, "transplant", date(2026, 5, 19))
    dated = GardenDates.of(garden.garden).planting(planting)
    assert {row.operation for row in dated.entries} == {Operation.TRANSPLANT, Operation.HARVEST}
    assert dated.way.key == "spring-transplant"


def test_paper_and_phone_show_what_is_done_on_its_day(garden: Cast) -> None:
    planting = planted(garden.plot, tomato(), changed_at=LONG_AGO)
    feed = make_feed(user=garden.holder, garden=garden.garden)

    def event(uid: str) -> dict:
        entries = GardenDates.of(garden.garden).entries([garden.plot], (2026,))
        calendar = Calendar.from_ical(feed_calendar(feed.garden, entries, dates_changed_at=LONG_AGO))
        return next(one for one in calendar.walk("VEVENT") if str(one["uid"]).startswith(uid))

    uid = f"planting-{planting.pk}-transplant-1@"
    planned = event(uid)
    log = logged(garden, planting, "transplant", date(2026, 5, 18))
    done = event(uid)
    assert done.start == date(2026, 5, 18) != planned.start
    assert str(done["summary"]) == "Transplant: Tomato, done"
    assert str(done["description"]).startswith("It was transplanted on May 18, as logged; planned was ")
    assert (planned["last-modified"].dt, done["last-modified"].dt) == (LONG_AGO, log.changed_at)
    paper = calendar_rows(plot_season(garden.plot, 2026, date(2026, 5, 20)).calendar, "us")
    assert [(row.operation, row.done) for row in paper] == [("transplant", True), ("harvest", False)]
    remove_log(log=log, by=garden.holder)
    undone = event(uid)
    assert (undone.start, undone["last-modified"].dt) == (planned.start, log.changed_at)


@pytest.mark.parametrize("count", [1, 3])
def test_logs_cost_no_query_each(garden: Cast, count: int, django_assert_num_queries) -> None:
    planting = planted(garden.plot, carrot(), successions=3)
    for number in range(1, count + 1):
        logged(garden, planting, "sow", date(2026, 5, 10 + number), succession=number)
    dates = GardenDates.of(garden.garden)
    with django_assert_num_queries(6):
        dates.entries([garden.plot], (2026,))


def told(cast: Cast, planting: Planting) -> dict[str, str]:
    """One planting's rows with their dates, those that are done marked, as the page has them now."""
    return {
        f"{row.operation.value} {row.succession}": f"{row.earliest:%m-%d} to {row.latest:%m-%d}"
        + (", done" if row.done else "")
        for row in GardenDates.of(cast.garden).planting(planting).entries
    }


def test_clearing_the_whole_plot_ends_what_grows_there_and_leaves_what_is_to_come(garden: Cast) -> None:
    """Sown and logged, due long ago and not logged, and to be begun after it; the neighbour keeps all."""
    sown = planted(garden.plot, carrot(), successions=2)
    due = planted(garden.plot, carrot(slug="pea", name="Pea", sow_weeks_early=-9.0, sow_weeks_late=-4.0))
    to_come = planted(garden.plot, tomato())
    beside = planted(PlotFactory(garden=garden.garden, label="A2"), sown.crop)
    logged(garden, sown, "sow", date(2026, 4, 20), succession=1)
    everything = [sown, due, to_come, beside]
    before, water = [told(garden, one) for one in everything], grown(garden)
    assert water == ["Carrot", "Pea"]
    log = logged(garden, None, "clear", date(2026, 5, 19))
    after = [told(garden, one) for one in everything]
    assert after == [
        {
            "sow 1": "04-20 to 04-20, done",
            "sow 2": "05-19 to 05-30",  # before, from May 11 on
            "harvest 2": "07-18 to 09-15",
        },
        {},
        before[2],
        before[3],
    ]
    assert grown(garden) == []
    jobs = [task.entry.planting for job in jobs_in_week(rows(garden), MONDAY) for task in job.tasks]
    assert due.pk not in jobs
    assert to_come.pk in jobs
    remove_log(log=log, by=garden.coordinator)
    assert ([told(garden, one) for one in everything], grown(garden)) == (before, water)
    restore_log(log=log, by=garden.coordinator)
    assert ([told(garden, one) for one in everything], grown(garden)) == (after, [])
    logged(garden, sown, "sow", date(2026, 5, 20), succession=2)
    assert grown(garden) == ["Carrot"]


def grown(cast: Cast) -> list[str]:
    water = plot_water(cast.plot, today=date(2026, 5, 20))
    return [one.name for one in water.growing]


def test_without_frost_dates_clearing_the_whole_plot_ends_what_was_logged(cast: Cast, time_machine) -> None:
    time_machine.move_to("2026-05-20T18:00Z", tick=False)
    planting = planted(cast.plot, carrot())
    planted(cast.plot, tomato())
    logged(cast, planting, "sow", date(2026, 4, 20))
    assert grown(cast) == ["Carrot"]
    log = logged(cast, None, "clear", date(2026, 5, 19))
    assert grown(cast) == []
    remove_log(log=log, by=cast.holder)
    assert grown(cast) == ["Carrot"]


def test_a_log_that_is_changed_tells_what_it_would_had_it_been_kept_so(garden: Cast, time_machine) -> None:
    """Moved to another planting, to another day, made a clearing of the plot, taken back and put back."""
    carrots, beets = (planted(garden.plot, crop) for crop in (carrot(), carrot(slug="beet", name="Beet")))
    untouched = rows(garden)
    log = logged(garden, carrots, "sow", date(2026, 5, 4))
    steps: list[tuple[dict[str, object], list[Planting]]] = [
        ({"planting": beets}, [carrots, beets]),
        ({"day": date(2026, 5, 11)}, [beets]),
        ({"work": "clear", "planting": None}, [carrots, beets]),
        ({"work": "note", "note": "Slugs"}, [carrots, beets]),
        ({"work": "sow", "planting": carrots}, [carrots]),
    ]
    for minute, (changes, renewed) in enumerate(steps, start=1):
        time_machine.move_to(f"2026-05-20T18:{minute:02}Z", tick=False)
        log = change_log(log=log, by=garden.holder, **changes)
        found = GardenDates.of(garden.garden).entries([garden.plot], (2026,))
        assert {row.planting for row in found if row.changed_at == log.changed_at} == {
            planting.pk for planting in renewed
        }
        changed = rows(garden)
        remove_log(log=log, by=garden.holder)
        assert rows(garden) == untouched
        fresh = logged(garden, log.planting, log.work, log.day, note=log.note)
        assert without_logs(rows(garden)) == without_logs(changed)
        WorkLog.objects.filter(pk=fresh.pk).delete()
        restore_log(log=log, by=garden.holder)
        assert rows(garden) == changed


def without_logs(found: list[Entry]) -> list[Entry]:
    """The rows, whichever log tells of them."""
    return [replace(row, done=row.done and Done(row.done.day, 0)) for row in found]
