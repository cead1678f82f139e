"""The demonstration's workshops: two that are over, one of them not counted, and two to come."""

from __future__ import annotations

from datetime import date, time, timedelta

from crops.models import Crop, Workshop
from plots.models import Garden, User
from schedules.service.workshops import choose_pack, keep_workshop, write_attendance

_SPRING = ("tomato", "pea-snap", "lettuce-leaf", "carrot", "bean-bush", "kale", "squash-summer", "onion-sets")


def hold_workshops(garden: Garden, people: list[User], today: date) -> None:
    """Around today, wherever in the year the demonstration falls."""
    by = people[0]
    first = _planned(
        garden, by, "Starting seed at the window", today - timedelta(weeks=11), "The library", 18
    )
    _pack(first, by, ["seed-or-seedling", "hardening-off", "by-month"])
    write_attendance(workshop=first, attended=14, by=by)
    over = _planned(garden, by, "Reading your soil test", today - timedelta(weeks=4), "The shed", 12)
    _pack(over, by, ["soil", "feeding", "compost"])
    soon = _planned(garden, by, "When do I plant this here?", today + timedelta(weeks=2), "The library", 20)
    soon.note = "Bring the frost dates of your own place if you garden elsewhere."
    soon.names = "Pat Ashby\nRosalie Ombre\nHứa Minh Châu"
    keep_workshop(workshop=soon, by=by)
    _pack(soon, by, ["by-crop", "by-month", "frost-risk", "sowing-depth", "thinning", "harvest-and-washing"])
    _planned(garden, by, "Autumn crops", today + timedelta(weeks=9), "", None)


def _planned(garden: Garden, by: User, title: str, day: date, place: str, expected: int | None) -> Workshop:
    """On a Saturday morning."""
    saturday = day + timedelta(days=(5 - day.weekday()) % 7)
    workshop = Workshop(
        garden=garden, title=title, on=saturday, starts_at=time(10), ends_at=time(11, 30),
        place=place, expected=expected,
    )  # fmt: skip
    return keep_workshop(workshop=workshop, by=by)


def _pack(workshop: Workshop, by: User, topics: list[str]) -> None:
    crops = Crop.objects.filter(garden=None, slug__in=_SPRING)
    choose_pack(workshop=workshop, topics=topics, crops=crops, title_page=True, by=by)
