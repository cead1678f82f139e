"""Whom a notice is for and how they can be reached, or were."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import Count, Q, QuerySet

from plots.models import Assignment, Audience, Delivery, Garden, Notice, Reached, Role, User, Way

# Nothing is known that would reach them, and nobody has told them yet.
_NO_WAY = Q(deliveries__way=Way.NONE, deliveries__state=Reached.WAITS)


@dataclass(frozen=True, slots=True)
class Ways:
    """The people of a notice, by how they can be reached."""

    by_email: list[User]
    by_phone: list[User]
    by_neither: list[User]

    @property
    def count(self) -> int:
        return len(self.by_email) + len(self.by_phone) + len(self.by_neither)


def notices_of(garden: Garden) -> QuerySet[Notice]:
    """Each with how many people it is for, how many were reached, and how many could not be."""
    return garden.notices.annotate(
        people=Count("deliveries"),
        reached=Count("deliveries", filter=Q(deliveries__state=Reached.REACHED)),
        missed=Count("deliveries", filter=Q(deliveries__state=Reached.FAILED) | _NO_WAY),
    ).order_by("-made_at", "-pk")  # counting drops the model's own order


def people_of_notice(notice: Notice) -> list[User]:
    """The active members it is for today, by name."""
    garden = notice.garden
    members = User.objects.active_in(garden).order_by("name", "pk")
    if notice.audience == Audience.RUNNING:
        runs = garden.memberships.filter(role__in=[Role.COORDINATOR, Role.HELPER])
        members = members.filter(pk__in=runs.values("user"))
    elif notice.audience == Audience.HOLDERS:
        held = Assignment.objects.on(garden.today()).filter(plot__garden=garden)
        shared = held.filter(co_gardeners__isnull=False).values("co_gardeners")
        members = members.filter(Q(pk__in=held.values("holder")) | Q(pk__in=shared))
    elif notice.audience == Audience.PICKED:
        members = members.filter(pk__in=notice.picked.values("pk"))
    return list(members)


def ways_of(people: list[User], *, can_send: bool) -> Ways:
    """Email first where the installation can send it, else the telephone."""
    by_email = [person for person in people if person.email and can_send]
    mailed = {person.pk for person in by_email}
    rest = [person for person in people if person.pk not in mailed]
    return Ways(by_email, [one for one in rest if one.phone], [one for one in rest if not one.phone])


def deliveries_of(notice: Notice) -> QuerySet[Delivery]:
    return notice.deliveries.select_related("person")


def way_of(person: User, *, can_send: bool) -> Way:
    if person.email and can_send:
        return Way.EMAIL
    return Way.PHONE if person.phone else Way.NONE


def named_in(notice: Notice) -> list[str]:
    """Members' names and plots that the text names: nobody is to be blamed at the gate."""
    text = f" {notice.subject} {notice.body} ".casefold()
    words = {word.strip(".,;:!?()“”\"'") for word in text.split()}
    names = User.objects.filter(memberships__garden=notice.garden).values_list("name", flat=True)
    plots = notice.garden.plots.values_list("label", flat=True)
    people = [name for name in names if name.casefold() in text]
    return [*people, *(label for label in plots if not label.isdecimal() and label.casefold() in words)]
