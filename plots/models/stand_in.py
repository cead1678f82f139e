"""Neighbours who were asked to look after a plot for some days."""

from __future__ import annotations

from datetime import date

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.fields import TidyField
from plots.models.ground import Assignment


class StandIns(models.QuerySet["StandIn"]):
    """Who was asked to look after which plot."""

    def on(self, day: date) -> StandIns:
        """Those that hold on that day: not taken back, and asked by people who still had the plot."""
        ended = Q(assignment__ended_on__isnull=False, assignment__ended_on__lt=day)
        return self.exclude(ended).filter(taken_back_at__isnull=True, first_day__lte=day, last_day__gte=day)


class StandIn(models.Model):
    """That `person` was asked to write logs for somebody's plot, from day to day, both counted."""

    assignment = models.ForeignKey(Assignment, models.CASCADE, related_name="stand_ins")
    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.CASCADE, related_name="stands_in", verbose_name=_("who")
    )
    first_day = models.DateField(_("from"))
    last_day = models.DateField(_("until"))
    note = TidyField(_("what to do"), max_length=300, blank=True)
    asked_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    asked_at = models.DateTimeField(default=timezone.now, editable=False)
    taken_back_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = StandIns.as_manager()

    class Meta:
        ordering = ["first_day", "pk"]
        verbose_name = _("stand-in")
        verbose_name_plural = _("stand-ins")
        constraints = [
            models.CheckConstraint(
                condition=Q(last_day__gte=F("first_day")), name="stand_in_ends_after_it_begins",
                violation_error_message=_("The last day must not come before the first."),
            )
        ]  # fmt: skip
        indexes = [models.Index(fields=["person", "last_day"], name="stand_ins_of_a_person")]

    def __str__(self) -> str:
        return f"{self.person}: {self.assignment.plot}"
