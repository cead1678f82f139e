"""Gardens, their seasons and plots, and who holds which plot when."""

from __future__ import annotations

from datetime import date
from functools import cache
from typing import Any
from zoneinfo import ZoneInfo, available_timezones

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models, transaction
from django.db.models import F, Q
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.constraints import NoOverlap
from plots.models.fields import TidyField
from plots.stakes import LENGTH as STAKE_LENGTH
from plots.stakes import new_code


@cache
def zone_names() -> frozenset[str]:
    """The names of all time zones; looking them up reads hundreds of files, so once."""
    return frozenset(available_timezones())


def validate_zone(name: str) -> None:
    if name not in zone_names():
        raise ValidationError(_("“%(name)s” is not the name of a time zone."), params={"name": name})


# A light row cover keeps plants 2 to 5 °F warmer than the air (harvesttotable.com): the low end of that.
LIGHT_ROW_COVER_C = 1.111111111  # as 2 °F is kept
MOST_ROW_COVER_C = 10.0
PUBLIC_LINE = 160  # characters that who scans a stake reads at a glance


class Units(models.TextChoices):
    US = "us", _("feet, inches and °F")
    METRIC = "metric", _("metres, centimetres and °C")


class Paper(models.TextChoices):
    LETTER = "letter", _("Letter")
    A4 = "a4", _("A4")


class NerveChoice(models.TextChoices):
    """How much frost risk is accepted; empty follows the person, the garden, or what its dates suggest."""

    CAREFUL = "careful", _("careful: 1 spring in 10 may still bring a freeze")
    MIDDLING = "middling", _("middling: 3 springs in 10")
    BOLD = "bold", _("bold: 5 springs in 10")


class Garden(models.Model):
    """A community garden; several may share one installation."""

    name = TidyField(_("name"), max_length=120)
    slug = models.SlugField(_("short name in addresses"), max_length=60, unique=True)
    place = TidyField(_("place"), max_length=160, blank=True)
    time_zone = models.CharField(_("time zone"), max_length=64, default="UTC", validators=[validate_zone])
    latitude = models.FloatField(
        _("latitude"), help_text=_("Degrees; south of the equator with a minus sign."),
        validators=[MinValueValidator(-90), MaxValueValidator(90)],
    )  # fmt: skip
    longitude = models.FloatField(
        _("longitude"), null=True, blank=True, help_text=_("Degrees; west of Greenwich with a minus sign."),
        validators=[MinValueValidator(-180), MaxValueValidator(180)],
    )  # fmt: skip
    elevation_m = models.FloatField(
        _("height above the sea"), null=True, blank=True,
        validators=[MinValueValidator(-500), MaxValueValidator(9000)],
    )  # fmt: skip
    units = models.CharField(_("units"), max_length=8, choices=Units.choices, default=Units.US)
    paper = models.CharField(_("paper"), max_length=8, choices=Paper.choices, default=Paper.LETTER)
    nerve = models.CharField(_("nerve"), max_length=10, choices=NerveChoice.choices, blank=True)
    row_cover_c = models.FloatField(
        _("a row cover keeps off"), default=LIGHT_ROW_COVER_C,
        validators=[MinValueValidator(0), MaxValueValidator(MOST_ROW_COVER_C)],
    )  # fmt: skip
    row_cover_source = TidyField(_("who says so"), max_length=160, blank=True)
    language = models.CharField(_("language"), max_length=12, blank=True)
    public_line = TidyField(_("line for visitors"), max_length=PUBLIC_LINE, blank=True)
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["name", "pk"]
        verbose_name = _("garden")
        verbose_name_plural = _("gardens")
        constraints = [
            models.CheckConstraint(
                condition=Q(latitude__gte=-90, latitude__lte=90), name="garden_latitude_on_earth"
            ),
            models.CheckConstraint(
                condition=Q(longitude__isnull=True) | Q(longitude__gte=-180, longitude__lte=180),
                name="garden_longitude_on_earth",
            ),
            models.CheckConstraint(condition=Q(units__in=Units.values), name="garden_units_known"),
            models.CheckConstraint(condition=Q(paper__in=Paper.values), name="garden_paper_known"),
            models.CheckConstraint(
                condition=Q(nerve__in=["", *NerveChoice.values]), name="garden_nerve_known"
            ),
            models.CheckConstraint(
                condition=Q(row_cover_c__gte=0, row_cover_c__lte=MOST_ROW_COVER_C),
                name="garden_row_cover_keeps_some_frost_off",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def save(self, *args: Any, **kwargs: Any) -> None:
        """A new garden comes with its rules, so that everything else can count on them."""
        from plots.models.rules import GardenRules  # it needs the garden first

        is_new = self._state.adding
        with transaction.atomic():
            super().save(*args, **kwargs)
            if is_new:
                GardenRules.objects.create(garden=self)

    def get_absolute_url(self) -> str:
        return reverse("plots:garden", args=[self.slug])

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(self.time_zone)

    def today(self) -> date:
        """The date at the garden; the one place where a page takes it from the clock."""
        return timezone.localdate(timezone=self.zone)


class Season(models.Model):
    """The part of a year for which plots are assigned."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="seasons")
    name = TidyField(_("name"), max_length=60)
    starts_on = models.DateField(_("first day"))
    ends_on = models.DateField(_("last day"))

    class Meta:
        ordering = ["-starts_on", "pk"]
        verbose_name = _("season")
        verbose_name_plural = _("seasons")
        constraints = [
            models.UniqueConstraint(
                fields=["garden", "name"], name="season_name_once_per_garden",
                violation_error_message=_("This garden already has a season of this name."),
            ),
            models.CheckConstraint(
                condition=Q(ends_on__gt=F("starts_on")), name="season_ends_after_it_starts",
                violation_error_message=_("The last day must come after the first."),
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name


class PlotKind(models.TextChoices):
    """For whom a plot is gardened; only a personal one is given to a holder."""

    PERSONAL = "personal", _("for a member")
    COMMUNAL = "communal", _("gardened by all")
    GIVE_AWAY = "give_away", _("gardened to give away")


class Plot(models.Model):
    """A piece of ground with a label; its history stays when its members change. Lengths are metres.

    A plot with a place stands on the map; see `plots.models.site` for how places are counted.
    """

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="plots")
    label = TidyField(_("label"), max_length=20)
    width_m = models.FloatField(_("width"), null=True, blank=True)
    length_m = models.FloatField(_("length"), null=True, blank=True)
    kind = models.CharField(_("kind"), max_length=10, choices=PlotKind.choices, default=PlotKind.PERSONAL)
    accessible = models.BooleanField(_("accessible"), default=False)
    bed_height_m = models.FloatField(_("height of the bed"), null=True, blank=True)
    left_m = models.FloatField(_("from the left edge"), null=True, blank=True)
    top_m = models.FloatField(_("from the top edge"), null=True, blank=True)
    turn_deg = models.FloatField(_("turned by"), default=0)
    walk_place = models.PositiveIntegerField(_("place in the walk"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)
    public_line = TidyField(_("line for visitors"), max_length=PUBLIC_LINE, blank=True)
    stake_code = models.CharField(max_length=STAKE_LENGTH, unique=True, default=new_code, editable=False)
    retired_on = models.DateField(_("given up on"), null=True, blank=True)

    class Meta:
        ordering = ["label", "pk"]
        verbose_name = _("plot")
        verbose_name_plural = _("plots")
        constraints = [
            models.UniqueConstraint(
                fields=["garden", "label"], name="plot_label_once_per_garden",
                violation_error_message=_("This garden already has a plot with this label."),
            ),
            models.CheckConstraint(
                condition=(Q(width_m__isnull=True) | Q(width_m__gt=0))
                & (Q(length_m__isnull=True) | Q(length_m__gt=0)),
                name="plot_has_a_size",
            ),
            models.CheckConstraint(condition=Q(kind__in=PlotKind.values), name="plot_kind_known"),
            models.CheckConstraint(
                condition=Q(bed_height_m__isnull=True) | Q(bed_height_m__gte=0), name="plot_bed_not_sunken"
            ),
            models.CheckConstraint(
                condition=Q(left_m__isnull=True, top_m__isnull=True)
                | Q(left_m__isnull=False, top_m__isnull=False, width_m__isnull=False, length_m__isnull=False),
                name="plot_on_the_map_has_place_and_size",
                violation_error_message=_("A plot on the map needs both distances and both sides."),
            ),
            models.CheckConstraint(
                condition=Q(turn_deg__gte=0, turn_deg__lt=360), name="plot_turn_is_a_direction"
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.label

    @property
    def is_personal(self) -> bool:
        return self.kind == PlotKind.PERSONAL


class AssignmentQuerySet(models.QuerySet["Assignment"]):
    def standing(self, today: date) -> AssignmentQuerySet:
        """What holds today or is agreed for later; a season's end alone ends nothing, a person does."""
        return self.filter(standing(today))

    def on(self, day: date) -> AssignmentQuerySet:
        """Who holds what on that day."""
        return self.filter(standing(day), began_on__lte=day)


def standing(today: date, prefix: str = "") -> Q:
    """The condition that an assignment has not ended before `today`, for use across relations too."""
    return Q(**{f"{prefix}ended_on__isnull": True}) | Q(**{f"{prefix}ended_on__gte": today})


class Assignment(models.Model):
    """That a person holds a plot for a season, alone or with co-gardeners, from day to day, both held.

    Without a last day it goes on until a person ends it.
    """

    plot = models.ForeignKey(Plot, models.PROTECT, related_name="assignments")
    season = models.ForeignKey(Season, models.PROTECT, related_name="assignments")
    holder = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="assignments")
    co_gardeners = models.ManyToManyField(
        settings.AUTH_USER_MODEL, related_name="shared_assignments", blank=True
    )
    began_on = models.DateField(_("from"))
    ended_on = models.DateField(_("until"), null=True, blank=True)

    objects = AssignmentQuerySet.as_manager()

    class Meta:
        ordering = ["-began_on", "-pk"]
        verbose_name = _("assignment")
        verbose_name_plural = _("assignments")
        constraints = [
            NoOverlap(
                of="plot", first="began_on", last="ended_on", name="one_holder_at_a_time",
                violation_error_message=_("Somebody holds this plot on some of these days."),
            ),
            models.CheckConstraint(
                condition=Q(ended_on__isnull=True) | Q(ended_on__gte=F("began_on")),
                name="assignment_ends_after_it_begins",
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return f"{self.plot}: {self.holder}, {self.season}"
