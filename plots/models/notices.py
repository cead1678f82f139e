"""What the garden tells its members: written once, sent by email, called through, hung at the gate."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.fields import TidyField
from plots.models.ground import Garden


class Audience(models.TextChoices):
    """For whom a notice is."""

    EVERYBODY = "all", _("every member")
    HOLDERS = "plots", _("everybody who gardens a plot")
    RUNNING = "running", _("coordinators and helpers")
    PICKED = "picked", _("some people, by name")


class Notice(models.Model):
    """A text for members; once given out it is not changed any more."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="notices")
    subject = TidyField(_("subject"), max_length=120)
    body = models.TextField(_("text"), max_length=5000)
    audience = models.CharField(_("for"), max_length=8, choices=Audience.choices, default=Audience.EVERYBODY)
    picked = models.ManyToManyField(settings.AUTH_USER_MODEL, blank=True, related_name="+")
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    given_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["-made_at", "-pk"]
        verbose_name = _("notice")
        verbose_name_plural = _("notices")
        constraints = [
            models.CheckConstraint(condition=Q(audience__in=Audience.values), name="notice_audience_known")
        ]

    def __str__(self) -> str:
        return self.subject

    def get_absolute_url(self) -> str:
        return reverse("plots:notice", args=[self.garden.slug, self.pk])


class Way(models.TextChoices):
    """How somebody is to be reached."""

    EMAIL = "email", _("by email")
    PHONE = "phone", _("by telephone")
    NONE = "none", _("neither email nor telephone known")


class Reached(models.TextChoices):
    """How far a notice came with one person."""

    WAITS = "waits", _("not yet")
    REACHED = "reached", _("reached")
    FAILED = "failed", _("not reached")


class Delivery(models.Model):
    """That one person is to have a notice; addresses are not copied, they are those of the person."""

    notice = models.ForeignKey(Notice, models.CASCADE, related_name="deliveries")
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="+")
    way = models.CharField(max_length=8, choices=Way.choices)
    state = models.CharField(max_length=8, choices=Reached.choices, default=Reached.WAITS)
    at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["person__name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["notice", "person"], name="one_delivery_per_person"),
            models.CheckConstraint(
                condition=Q(way__in=Way.values) & Q(state__in=Reached.values), name="delivery_known"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.notice}: {self.person}"

    @property
    def missed(self) -> bool:
        return self.state == Reached.FAILED
