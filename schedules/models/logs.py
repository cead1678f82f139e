"""What was done at the plots: one row for each piece of work at each plot."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import Q
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from crops.models import Crop, Planting
from plots.models import Garden, HoursDone, Plot
from plots.models.fields import TidyField
from schedules.models.measures import HoseFlow
from schedules.work import Work


class WorkChoice(models.TextChoices):
    """The words of `schedules.work.Work` as people read them."""

    WATER = Work.WATER, _("watered")
    PICK = Work.PICK, _("picked")
    START_INDOORS = Work.START_INDOORS, _("started indoors")
    HARDEN_OFF = Work.HARDEN_OFF, _("hardened off")
    SOW = Work.SOW, _("sowed")
    CAME_UP = Work.CAME_UP, _("came up")
    TRANSPLANT = Work.TRANSPLANT, _("transplanted")
    THIN = Work.THIN, _("thinned")
    FEED = Work.FEED, _("fed")
    MULCH = Work.MULCH, _("mulched")
    WEED = Work.WEED, _("weeded")
    SUPPORT = Work.SUPPORT, _("supported")
    SCOUT = Work.SCOUT, _("scouted")
    TREAT = Work.TREAT, _("used a product")
    KILLED = Work.KILLED, _("lost to frost")
    CLEAR = Work.CLEAR, _("cleared")
    HOURS = Work.HOURS, _("hours for the garden")
    NOTE = Work.NOTE, _("note")


class AmountUnit(models.TextChoices):
    """What an amount was typed in; kept beside the litres or grams that were made of it."""

    MINUTES = "min", _("minutes at the hose")
    CANS = "cans", _("cans")
    LITRES = "L", _("litres")
    GALLONS = "gal", _("gallons")
    MILLIMETRES = "mm", _("millimetres over the plot")
    INCHES = "in", _("inches over the plot")
    KILOGRAMS = "kg", _("kilograms")
    GRAMS = "g", _("grams")
    POUNDS = "lb", _("pounds")
    OUNCES = "oz", _("ounces")
    PIECES = "pcs", _("pieces")
    BUNCHES = "bunches", _("bunches")


class WorkLogs(models.QuerySet["WorkLog"]):
    """Logs, with the one question that almost everybody asks of them."""

    def standing(self) -> WorkLogs:
        """Those that were not taken back."""
        return self.filter(removed_at__isnull=True)

    def of_whole_plots(self) -> WorkLogs:
        """Clearings of everything that grew at a plot: of no planting and of no crop alone."""
        return self.filter(work=Work.CLEAR, planting__isnull=True, crop__isnull=True)


class WorkLog(models.Model):
    """One piece of work at one plot on one day, as somebody told it.

    `key` is given by whoever sends it, so that a log sent twice is kept once; the logs of several plots that
    came together share `sent`. `person` did the work, `made_by` wrote it down. Litres and grams are worked
    out once, when it is kept: a hose measured again later does not change what was poured before.
    """

    key = models.UUIDField(unique=True, default=uuid.uuid4, editable=False)
    sent = models.UUIDField(db_index=True, default=uuid.uuid4, editable=False)
    garden = models.ForeignKey(Garden, models.CASCADE, related_name="logs")
    plot = models.ForeignKey(Plot, models.CASCADE, null=True, blank=True, related_name="logs")
    planting = models.ForeignKey(Planting, models.RESTRICT, null=True, blank=True, related_name="logs")
    succession = models.PositiveSmallIntegerField(_("number of the sowing"), null=True, blank=True)
    crop = models.ForeignKey(Crop, models.RESTRICT, null=True, blank=True, related_name="logs")
    work = models.CharField(_("work"), max_length=14, choices=WorkChoice.choices)
    day = models.DateField(_("day"))
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="work_logs")
    hose = models.ForeignKey(
        HoseFlow, models.SET_NULL, null=True, blank=True, related_name="+", verbose_name=_("hose or tap")
    )
    amount = models.FloatField(_("amount"), null=True, blank=True)
    unit = models.CharField(_("unit"), max_length=8, choices=AmountUnit.choices, blank=True)
    litres = models.FloatField(null=True, blank=True, editable=False)
    grams = models.FloatField(null=True, blank=True, editable=False)
    pieces = models.PositiveIntegerField(null=True, blank=True, editable=False)
    minutes = models.PositiveSmallIntegerField(
        _("minutes of work"), null=True, blank=True, validators=[MinValueValidator(1)]
    )
    given_away = models.BooleanField(_("given away"), default=False)
    given_to = TidyField(_("to whom"), max_length=120, blank=True)
    note = models.TextField(_("note"), blank=True, max_length=4000)
    hours_done = models.OneToOneField(
        HoursDone, models.PROTECT, null=True, blank=True, related_name="log", editable=False
    )
    from_paper = models.BooleanField(default=False, editable=False)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    changed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    changed_at = models.DateTimeField(default=timezone.now, editable=False)
    removed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    removed_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = WorkLogs.as_manager()

    class Meta:
        ordering = ["-day", "-pk"]
        verbose_name = _("log")
        verbose_name_plural = _("logs")
        constraints = [
            models.CheckConstraint(condition=Q(work__in=WorkChoice.values), name="log_work_known"),
            models.CheckConstraint(condition=Q(unit__in=["", *AmountUnit.values]), name="log_unit_known"),
            models.CheckConstraint(
                condition=Q(plot__isnull=False) | Q(work__in=[WorkChoice.HOURS, WorkChoice.NOTE]),
                name="log_at_a_plot",
            ),
            models.CheckConstraint(
                condition=Q(amount__isnull=True, unit="") | Q(amount__gt=0) & ~Q(unit=""),
                name="log_amount_with_a_unit",
            ),
            models.CheckConstraint(
                condition=Q(litres__isnull=True) | Q(litres__gt=0), name="log_water_above_nothing"
            ),
            models.CheckConstraint(
                condition=Q(grams__isnull=True) | Q(grams__gt=0), name="log_weight_above_nothing"
            ),
            models.CheckConstraint(
                condition=Q(given_away=True) | Q(given_to=""), name="log_given_to_when_given_away"
            ),
            models.CheckConstraint(
                condition=Q(planting__isnull=True) | Q(plot__isnull=False), name="log_planting_at_its_plot"
            ),
        ]
        indexes = [
            models.Index(fields=["plot", "-day"], name="log_by_plot_and_day"),
            models.Index(fields=["garden", "-day"], name="log_by_garden_and_day"),
            models.Index(fields=["planting", "work"], name="log_by_planting_and_work"),
        ]

    def __str__(self) -> str:
        return f"{self.get_work_display()}, {self.day}"

    def get_absolute_url(self) -> str:
        return reverse("schedules:log", args=[self.garden.slug, self.pk])

    @property
    def clears_all(self) -> bool:
        """Whether it ends everything that grew at its plot."""
        return self.work == Work.CLEAR and self.planting_id is None and self.crop_id is None

    @property
    def crop_grown(self) -> Crop | None:
        """What it is about: the planting's crop, or the one that was named."""
        return self.planting.crop if self.planting else self.crop
