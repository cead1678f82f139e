"""The roster: who belongs to a garden, what they garden, and how they are reached."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from django.db.models import Q

from plots.models import Assignment, Change, Garden, LinkRequest, Membership, User
from plots.spelling import name_key, natural_key


@dataclass(frozen=True, slots=True)
class RosterRow:
    """One member as the roster shows them; the addresses only as far as the reader may see them."""

    membership: Membership
    email: str = ""
    phone: str = ""
    address: str = ""
    holds: tuple[str, ...] = ()
    shares: tuple[str, ...] = ()
    asked_at: datetime | None = None

    @property
    def name(self) -> str:
        return self.membership.user.name

    @property
    def household(self) -> str:
        return str(self.membership.household or "")

    @property
    def labels(self) -> tuple[str, ...]:
        return (*self.holds, *self.shares)

    @property
    def came_in(self) -> bool:
        """Whether they ever signed in."""
        return self.membership.user.last_login is not None


def roster_of(garden: Garden, *, keeper: bool, today: date) -> list[RosterRow]:
    """Every member by name; for a `keeper` with all addresses, else with what each lets members see."""
    members = garden.memberships.filter(user__is_active=True).select_related("user", "household")
    shares_addresses = keeper or garden.rules.share_contacts
    labels = _labels(garden, today) if keeper else {}
    asked = open_requests(garden) if keeper else {}
    rows = []
    for membership in sorted(members, key=lambda one: (name_key(one.user.name), one.pk)):
        shown = _all_contacts(membership.user) if keeper else membership.contacts_for_members()
        held = labels.get(membership.user_id, _Labels())
        rows.append(
            RosterRow(
                membership,
                **(shown if shares_addresses else {}),
                holds=tuple(sorted(held.holds, key=natural_key)),
                shares=tuple(sorted(held.shares, key=natural_key)),
                asked_at=asked.get(membership.user_id),
            )
        )
    return rows


@dataclass(slots=True)
class _Labels:
    holds: list[str] = field(default_factory=list)
    shares: list[str] = field(default_factory=list)


def _labels(garden: Garden, today: date) -> dict[int, _Labels]:
    """What each person holds and shares today, by the person's key."""
    found: defaultdict[int, _Labels] = defaultdict(_Labels)
    held = Assignment.objects.on(today).filter(plot__garden=garden).select_related("plot")
    for assignment in held.prefetch_related("co_gardeners"):
        found[assignment.holder_id].holds.append(assignment.plot.label)
        for person in assignment.co_gardeners.all():
            found[person.pk].shares.append(assignment.plot.label)
    return found


def _all_contacts(user: User) -> dict[str, str]:
    return {"email": user.email or "", "phone": user.phone, "address": user.address}


def open_requests(garden: Garden) -> dict[int, datetime]:
    """When members who cannot come in asked for a link, by the person's key."""
    waiting = LinkRequest.objects.filter(user__memberships__garden=garden, settled_at__isnull=True)
    return dict(waiting.values_list("user_id", "made_at"))


@dataclass(frozen=True, slots=True)
class Left:
    """Somebody who left and belongs to no garden; `due` when addresses are no longer to be kept."""

    person: User
    left_on: date
    kept_until: date
    due: bool


def people_who_left(garden: Garden, *, today: date) -> list[Left]:
    """Latest first: whose name and addresses are still here."""
    last_left: dict[int, date] = {}
    for pk, at in garden.changes.filter(what="member-left", undoes=None).values_list("about_pk", "at"):
        day = at.astimezone(garden.zone).date()
        last_left[pk] = max(day, last_left.get(pk, day))
    kept = timedelta(days=garden.rules.contacts_kept_days)
    gone = User.objects.filter(pk__in=last_left, is_active=True, memberships=None, is_staff=False)
    ends = {pk: day + kept for pk, day in last_left.items()}
    rows = [Left(one, last_left[one.pk], ends[one.pk], ends[one.pk] <= today) for one in gone]
    return sorted(rows, key=lambda row: row.left_on, reverse=True)


def person_in_history(garden: Garden, person_pk: int) -> bool:
    """Whether the person once belonged to the garden."""
    return Change.objects.filter(garden=garden, what="member-left", about_pk=person_pk).exists()


def held_by(membership: Membership, *, today: date) -> list[Assignment]:
    """What a member holds or shares in the garden, now or agreed for later."""
    standing = Assignment.objects.standing(today).filter(plot__garden=membership.garden_id)
    person = membership.user_id
    mine = standing.filter(Q(holder_id=person) | Q(co_gardeners=person)).distinct()
    rows = mine.select_related("plot", "season", "holder").prefetch_related("co_gardeners")
    return sorted(rows, key=lambda row: (row.began_on, natural_key(row.plot.label)))


def housemates_of(membership: Membership) -> list[Membership]:
    """The others of the member's household."""
    if membership.household_id is None:
        return []
    others = Membership.objects.filter(household=membership.household_id).exclude(pk=membership.pk)
    return list(others.select_related("user").order_by("user__name"))
