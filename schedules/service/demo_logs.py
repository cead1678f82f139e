"""The demonstration's logs: what its people did before the day it is made, and how they measure."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from uuid import uuid4

from crops.models import Crop, Planting
from plots.models import Assignment, Garden, Units, User
from plots.service import ask_stand_in
from schedules.amounts import GRAMS
from schedules.entries import Entry
from schedules.models import HoseFlow
from schedules.service.calendar import GardenDates, years_around
from schedules.service.logs import keep_logs
from schedules.service.measures import measure_bunch, measure_hose
from schedules.windows import Operation
from schedules.work import Work

PLOTS = 4  # that are logged week by week; the others by a word now and then
WEEKS = 10
PICKED_GRAMS = (450, 700, 1200, 900, 350)  # invented
RIPE_LATER = (8, -4, 12, 3, -7)  # days; invented
BEFORE_PICKING = (Operation.START_INDOORS, Operation.SOW, Operation.TRANSPLANT, Operation.THIN)


def log_work(garden: Garden, people: list[User], today: date) -> None:
    """Measures, then what was done; `people` begin with the coordinator."""
    hose = _measure(garden, people[0], today)
    held = list(
        Assignment.objects.on(today)
        .filter(plot__garden=garden)
        .select_related("plot", "holder")
        .order_by("plot__label")
    )
    for number, assignment in enumerate(held):
        if number < PLOTS:
            _season(assignment, today)
            _waterings(assignment, hose, today, number)
        elif number < 2 * PLOTS:
            _did(assignment, Work.WEED, today - timedelta(days=9 * number - 20))
    _beside(garden, held, people, today)


def _measure(garden: Garden, by: User, today: date) -> HoseFlow:
    """A bucket at the tap, and bunches on a scale."""
    day = today - timedelta(days=80)
    radish = Crop.objects.get(garden=None, slug="radish")
    measure_bunch(garden=garden, by=by, crop=radish, bunches=6, grams=1320.0, measured_on=day)
    return measure_hose(garden=garden, by=by, name="North tap", litres=10.0, seconds=38.0, measured_on=day)


def _did(assignment: Assignment, work: str, day: date, **told: object) -> None:
    """One log of the holder; nothing for a day on which they did not hold the plot yet."""
    if day < assignment.began_on:
        return
    who = {"person": assignment.holder, "by": assignment.holder, "key": uuid4()}
    garden, plots = assignment.plot.garden, [assignment.plot]
    keep_logs(garden=garden, work=work, plots=plots, day=day, **who, **told)  # type: ignore[arg-type]


def _season(assignment: Assignment, today: date) -> None:
    """What the plan asked for until last week, done on its best days; then some pickings."""
    plot = assignment.plot
    plantings = {one.pk: one for one in Planting.objects.filter(plot=plot, removed_at=None)}
    dates = GardenDates.of(plot.garden)
    rows = [] if dates is None else dates.entries([plot], years_around(today))
    last = today - timedelta(days=7)
    unit = "lb" if plot.garden.units == Units.US else "kg"
    for number, row in enumerate(rows):
        planting = plantings[row.planting]
        sowing = {"planting": planting, "succession": row.succession if row.successions > 1 else None}
        if row.operation in BEFORE_PICKING and assignment.began_on <= row.best <= last:
            _did(assignment, row.operation, row.best, **sowing)
        elif row.operation is Operation.HARVEST:
            for day in _pickings(row, assignment.began_on, last, RIPE_LATER[number % len(RIPE_LATER)]):
                grams = PICKED_GRAMS[(number + day.day) % len(PICKED_GRAMS)]
                gift = {"given_away": True, "given_to": "the food pantry"} if day.day % 3 == 0 else {}
                weight = {"amount": round(grams / GRAMS[unit], 1), "unit": unit}
                _did(assignment, Work.PICK, day, **weight, **sowing, **gift)
            if row.latest < last:
                _did(assignment, Work.CLEAR, row.latest + timedelta(days=1), **sowing)


def _pickings(row: Entry, first: date, last: date, later: int) -> Iterator[date]:
    """Every tenth day of a harvest that began so many days `later` than expected, three times at most."""
    for step in range(3):
        day = max(row.best + timedelta(days=10 * step + later), row.earliest)
        if first <= day <= min(last, row.latest):
            yield day


def _waterings(assignment: Assignment, hose: HoseFlow, today: date, number: int) -> None:
    for week in range(WEEKS):
        day = today - timedelta(days=7 * week + 2 + number)
        _did(assignment, Work.WATER, day, amount=10.0 + 2 * (week % 3), unit="min", hose=hose)


def _beside(garden: Garden, held: list[Assignment], people: list[User], today: date) -> None:
    """A note, mulch, hours for the garden, and a neighbour who looks after a plot."""
    first, second = held[0], held[1]
    _did(first, Work.NOTE, today - timedelta(days=3), note="The latch of the gate sticks: it wants oil.")
    _did(first, Work.MULCH, today - timedelta(days=21), note="Two barrows of straw")
    _did(second, Work.HOURS, today - timedelta(days=6), minutes=90, note="Turned the compost")
    ask_stand_in(
        assignment=second, person=first.holder, first_day=today - timedelta(days=1),
        last_day=today + timedelta(days=9), note="Water on dry days, please.", on=today, by=second.holder,
    )  # fmt: skip
