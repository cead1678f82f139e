"""Changes to the garden's guidance, and who made sure what was seen."""

from __future__ import annotations

from django.db import IntegrityError, transaction
from django.utils import timezone

from plots.models import User
from plots.service import record, save_changes
from schedules.models import Guidance, Sighting


@transaction.atomic
def keep_guidance(*, guidance: Guidance, by: User) -> None:
    """Saves guidance, new or changed."""
    if guidance.pk is not None:
        save_changes(garden=guidance.garden, by=by, row=guidance, what="guidance-changed")
        return
    guidance.save()
    record(garden=guidance.garden, by=by, about=guidance, what="guidance-made")


@transaction.atomic
def remove_guidance(*, guidance: Guidance, by: User) -> None:
    """Takes guidance off the list; it is kept for who wants it back. Twice changes nothing."""
    if Guidance.objects.filter(pk=guidance.pk, removed_at=None).update(removed_at=timezone.now()):
        record(garden=guidance.garden, by=by, about=guidance, what="guidance-removed")


def restore_guidance(*, guidance: Guidance, by: User) -> bool:
    """Puts it back; false where the garden has newer guidance about the same thing."""
    try:
        with transaction.atomic():
            if Guidance.objects.filter(pk=guidance.pk, removed_at__isnull=False).update(removed_at=None):
                record(garden=guidance.garden, by=by, about=guidance, what="guidance-restored")
    except IntegrityError:
        return False
    return True


@transaction.atomic
def make_sure(*, sighting: Sighting, confirmed_by: str, by: User) -> None:
    """Keeps who made sure what it is; empty takes that back."""
    sighting.confirmed_by = confirmed_by
    save_changes(garden=sighting.log.garden, by=by, row=sighting, what="sighting-confirmed")
