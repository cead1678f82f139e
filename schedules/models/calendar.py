"""The address at which a member's calendar is read by their phone."""

from __future__ import annotations

import secrets

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.urls import reverse
from django.utils import timezone

from plots.models import Garden

SECRET_BYTES = 32


def new_secret() -> str:
    return secrets.token_urlsafe(SECRET_BYTES)


class CalendarFeed(models.Model):
    """A secret address for one person's plots in one garden; whoever has it may read dates and nothing else.

    The secret is kept as it is, because it is shown again for a second phone. With 256 random bits a look-up
    by index gives nothing away.
    """

    user = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="calendar_feeds")
    garden = models.ForeignKey(Garden, models.CASCADE, related_name="calendar_feeds")
    token = models.CharField(max_length=64, unique=True, default=new_secret, editable=False)
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    revoked_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["user", "garden"],
                condition=Q(revoked_at__isnull=True),
                name="one_live_feed_per_garden",
            ),
        ]

    def __str__(self) -> str:
        return f"feed of {self.user} in {self.garden}"

    @property
    def address(self) -> str:
        """Where it is read, with the host of this installation."""
        return settings.SITE.origin + reverse("schedules:feed_ics", args=[self.token])

    @property
    def webcal(self) -> str:
        """The address as a link that opens a device's own calendar."""
        return "webcal://" + self.address.split("://", 1)[1]
