"""How a garden measures: its hoses by a bucket and a watch, its watering can, the weight of its bunches."""

from __future__ import annotations

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from crops.models import Crop
from plots.models import Garden
from plots.models.fields import FoldedField, TidyField

MOST_LITRES, MOST_SECONDS, MOST_GRAMS, MOST_BUNCHES = 1000.0, 3600.0, 100_000.0, 1000


class Measures(models.QuerySet["HoseFlow"]):
    """Measurements; a newer one takes the place of the one before, which is kept."""

    def standing(self) -> Measures:
        """Those that count now."""
        return self.filter(removed_at__isnull=True)


class _Measured(models.Model):
    """Who measured, when; a measurement is never written over."""

    measured_on = models.DateField(_("measured on"))
    measured_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    removed_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = Measures.as_manager()

    class Meta:
        abstract = True


class HoseFlow(_Measured):
    """How long a hose or tap took to fill a bucket: `litres` in `seconds`."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="hose_flows")
    name = TidyField(_("hose or tap"), max_length=60)
    name_folded = FoldedField(max_length=60, editable=False)
    litres = models.FloatField(
        _("water in the bucket"), validators=[MinValueValidator(0.1), MaxValueValidator(MOST_LITRES)]
    )
    seconds = models.FloatField(
        _("seconds to fill it"), validators=[MinValueValidator(1), MaxValueValidator(MOST_SECONDS)]
    )

    class Meta:
        ordering = ["name_folded", "pk"]
        verbose_name = _("flow of a hose")
        verbose_name_plural = _("flows of hoses")
        constraints = [
            models.CheckConstraint(condition=Q(litres__gt=0, seconds__gt=0), name="hose_runs"),
            models.UniqueConstraint(
                fields=["garden", "name_folded"],
                condition=Q(removed_at__isnull=True),
                name="hose_measured_once_now",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def save(self, *args: object, **kwargs: object) -> None:
        """The folded name goes with the name, whatever is saved."""
        self.name_folded = self.name
        super().save(*args, **kwargs)  # type: ignore[arg-type]

    @property
    def litres_per_minute(self) -> float:
        return self.litres / self.seconds * 60


class BunchWeight(_Measured):
    """What so many bunches of a crop, as this garden binds them, weighed together."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="bunch_weights")
    crop = models.ForeignKey(Crop, models.CASCADE, related_name="bunch_weights", verbose_name=_("crop"))
    grams = models.FloatField(
        _("weight together"), validators=[MinValueValidator(1), MaxValueValidator(MOST_GRAMS)]
    )
    bunches = models.PositiveSmallIntegerField(
        _("number of bunches weighed"), validators=[MinValueValidator(1), MaxValueValidator(MOST_BUNCHES)]
    )

    class Meta:
        ordering = ["crop__name", "pk"]
        verbose_name = _("weight of a bunch")
        verbose_name_plural = _("weights of bunches")
        constraints = [
            models.CheckConstraint(condition=Q(grams__gt=0, bunches__gte=1), name="bunch_weighs"),
            models.UniqueConstraint(
                fields=["garden", "crop"],
                condition=Q(removed_at__isnull=True),
                name="bunch_weighed_once_now",
            ),
        ]

    def __str__(self) -> str:
        return str(self.crop)

    @property
    def grams_each(self) -> float:
        return self.grams / self.bunches


class WateringCan(models.Model):
    """What the garden's watering can holds, in litres."""

    garden = models.OneToOneField(Garden, models.CASCADE, related_name="watering_can")
    litres = models.FloatField(
        _("a can holds"), validators=[MinValueValidator(0.1), MaxValueValidator(MOST_LITRES)]
    )

    class Meta:
        verbose_name = _("watering can")
        verbose_name_plural = _("watering cans")
        constraints = [models.CheckConstraint(condition=Q(litres__gt=0), name="can_holds_water")]

    def __str__(self) -> str:
        return f"{self.litres} L"
