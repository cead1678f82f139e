"""What the garden's own thermometers showed."""

from __future__ import annotations

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models import Garden

COLDEST_C, WARMEST_C = -60.0, 60.0
COLDEST_SOIL_C, WARMEST_SOIL_C = -20.0, 50.0

_AIR = [MinValueValidator(COLDEST_C), MaxValueValidator(WARMEST_C)]
_SOIL = [MinValueValidator(COLDEST_SOIL_C), MaxValueValidator(WARMEST_SOIL_C)]


class GardenReading(models.Model):
    """A day's lowest and highest temperature of the air, and that of the soil at seed depth, in °C.

    The lowest is that of the night before the morning of `day`, as weather stations count it.
    """

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="readings")
    day = models.DateField(_("day"))
    tmin_c = models.FloatField(_("lowest"), null=True, blank=True, validators=_AIR)
    tmax_c = models.FloatField(_("highest"), null=True, blank=True, validators=_AIR)
    soil_c = models.FloatField(_("soil"), null=True, blank=True, validators=_SOIL)
    from_logger = models.BooleanField(_("from a logger"), default=False)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["-day"]
        verbose_name = _("reading of the garden's thermometer")
        verbose_name_plural = _("readings of the garden's thermometers")
        constraints = [
            models.UniqueConstraint(fields=["garden", "day"], name="thermometer_read_once_a_day"),
            models.CheckConstraint(
                condition=Q(tmin_c__isnull=False) | Q(tmax_c__isnull=False) | Q(soil_c__isnull=False),
                name="thermometer_reading_has_a_value",
            ),
            models.CheckConstraint(
                condition=Q(tmin_c__isnull=True) | Q(tmax_c__isnull=True) | Q(tmax_c__gte=F("tmin_c")),
                name="thermometer_highest_above_lowest",
            ),
            models.CheckConstraint(
                condition=(Q(tmin_c__isnull=True) | Q(tmin_c__range=(COLDEST_C, WARMEST_C)))
                & (Q(tmax_c__isnull=True) | Q(tmax_c__range=(COLDEST_C, WARMEST_C)))
                & (Q(soil_c__isnull=True) | Q(soil_c__range=(COLDEST_SOIL_C, WARMEST_SOIL_C))),
                name="thermometer_reading_likely",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.day}"

    @property
    def air_was_typed(self) -> bool:
        """Whether somebody read the air by eye; a logger's file leaves that alone."""
        return not self.from_logger and (self.tmin_c is not None or self.tmax_c is not None)
