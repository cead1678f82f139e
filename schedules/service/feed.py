"""Making, renewing and revoking the secret address of a person's calendar."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from plots.models import Garden, Membership, User
from schedules.models import CalendarFeed


@transaction.atomic
def make_feed(*, user: User, garden: Garden) -> CalendarFeed:
    """Makes a new address; the one made before stops working at once."""
    _hold_membership(user, garden)
    revoke_feed(user=user, garden=garden)
    return CalendarFeed.objects.create(user=user, garden=garden)


def revoke_feed(*, user: User, garden: Garden) -> None:
    """Stops the address; twice is harmless."""
    live = CalendarFeed.objects.filter(user=user, garden=garden, revoked_at__isnull=True)
    live.update(revoked_at=timezone.now())


def _hold_membership(user: User, garden: Garden) -> None:
    """Two presses at once wait for each other here, so that one address is left and not an error."""
    Membership.objects.select_for_update().get(user=user, garden=garden)
