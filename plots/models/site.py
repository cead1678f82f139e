"""How the garden lies: its size and north, and what stands on it beside the plots. Lengths are metres.

The site is drawn from above. Everything on it has a place: metres from the left and from the top edge of the
drawing to the corner of its box, and a turn in degrees, clockwise about the middle of that box.
"""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from plots.models.fields import TidyField
from plots.models.ground import Garden


class WalkBy(models.TextChoices):
    """How one walks past all plots, as far as nobody has said otherwise."""

    ROWS = "rows", _("along the rows, from the top of the map to the bottom")
    COLUMNS = "columns", _("up and down, from the left of the map to the right")


class Site(models.Model):
    """The piece of land; without a size the map is as large as what stands on it."""

    garden = models.OneToOneField(Garden, models.CASCADE, related_name="site")
    width_m = models.FloatField(_("from left to right"), null=True, blank=True)
    length_m = models.FloatField(_("from top to bottom"), null=True, blank=True)
    north_deg = models.FloatField(
        _("north"), default=0,
        help_text=_("Degrees clockwise from straight up: 0 when north is up, 90 when it is on the right."),
        validators=[MinValueValidator(0), MaxValueValidator(359.9)],
    )  # fmt: skip
    walk_by = models.CharField(
        _("walk past the plots"), max_length=8, choices=WalkBy.choices, default=WalkBy.ROWS
    )

    class Meta:
        verbose_name = _("site")
        verbose_name_plural = _("sites")
        constraints = [
            models.CheckConstraint(
                condition=(Q(width_m__isnull=True) | Q(width_m__gt=0))
                & (Q(length_m__isnull=True) | Q(length_m__gt=0)),
                name="site_has_a_size",
            ),
            models.CheckConstraint(
                condition=Q(north_deg__gte=0, north_deg__lt=360), name="site_north_is_a_direction"
            ),
            models.CheckConstraint(condition=Q(walk_by__in=WalkBy.values), name="site_walk_known"),
        ]

    def __str__(self) -> str:
        return str(self.garden)


class FeatureKind(models.TextChoices):
    PATH = "path", _("path")
    WATER = "water", _("water point")
    GATE = "gate", _("gate")
    SHED = "shed", _("shed")
    COMPOST = "compost", _("compost")
    HEDGE = "hedge", _("hedge")
    FENCE = "fence", _("fence")
    TREE = "tree", _("tree")
    TABLE = "table", _("table or bench")
    OTHER = "other", _("something else")


class SiteFeature(models.Model):
    """What stands on the site and is no plot; its box is what it takes up, seen from above."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="features")
    kind = models.CharField(_("what it is"), max_length=10, choices=FeatureKind.choices)
    label = TidyField(_("name"), max_length=40, blank=True)
    left_m = models.FloatField(_("from the left edge"))
    top_m = models.FloatField(_("from the top edge"))
    width_m = models.FloatField(_("width"))
    length_m = models.FloatField(_("length"))
    turn_deg = models.FloatField(_("turned by"), default=0)
    accessible = models.BooleanField(_("can be used from a wheelchair"), default=False)

    class Meta:
        ordering = ["kind", "label", "pk"]
        verbose_name = _("thing on the map")
        verbose_name_plural = _("things on the map")
        constraints = [
            models.CheckConstraint(condition=Q(kind__in=FeatureKind.values), name="feature_kind_known"),
            models.CheckConstraint(condition=Q(width_m__gt=0, length_m__gt=0), name="feature_has_a_size"),
            models.CheckConstraint(
                condition=Q(turn_deg__gte=0, turn_deg__lt=360), name="feature_turn_is_a_direction"
            ),
        ]

    def __str__(self) -> str:
        return self.label or str(self.get_kind_display())
