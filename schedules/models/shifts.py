"""Dates that were moved by a change in a garden: what people had been told before, kept to be read."""

from __future__ import annotations

from django.db import models
from django.db.models import Q
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from crops.models import Planting
from plots.models import Change, Garden


class DatesMoved(models.Model):
    """That a change moved dates; who changed what, and when, stands in the change itself."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="dates_moved")
    change = models.OneToOneField(Change, models.CASCADE, related_name="dates_moved")

    class Meta:
        ordering = ["-pk"]
        verbose_name = _("moved dates")
        verbose_name_plural = _("moved dates")

    def __str__(self) -> str:
        return str(self.change)

    def get_absolute_url(self) -> str:
        return reverse("schedules:dates_moved", args=[self.garden.slug, self.pk])


class DateBefore(models.Model):
    """One row of a calendar, earliest, best and latest day, as it was told before and after.

    A row that had no dates before, or has none after, has `None` for all three.
    """

    moved = models.ForeignKey(DatesMoved, models.CASCADE, related_name="rows")
    planting = models.ForeignKey(Planting, models.CASCADE, related_name="dates_before")
    operation = models.CharField(max_length=14)
    succession = models.PositiveSmallIntegerField()
    old_earliest = models.DateField(null=True)
    old_best = models.DateField(null=True)
    old_latest = models.DateField(null=True)
    new_earliest = models.DateField(null=True)
    new_best = models.DateField(null=True)
    new_latest = models.DateField(null=True)

    class Meta:
        ordering = ["moved", "pk"]
        verbose_name = _("date before a change")
        verbose_name_plural = _("dates before a change")
        constraints = [
            models.UniqueConstraint(
                fields=["moved", "planting", "operation", "succession"], name="date_moved_once_per_change"
            ),
            models.CheckConstraint(
                condition=Q(old_best__isnull=False) | Q(new_best__isnull=False), name="date_before_or_after"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.operation} {self.succession}: {self.old_best} → {self.new_best}"
