"""Around the roster: households, requests for a sign-in link, who does what, and where things are."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.db.models.functions import Lower
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.fields import TidyField
from plots.models.ground import Garden


class Household(models.Model):
    """Members who live and garden together: together they keep within what one household may hold."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="households")
    name = TidyField(_("name"), max_length=120)

    class Meta:
        ordering = ["name", "pk"]
        verbose_name = _("household")
        verbose_name_plural = _("households")
        constraints = [
            models.UniqueConstraint(
                Lower("name"), "garden", name="household_once_per_garden",
                violation_error_message=_("This garden already has a household of this name."),
            )
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name


class LinkRequest(models.Model):
    """That somebody who cannot come in asked for a new sign-in link; a person makes sure that it is they."""

    user = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="link_requests")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    settled_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["user"], condition=Q(settled_at__isnull=True), name="one_open_request_per_person"
            )
        ]

    def __str__(self) -> str:
        return f"{self.user}, {self.made_at:%Y-%m-%d %H:%M}"


class Duty(models.Model):
    """One part of running the garden, who has it, and who stands in; a vacant one has no holder."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="duties")
    name = TidyField(_("duty"), max_length=120)
    holder = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, blank=True, related_name="duties",
        verbose_name=_("done by"),
    )  # fmt: skip
    deputy = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, blank=True, related_name="deputed_duties",
        verbose_name=_("stands in"),
    )  # fmt: skip
    until = models.DateField(_("taken on until"), null=True, blank=True)
    tasks = models.TextField(
        _("what it takes"), blank=True, max_length=2000,
        help_text=_("What is to be done, when, and about how many hours a month."),
    )  # fmt: skip

    class Meta:
        ordering = ["name", "pk"]
        verbose_name = _("duty")
        verbose_name_plural = _("duties")
        constraints = [
            models.UniqueConstraint(
                Lower("name"), "garden", name="duty_once_per_garden",
                violation_error_message=_("This garden already has a duty of this name."),
            )
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name


class Whereabout(models.Model):
    """Where a thing or a paper of the garden is, who knows more, and by when it is due. Never a code."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="whereabouts")
    thing = TidyField(
        _("thing"), max_length=120,
        help_text=_("Such as: water shut-off, first-aid box, insurance policy, spare keys."),
    )  # fmt: skip
    place = TidyField(_("where it is"), max_length=300)
    knows = TidyField(_("who knows more"), max_length=200, blank=True)
    due_on = models.DateField(
        _("runs out or is due on"), null=True, blank=True,
        help_text=_("For a policy, a lease, a test that must be repeated."),
    )  # fmt: skip
    note = models.TextField(_("note"), blank=True, max_length=2000)
    for_members = models.BooleanField(_("every member sees this"), default=False)

    class Meta:
        ordering = ["thing", "pk"]
        verbose_name = _("whereabouts of a thing")
        verbose_name_plural = _("where things are")

    def __str__(self) -> str:
        return self.thing
