"""Asking a neighbour to look after a plot for some days, and ending that."""

from __future__ import annotations

from datetime import date, timedelta

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.models import Assignment, Membership, StandIn, User
from plots.service.history import record

MOST_DAYS = 100  # who looks after a plot for longer shares it; common practice, no source


@transaction.atomic
def ask_stand_in(
    *,
    assignment: Assignment,
    person: User,
    first_day: date,
    last_day: date,
    note: str = "",
    on: date,
    by: User,
) -> StandIn:
    """Lets `person` write logs of the plot from day to day; raises `ValidationError` by field."""
    held = Assignment.objects.select_for_update().select_related("plot__garden").get(pk=assignment.pk)
    if last_day < max(first_day, on):
        raise ValidationError({"last_day": _("This day is over, or before the first one.")})
    if last_day - first_day > timedelta(days=MOST_DAYS):
        words = _("At most %(days)d days; for longer a coordinator adds them to the people of the plot.")
        raise ValidationError({"last_day": words % {"days": MOST_DAYS}})
    if held.ended_on and first_day > held.ended_on:
        raise ValidationError({"first_day": _("The plot is no longer yours then.")})
    if person.pk == held.holder_id or held.co_gardeners.filter(pk=person.pk).exists():
        raise ValidationError({"person": _("%(person)s gardens this plot anyway.") % {"person": person}})
    if not Membership.objects.filter(garden=held.plot.garden_id, user=person).exists():
        raise ValidationError({"person": _("%(person)s is no member of this garden.") % {"person": person}})
    made = StandIn.objects.create(
        assignment=held, person=person, first_day=first_day, last_day=last_day, note=note, asked_by=by
    )
    days = {"person": person, "plot": held.plot, "from_on": first_day, "until_on": last_day}
    record(garden=held.plot.garden, by=by, about=made, what="stand-in-asked", after=days)
    return made


@transaction.atomic
def end_stand_in(*, stand_in: StandIn, by: User) -> None:
    """From now on they write no more logs there; what they wrote stays. Twice is harmless."""
    standing = StandIn.objects.filter(pk=stand_in.pk, taken_back_at=None)
    if standing.update(taken_back_at=timezone.now()):
        garden = stand_in.assignment.plot.garden
        record(garden=garden, by=by, about=stand_in, what="stand-in-ended")
