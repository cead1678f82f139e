"""What a plot's gardeners mean to grow, or grow."""

from __future__ import annotations

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from crops.facts import MOST_SUCCESSIONS, CropFacts
from crops.models.crop import Crop, Variety
from plots.models import NerveChoice, Plot

FIRST_YEAR, LAST_YEAR = 1900, 2200


class Turn(models.TextChoices):
    """The half of the growing year that a planting belongs to."""

    SPRING = "spring", _("spring and summer")
    AUTUMN = "autumn", _("autumn")


class Start(models.TextChoices):
    """How a planting begins."""

    SOW = "sow", _("sown or set where it grows")
    TRANSPLANT = "transplant", _("raised under cover and transplanted")


class Planting(models.Model):
    """One crop at one plot in one half of a year, in one or more successions. The row's length is in metres.

    A removed planting is kept, so that taking the removal back gives the same one with its history.
    """

    plot = models.ForeignKey(Plot, models.CASCADE, related_name="plantings")
    crop = models.ForeignKey(Crop, models.RESTRICT, related_name="plantings")
    variety = models.ForeignKey(Variety, models.RESTRICT, null=True, blank=True, related_name="plantings")
    year = models.PositiveSmallIntegerField(_("year"))
    turn = models.CharField(_("part of the year"), max_length=10, choices=Turn.choices, default=Turn.SPRING)
    start = models.CharField(_("start"), max_length=12, choices=Start.choices)
    successions = models.PositiveSmallIntegerField(_("number of sowings"), default=1)
    row_length_m = models.FloatField(_("length of row"), null=True, blank=True)
    covered = models.BooleanField(_("under a row cover"), default=False)
    nerve = models.CharField(_("nerve"), max_length=10, choices=NerveChoice.choices, blank=True)
    note = models.TextField(_("note"), blank=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    changed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    changed_at = models.DateTimeField(default=timezone.now, editable=False)
    removed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    removed_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["year", "plot", "crop__name", "pk"]
        verbose_name = _("planting")
        verbose_name_plural = _("plantings")
        constraints = [
            models.CheckConstraint(
                condition=Q(year__gte=FIRST_YEAR, year__lte=LAST_YEAR), name="planting_in_a_likely_year"
            ),
            models.CheckConstraint(condition=Q(turn__in=Turn.values), name="planting_turn_known"),
            models.CheckConstraint(condition=Q(start__in=Start.values), name="planting_start_known"),
            models.CheckConstraint(
                condition=Q(successions__gte=1, successions__lte=MOST_SUCCESSIONS),
                name="planting_sown_a_likely_number_of_times",
            ),
            models.CheckConstraint(
                condition=Q(row_length_m__isnull=True) | Q(row_length_m__gt=0, row_length_m__lte=1000),
                name="planting_row_has_a_length",
            ),
            models.CheckConstraint(
                condition=Q(nerve__in=["", *NerveChoice.values]), name="planting_nerve_known"
            ),
        ]
        indexes = [models.Index(fields=["plot", "year"], name="planting_by_plot_and_year")]

    def __str__(self) -> str:
        return f"{self.variety or self.crop} {self.year}"

    def clean(self) -> None:
        """A planting stays within its garden: its crop and variety are the garden's or the catalogue's."""
        if self.crop.garden_id not in (None, self.plot.garden_id):
            raise ValidationError({"crop": _("This crop belongs to another garden.")})
        if self.variety and self.variety.garden_id != self.plot.garden_id:
            raise ValidationError({"variety": _("This variety belongs to another garden.")})
        if self.variety and self.variety.crop_id != self.crop_id:
            raise ValidationError({"variety": _("This variety is of another crop.")})

    def facts(self) -> CropFacts:
        """The facts that count for this planting: the variety's where it has its own, else the crop's."""
        return self.variety.facts() if self.variety else self.crop.facts()
