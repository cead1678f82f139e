"""How long sowings took here from their beginning to their first picking."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from crops.models import Planting


class Ripening(models.Model):
    """One sowing that logs followed to its first picking, beside the days that published figures expected.

    `counts` is false once somebody set aside what the garden was taught up to then.
    """

    planting = models.ForeignKey(Planting, models.CASCADE, related_name="ripenings")
    succession = models.PositiveSmallIntegerField(_("number of the sowing"))
    begun_on = models.DateField(_("begun on"))
    picked_on = models.DateField(_("first picked on"))
    expected_days = models.PositiveSmallIntegerField(_("days expected"))
    counts = models.BooleanField(_("counts"), default=True)

    class Meta:
        ordering = ["planting", "succession"]
        verbose_name = _("sowing that ripened")
        verbose_name_plural = _("sowings that ripened")
        constraints = [
            models.UniqueConstraint(fields=["planting", "succession"], name="ripened_once_per_sowing"),
            models.CheckConstraint(condition=Q(expected_days__gt=0), name="ripening_days_expected"),
            models.CheckConstraint(condition=Q(picked_on__gt=F("begun_on")), name="ripened_after_it_began"),
        ]

    def __str__(self) -> str:
        return f"{self.begun_on} – {self.picked_on}"

    @property
    def took_days(self) -> int:
        """Days from its beginning to its first picking."""
        return (self.picked_on - self.begun_on).days
