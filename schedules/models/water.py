"""Rain measured at the garden itself."""

from __future__ import annotations

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models import Garden

MOST_RAIN_MM = 1000.0


class RainReading(models.Model):
    """What stood in the rain gauge on `day`: millimetres fallen since it was emptied, on `since`."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="rain_readings")
    day = models.DateField(_("read on"))
    since = models.DateField(_("emptied before that on"))
    mm = models.FloatField(_("rain"), validators=[MinValueValidator(0), MaxValueValidator(MOST_RAIN_MM)])
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["-day"]
        verbose_name = _("reading of the rain gauge")
        verbose_name_plural = _("readings of the rain gauge")
        constraints = [
            models.UniqueConstraint(fields=["garden", "day"], name="rain_read_once_a_day"),
            models.CheckConstraint(condition=Q(since__lt=F("day")), name="rain_since_before_the_reading"),
            models.CheckConstraint(condition=Q(mm__gte=0, mm__lte=MOST_RAIN_MM), name="rain_likely"),
        ]

    def __str__(self) -> str:
        return f"{self.day}"
