"""Crops of the catalogue and of a garden, and a garden's varieties of either."""

from __future__ import annotations

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from crops import facts as plain
from crops.models.columns import FactColumns, Hardiness, Method
from crops.models.sources import SeedTable
from plots.models import Garden
from plots.models.fields import TidyField

OWN = "own-"  # a garden's own crops have addresses that no crop of the catalogue can ever take


class Crop(FactColumns):
    """A crop with its facts; without a garden it belongs to the catalogue, which every garden shares."""

    garden = models.ForeignKey(
        Garden, models.CASCADE, null=True, blank=True, related_name="own_crops", editable=False
    )
    slug = models.SlugField(max_length=80, editable=False)
    name = TidyField(_("name"), max_length=80)
    family = TidyField(_("family"), max_length=60, blank=True)
    note = models.TextField(_("where these figures come from"), blank=True)
    emergence_table = models.ForeignKey(
        SeedTable, models.SET_NULL, null=True, blank=True, related_name="+", verbose_name=_("comes up like")
    )
    limits_table = models.ForeignKey(
        SeedTable, models.SET_NULL, null=True, blank=True, related_name="+", editable=False
    )

    hardiness = models.CharField(_("hardiness of the young plant"), max_length=20, choices=Hardiness.choices)
    method = models.CharField(_("how it is started"), max_length=20, choices=Method.choices)
    perennial = models.BooleanField(_("stays for several years"), default=False)
    fall_crop = models.BooleanField(_("usual as an autumn crop"), default=False)

    class Meta(FactColumns.Meta):
        ordering = ["name", "pk"]
        verbose_name = _("crop")
        verbose_name_plural = _("crops")
        constraints = [
            *FactColumns.Meta.constraints,
            models.UniqueConstraint(
                fields=["slug"], condition=Q(garden__isnull=True), name="crop_once_in_the_catalogue"
            ),
            models.UniqueConstraint(
                fields=["garden", "slug"], condition=Q(garden__isnull=False), name="crop_once_per_garden"
            ),
            models.UniqueConstraint(
                fields=["garden", "name"], condition=Q(garden__isnull=False), name="crop_name_once_per_garden"
            ),
            models.CheckConstraint(
                condition=Q(garden__isnull=True) ^ Q(slug__startswith=OWN), name="own_crops_marked_in_address"
            ),
            models.CheckConstraint(condition=Q(hardiness__in=Hardiness.values), name="crop_hardiness_known"),
            models.CheckConstraint(condition=Q(method__in=Method.values), name="crop_method_known"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def is_own(self) -> bool:
        """Whether a garden added it itself."""
        return self.garden_id is not None

    def facts(self) -> plain.CropFacts:
        """The facts as the calculations take them; no query when read through `crops.queries`."""
        table = self.emergence_table
        stated: dict[str, object] = {"botanical_name": "", **self.stated()}
        return plain.CropFacts(
            slug=self.slug,
            name=self.name,
            family=self.family,
            emergence_key=table.key if table else "",
            emergence=table.points() if table else (),
            **stated,  # type: ignore[arg-type]
        )


class Variety(FactColumns):
    """A garden's variety of a crop: every fact given here beats the crop's."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="varieties", editable=False)
    crop = models.ForeignKey(Crop, models.RESTRICT, related_name="varieties", editable=False)
    name = TidyField(_("name of the variety"), max_length=80)
    note = models.TextField(_("where these figures come from"), blank=True)

    class Meta(FactColumns.Meta):
        ordering = ["name", "pk"]
        verbose_name = _("variety")
        verbose_name_plural = _("varieties")
        constraints = [
            *FactColumns.Meta.constraints,
            models.UniqueConstraint(
                fields=["garden", "crop", "name"],
                name="variety_once_per_garden",
                violation_error_message=_("This garden already has a variety of this name."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.crop} ‘{self.name}’"

    def facts(self) -> plain.CropFacts:
        """The crop's facts with this variety's in their place."""
        return plain.with_changes(self.crop.facts(), self.stated())
