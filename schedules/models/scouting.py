"""Pests and damage: what was seen, what the garden itself advises, and products that were used."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models import Garden, Notice
from plots.models.fields import FoldedField, TidyField
from schedules.intervals import LONGEST_DAYS
from schedules.models.logs import WorkLog
from schedules.scouting import Severity


class SeverityChoice(models.TextChoices):
    """The words of `schedules.scouting.Severity` as people read them."""

    TRACE = Severity.TRACE, _("a little: a few leaves or a plant or two")
    SOME = Severity.SOME, _("some: less than a quarter of it")
    MUCH = Severity.MUCH, _("much: a quarter of it or more")


class Guidance(models.Model):
    """What a garden advises about one thing that may be seen, mildest first; no product, no dose."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="guidance")
    thing = TidyField(_("what may be seen"), max_length=80)
    thing_folded = FoldedField(max_length=80, editable=False)
    signs = models.TextField(_("how to tell it"), blank=True, max_length=2000)
    tolerate = models.TextField(_("when to leave it"), max_length=2000)
    prevent = models.TextField(_("what keeps it away"), blank=True, max_length=2000)
    by_hand = models.TextField(_("what to do by hand"), blank=True, max_length=2000)
    ask = models.TextField(_("whom to ask before anything stronger"), blank=True, max_length=2000)
    source = TidyField(_("where this comes from"), max_length=200, blank=True)
    reach_m = models.FloatField(
        _("how far it may reach"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(10_000)],
    )
    removed_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["thing", "pk"]
        verbose_name = _("guidance")
        verbose_name_plural = _("guidance")
        constraints = [
            models.UniqueConstraint(
                fields=["garden", "thing_folded"],
                condition=Q(removed_at__isnull=True),
                name="guidance_once_per_thing",
                violation_error_message=_("This garden already has guidance about it."),
            ),
            models.CheckConstraint(
                condition=Q(reach_m__isnull=True) | Q(reach_m__gte=0),
                name="guidance_reach_likely",
            ),
        ]

    def __str__(self) -> str:
        return self.thing

    def save(self, *args: object, **kwargs: object) -> None:
        """The folded name goes with the name, whatever is saved."""
        self.thing_folded = self.thing
        super().save(*args, **kwargs)  # type: ignore[arg-type]


class Sighting(models.Model):
    """What a scouting log saw, on what, and how much of it; who made sure, where somebody did."""

    log = models.OneToOneField(WorkLog, models.CASCADE, related_name="sighting")
    seen = TidyField(_("what was seen"), max_length=80)
    seen_folded = FoldedField(max_length=80, editable=False)
    seen_on = TidyField(_("on what"), max_length=120, blank=True)
    severity = models.CharField(_("how much"), max_length=5, choices=SeverityChoice.choices, blank=True)
    confirmed_by = TidyField(_("made sure by"), max_length=120, blank=True)
    words = models.ManyToManyField(Notice, blank=True, related_name="sightings")

    class Meta:
        ordering = ["-log__day", "-pk"]
        verbose_name = _("sighting")
        verbose_name_plural = _("sightings")
        constraints = [
            models.CheckConstraint(
                condition=Q(severity__in=["", *SeverityChoice.values]), name="sighting_severity_known"
            )
        ]
        indexes = [models.Index(fields=["seen_folded"], name="sighting_by_thing")]

    def __str__(self) -> str:
        return self.seen

    def save(self, *args: object, **kwargs: object) -> None:
        """The folded name goes with the name, whatever is saved."""
        self.seen_folded = self.seen
        super().save(*args, **kwargs)  # type: ignore[arg-type]

    def get_absolute_url(self) -> str:
        return reverse("schedules:sighting", args=[self.log.garden.slug, self.pk])


class Treatment(models.Model):
    """That a product was used: its name and its days before picking, both as its own label says them."""

    log = models.OneToOneField(WorkLog, models.CASCADE, related_name="treatment")
    product = TidyField(_("product, as its label names it"), max_length=120)
    label_days = models.PositiveSmallIntegerField(
        _("days before picking, from its label"), validators=[MaxValueValidator(LONGEST_DAYS)]
    )
    asked = TidyField(_("who agreed to it"), max_length=120, blank=True)
    read_at = models.DateTimeField(_("label read"), default=timezone.now, editable=False)

    class Meta:
        ordering = ["-log__day", "-pk"]
        verbose_name = _("product used")
        verbose_name_plural = _("products used")
        constraints = [
            models.CheckConstraint(condition=Q(label_days__lte=LONGEST_DAYS), name="treatment_days_likely"),
            models.CheckConstraint(condition=~Q(product=""), name="treatment_names_its_product"),
        ]

    def __str__(self) -> str:
        return self.product
