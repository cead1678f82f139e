"""Notices: written once, then given out; what was given out is not changed any more."""

from __future__ import annotations

from collections.abc import Iterable

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.models import Delivery, Notice, Reached, User, Way
from plots.queries.notices import people_of_notice, way_of
from plots.service import post
from plots.service.history import record, save_changes

# A request may take this long; what is left then waits for the button to be pressed again.
SENDING_SECONDS = 15.0


@transaction.atomic
def keep_notice(*, notice: Notice, picked: Iterable[User], by: User) -> Notice:
    """Saves a notice that is not given out yet, with the people picked for it."""
    if notice.pk is None:
        notice.made_by = by
        notice.save()
    else:
        if Notice.objects.select_for_update().get(pk=notice.pk).given_at is not None:
            raise ValidationError(_("This notice was given out; write a new one."))
        save_changes(garden=notice.garden, by=by, row=notice, what="notice-changed")
    notice.picked.set(picked)
    return notice


@transaction.atomic
def give_out(*, notice: Notice, by: User) -> None:
    """Fixes the text and whom it is for; twice adds nobody twice."""
    current = Notice.objects.select_for_update().select_related("garden").get(pk=notice.pk)
    if current.given_at is not None:
        return
    people = people_of_notice(current)
    if not people:
        raise ValidationError(_("There is nobody it would be for."))
    can_send = post.can_send()
    Delivery.objects.bulk_create(
        Delivery(notice=current, person=person, way=way_of(person, can_send=can_send)) for person in people
    )
    current.given_at = timezone.now()
    current.save(update_fields=["given_at"])
    record(garden=current.garden, by=by, about=current, what="notice-given", after={"count": len(people)})


def send_waiting(*, notice: Notice) -> int:
    """Sends to those who wait for an email, and says how many still wait.

    Outside a transaction: each is marked before it goes, so that pressing twice at once sends nothing twice.
    """
    waiting = notice.deliveries.filter(way=Way.EMAIL, state=Reached.WAITS)
    rows = {one.pk: one.person for one in waiting.select_related("person")}

    def claimed() -> Iterable[post.Message[int]]:
        for pk, person in rows.items():
            address = person.email or ""
            if _mark(pk, Reached.WAITS, Reached.REACHED):
                yield post.Message(pk, address, f"{notice.garden}: {notice.subject}", notice.body)

    for pk, sent in post.send_all(claimed(), seconds=SENDING_SECONDS):
        if not sent:
            _mark(pk, Reached.REACHED, Reached.FAILED)
    return waiting.count()


def _mark(pk: int, before: Reached, after: Reached) -> bool:
    rows = Delivery.objects.filter(pk=pk, state=before)
    return bool(rows.update(state=after, at=timezone.now()))


def mark_delivery(*, delivery: Delivery, state: Reached) -> None:
    """What came of a call, or of an email that came back."""
    delivery.state, delivery.at = state, timezone.now()
    delivery.save(update_fields=["state", "at"])
