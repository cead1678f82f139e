"""The demonstration's people: how they are reached and by whom, who does what, where things are."""

from __future__ import annotations

from datetime import date, timedelta

from plots import service
from plots.models import Duty, Garden, Membership, Role, User, Whereabout

# Numbers of the range kept for stories.
PHONES = {
    "marisol": "308-555-0110",
    "ha": "308-555-0117",
    "vasiliki": "308-555-0123",
    "juergen": "308-555-0139",
    "ife": "308-555-0142",
    "tom": "308-555-0156",
}
SHARED = {"ha": ("phone", "email"), "vasiliki": ("phone",), "tom": ("phone",)}
HOUSEHOLDS = {"Beckwith & Ombre": ("tom", "rosalie")}
EMERGENCY = {"ha": ("Đặng Văn Lộc", "308-555-0171"), "tom": ("Rosalie Ombre", "308-555-0188")}
ASKED = "zaneta"
DUTIES = [
    ("Water and taps", "juergen", "tom", "Opens and drains the taps, reads the meter. 2 hours a month."),
    ("Waiting list", "marisol", "ha", "Offers plots, answers who asks. 2 hours a month, more in April."),
    ("Tool shed", "tom", None, "Counts the tools in spring and autumn, mends or has them mended."),
    ("Compost bays", None, "ife", "Turns the bays with whoever comes on workdays."),
]
THINGS = [
    ("Water shut-off", "In the box left of the gate, under the iron lid", "Jürgen Vößler", None, "", True),
    ("First-aid box", "Shed, top shelf at the right", "", 90, "Look through it once a year.", True),
    ("Lease of the ground", "Blue folder at Marisol's", "Marisol Núñez", 300, "60 days' notice.", False),
    ("Insurance policy", "Blue folder at Marisol's", "Marisol Núñez", 40, "", False),
    ("Spare keys of the shed", "With Jürgen and with Hà", "Jürgen Vößler", None, "", False),
]


def tell_about_people(garden: Garden, people: list[User], today: date) -> None:
    """Telephones, consent, one household, duties, things, and a helper with two powers."""
    by = people[0]
    member_of = {one.user.sign_in_name: one for one in garden.memberships.select_related("user")}
    type(garden.rules).objects.filter(garden=garden).update(share_contacts=True)
    garden.rules.refresh_from_db()
    for name, phone in PHONES.items():
        User.objects.filter(pk=member_of[name].user_id).update(phone=phone)
    for name, membership in member_of.items():
        _agree(membership, SHARED.get(name, ()), EMERGENCY.get(name, ("", "")))
    for household, names in HOUSEHOLDS.items():
        for name in names:
            service.join_household(membership=member_of[name], name=household, by=by)
    service.change_role(
        membership=member_of["juergen"],
        role=Role.HELPER,
        powers=["plots", "workdays"],
        by=by,
        why="Looks after paths and water",
    )
    service.ask_for_link(account=ASKED)
    for name, holder, deputy, tasks in DUTIES:
        duty = Duty(
            garden=garden,
            name=name,
            holder=member_of[holder].user if holder else None,
            deputy=member_of[deputy].user if deputy else None,
            until=date(today.year, 12, 31),
            tasks=tasks,
        )
        service.keep_thing(garden=garden, thing=duty, by=by, what="duty")
    for thing, place, knows, days, note, for_members in THINGS:
        row = Whereabout(garden=garden, thing=thing, place=place, knows=knows, note=note)
        row.for_members, row.due_on = for_members, None if days is None else today + timedelta(days=days)
        service.keep_thing(garden=garden, thing=row, by=by, what="whereabout")


def _agree(membership: Membership, shared: tuple[str, ...], emergency: tuple[str, str]) -> None:
    for name in shared:
        setattr(membership, f"{name}_for", "members")
    membership.emergency_name, membership.emergency_phone = emergency
    service.change_own_part(membership=membership, by=membership.user)
