"""The demonstration's workdays, hours and dates, around the day it is made."""

from __future__ import annotations

from datetime import date, time, timedelta

from plots import service
from plots.models import DateKind, Garden, GardenDate, Held, User, Workday, WorkTask
from plots.sign_in_sheet import Came

NORTH = {"opens": "04-01", "water_on": "04-15", "water_off": "10-15", "clear_by": "10-31", "closes": "11-15"}
SOUTH = {"opens": "09-01", "water_on": "09-15", "water_off": "05-15", "clear_by": "05-31", "closes": "06-15"}


def add_work(garden: Garden, people: list[User], today: date) -> None:
    """Two workdays that are over, two to come, make-up jobs, hours by hand and dates of this year."""
    by = people[0]
    type(garden.rules).objects.filter(garden=garden).update(**(NORTH if garden.latitude > 0 else SOUTH))
    garden.rules.refresh_from_db()
    _past(garden, people, today, by)
    _coming(garden, people, today, by)
    _make_up(garden, people, today, by)
    _dates(garden, today, by)


def _workday(
    garden: Garden, name: str, day: date, tasks: list[tuple[str, str, int | None]], by: User
) -> Workday:
    workday = Workday(
        garden=garden, name=name, day=day, rain_day=day + timedelta(days=7),
        starts_at=time(9), ends_at=time(12), place="the shed",
        note="Bring gloves and something to drink. Tools are there.",
    )  # fmt: skip
    made = [WorkTask(name=task, place=place, places=places) for task, place, places in tasks]
    return service.keep_workday(workday=workday, tasks=made, by=by)


def _saturday(day: date) -> date:
    return day + timedelta(days=(5 - day.weekday()) % 7)


def _past(garden: Garden, people: list[User], today: date, by: User) -> None:
    """Typed in from their sheets, so there are hours wherever the demonstration falls in the year."""
    for weeks, name in ((3, "Paths and edges"), (8, "Compost and tools")):
        day = max(_saturday(today - timedelta(weeks=weeks)), date(today.year, 1, 1))
        if day >= today:
            continue
        workday = _workday(
            garden, name, day, [("Barrow wood chips", "main path", 6), ("Sharpen tools", "shed", 2)], by
        )
        came = people[1 : len(people) : 2 if weeks == 3 else 3]
        minutes: dict[int, int | None] = {person.pk: 150 + 30 * (n % 3) for n, person in enumerate(came)}
        service.type_sheet(workday=workday, minutes=minutes, others=[Came(1, None, "Pat Ashby", 120)], by=by)


def _coming(garden: Garden, people: list[User], today: date, by: User) -> None:
    soon = _saturday(today + timedelta(days=8))
    workday = _workday(
        garden, "Beds and benches", soon,
        [("Mend the raised beds", "bed B3", 3), ("Paint benches", "", 4), ("Whatever else", "", None)],
        by,
    )  # fmt: skip
    first, second, rest = workday.tasks.order_by("pk")
    for task, person in [(first, 1), (first, 2), (second, 3), (rest, 4)]:
        if person < len(people):
            service.sign_up(task=task, person=people[person], by=people[person], today=today)
    off = _workday(
        garden, "Hedge and gate", soon + timedelta(weeks=5), [("Cut the hedge", "street side", 5)], by
    )
    if len(people) < 6:  # the smaller garden has lost one to the weather
        service.hold_workday(workday=off, held=Held.RAIN, by=by, why="Storm warning")


def _make_up(garden: Garden, people: list[User], today: date, by: User) -> None:
    jobs = [("Wash pots and trays", "shed", 60, 2), ("Water the young trees for a week", "gate", 120, 1)]
    made = [
        service.keep_make_up_job(
            job=WorkTask(
                garden=garden, name=name, place=place, minutes=minutes, places=places,
                due_on=today + timedelta(weeks=6),
            ),
            by=by,
        )
        for name, place, minutes, places in jobs
    ]  # fmt: skip
    service.sign_up(task=made[0], person=people[1], by=people[1], today=today)
    service.add_hours(
        garden=garden, person=people[2], day=max(today - timedelta(days=4), date(today.year, 1, 1)),
        minutes=90, what="Fetched straw, counted as work", by=by,
    )  # fmt: skip


def _dates(garden: Garden, today: date, by: User) -> None:
    rows = [
        (DateKind.MEETING, "Members' meeting", _saturday(date(today.year, 2, 10)), time(14), "the library"),
        (DateKind.OTHER, "Seed swap", _saturday(date(today.year, 3, 14)), time(10), "the shed"),
        (DateKind.DEADLINE, "Soil samples to the shed by today", date(today.year, 9, 30), None, ""),
        (DateKind.MEETING, "Harvest supper", _saturday(date(today.year, 9, 12)), time(17), "the long table"),
    ]
    for kind, title, day, starts_at, place in rows:
        row = GardenDate(garden=garden, kind=kind, title=title, day=day, starts_at=starts_at, place=place)
        service.keep_date(row=row, by=by)
