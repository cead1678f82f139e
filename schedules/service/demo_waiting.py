"""The demonstration's waiting list: invented people, with and without email, and one offer on its way."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from django.utils import timezone

from plots.models import Garden, ListPriority, PlotChoice, Season, ToldHow, User, WaitingEntry
from plots.month_days import in_year
from plots.queries import stands, waiting_list
from plots.service import decline_offer, join_list, keep_choice, make_offer, tell_offer


class Waits(NamedTuple):
    """Somebody who waits, since so many days."""

    name: str
    days: int
    phone: str = ""
    email: str = ""
    address: str = ""
    near: bool = False
    accessible: bool = False
    choices: tuple[str, ...] = ()
    note: str = ""


PEOPLE = [
    Waits("Wren Halloran", 611, phone="555 0142", near=True),
    Waits("Amadou Sy", 540, email="amadou@example.org", choices=("ground plot",)),
    Waits("Nguyễn Thị Mai", 498, phone="555 0177", note="Call after six; speaks Vietnamese."),
    Waits("Dorothea Finch", 402, address="14 Cooper Row, Alder Crossing", accessible=True),
    Waits("Ruy Cantero", 365, email="ruy@example.org", phone="555 0119", choices=("raised bed",)),
    Waits("Salome Iyamu", 220, email="salome@example.org", near=True, choices=("raised bed",)),
    Waits("Петро Лисенко", 131, phone="555 0163"),
    Waits("Ingrid Thorsen", 64, email="ingrid@example.org", accessible=True),
    Waits("Bo Larkin", 12, phone="555 0158", near=True),
]


def let_people_wait(garden: Garden, people: list[User], today: date) -> None:
    """Rules of this garden, who waits, a declined offer and an open one."""
    coordinator = people[0]
    rules = garden.rules
    rules.sign_up_open, rules.priority_1 = True, ListPriority.NEAR
    rules.near_question = "Do you live within two blocks of the garden?"
    rules.save()
    choices = _choices(garden, coordinator)
    for waits in PEOPLE:
        _join(garden, waits, choices, coordinator, today)
    _asked_last_winter(garden, today)
    season = garden.seasons.filter(starts_on__lte=today, ends_on__gte=today).first()
    if season is not None:
        _offer(garden, season, coordinator, today, decline=True)
        _offer(garden, season, coordinator, today)


def _asked_last_winter(garden: Garden, today: date) -> None:
    asked = in_year(rules_day := garden.rules.interest_day, today.year)
    if asked is None or asked > today:
        asked = in_year(rules_day, today.year - 1)
    if asked is not None:
        last = asked + timedelta(days=garden.rules.interest_days)
        closed = {"closed_on": last} if last < today else {}
        garden.interest_rounds.create(asked_on=asked, answer_by=last, **closed)


def _choices(garden: Garden, by: User) -> dict[str, PlotChoice]:
    covers = {"ground plot": "A", "raised bed": "B"}
    return {
        name: keep_choice(
            choice=PlotChoice(garden=garden, name=name),
            plots=garden.plots.filter(label__startswith=row),
            by=by,
        )
        for name, row in covers.items()
    }


def _join(garden: Garden, waits: Waits, choices: dict[str, PlotChoice], by: User, today: date) -> None:
    day = today - timedelta(days=waits.days)
    joined = datetime.combine(day, time(10, 20), tzinfo=garden.zone)
    entry = WaitingEntry(
        garden=garden,
        name=waits.name,
        phone=waits.phone,
        email=waits.email,
        address=waits.address,
        near=waits.near,
        needs_accessible=waits.accessible,
        note=waits.note,
        joined_at=joined,
        placed_at=joined,
    )
    join_list(entry=entry, choices=[choices[name] for name in waits.choices], by=by)


def _offer(garden: Garden, season: Season, by: User, today: date, *, decline: bool = False) -> None:
    """Offers the first plot that somebody is next for, from today on."""
    found = stands(waiting_list(garden), season)
    stand = next((one for one in found if one.next_row is not None), None)
    if stand is None or stand.next_row is None:
        return
    offer = make_offer(
        entry=stand.next_row.entry,
        plot=stand.plot,
        season=season,
        begins_on=today,
        ends_at=timezone.now() + timedelta(hours=garden.rules.offer_hours),
        by=by,
    )
    way = ToldHow.EMAIL if offer.entry.email else ToldHow.PHONE if offer.entry.phone else ToldHow.POST
    tell_offer(offer=offer, how=way, by=by)
    if decline:
        decline_offer(offer=offer, by=by)
