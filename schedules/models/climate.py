"""Where a garden's frost dates come from: station records with their days, typed tables, mean dates."""

from __future__ import annotations

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models import Garden
from plots.models.fields import TidyField
from schedules.frost_tables import DEFAULT_SPREAD_DAYS

_MONTH = [MinValueValidator(1), MaxValueValidator(12)]
_DAY = [MinValueValidator(1), MaxValueValidator(31)]


class BasisChoice(models.TextChoices):
    """Same values as `schedules.climate.Basis`, best first."""

    RECORD = "record", _("a station's daily record")
    TABLE = "table", _("a published table of frost dates")
    MEAN = "mean", _("a mean last and first frost")


class SideChoice(models.TextChoices):
    """Same values as `schedules.seasons.Side`."""

    LAST = "last", _("last freeze of spring")
    FIRST = "first", _("first freeze of autumn")


class LayoutChoice(models.TextChoices):
    """Same values as `schedules.stations.StationFormat`."""

    GHCN_CSV = "ghcn-csv", _("GHCN-Daily, CSV with one line per day")
    GHCN_LONG = "ghcn-long", _("GHCN-Daily, CSV with one line per value")
    GHCN_DLY = "ghcn-dly", _("GHCN-Daily, fixed columns (.dly)")
    PLAIN = "plain", _("plain CSV with a unit row")


class StationRecord(models.Model):
    """A weather station's daily record as one garden keeps it. Elevation is metres, latitude degrees."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="station_records")
    name = TidyField(_("name of the station"), max_length=120)
    station_id = models.CharField(_("station number"), max_length=20, blank=True)
    file_format = models.CharField(_("file"), max_length=10, choices=LayoutChoice.choices)
    latitude = models.FloatField(null=True)
    longitude = models.FloatField(null=True)
    elevation_m = models.FloatField(null=True)
    share = models.PositiveSmallIntegerField(_("share, percent"), default=0)  # where stations are weighed
    first_day = models.DateField()
    last_day = models.DateField()
    findings = models.JSONField(default=dict)  # what the last reading found, for `schedules.wording.stations`
    changed_at = models.DateTimeField(default=timezone.now)

    class Meta:
        ordering = ["name", "pk"]
        verbose_name = _("station record")
        verbose_name_plural = _("station records")
        constraints = [
            models.UniqueConstraint(fields=["garden", "name"], name="station_name_once_per_garden"),
            models.UniqueConstraint(
                fields=["garden", "station_id"],
                condition=~Q(station_id=""),
                name="station_number_once_per_garden",
            ),
            models.CheckConstraint(condition=Q(last_day__gte=F("first_day")), name="station_days_in_order"),
            models.CheckConstraint(
                condition=Q(file_format__in=LayoutChoice.values), name="station_file_format_known"
            ),
            models.CheckConstraint(condition=Q(share__lte=100), name="station_share_in_range"),
        ]

    def __str__(self) -> str:
        return self.name


class DailyWeather(models.Model):
    """One day at a station; `None` where the value is missing or failed a quality check."""

    record = models.ForeignKey(StationRecord, models.CASCADE, related_name="days", db_index=False)
    day = models.DateField()
    tmin_c = models.FloatField(null=True)
    tmax_c = models.FloatField(null=True)
    precip_mm = models.FloatField(null=True)

    class Meta:
        ordering = ["record", "day"]
        verbose_name = _("day of weather")
        verbose_name_plural = _("days of weather")
        constraints = [models.UniqueConstraint(fields=["record", "day"], name="weather_once_per_day")]

    def __str__(self) -> str:
        return f"{self.day}"


class FrostTableDate(models.Model):
    """A typed date: a freeze comes on or after it (last), on or before it (first) in `percent` of 100 years.

    Whichever way round the published table counts, rows are kept this way round.
    """

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="frost_table")
    celsius = models.FloatField()
    side = models.CharField(max_length=5, choices=SideChoice.choices)
    percent = models.FloatField()
    month = models.PositiveSmallIntegerField(validators=_MONTH)
    day = models.PositiveSmallIntegerField(validators=_DAY)

    class Meta:
        ordering = ["garden", "-celsius", "side", "percent"]
        verbose_name = _("typed frost date")
        verbose_name_plural = _("typed frost dates")
        constraints = [
            models.UniqueConstraint(
                fields=["garden", "celsius", "side", "percent"], name="frost_date_once_per_chance"
            ),
            models.CheckConstraint(condition=Q(percent__gt=0, percent__lt=100), name="frost_chance_in_range"),
            models.CheckConstraint(condition=Q(side__in=SideChoice.values), name="frost_side_known"),
            models.CheckConstraint(
                condition=Q(month__range=(1, 12), day__range=(1, 31)), name="frost_date_in_calendar"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.side} {self.celsius} °C {self.percent} %: {self.month:02}-{self.day:02}"


def _unknown_or_in_calendar(side: str) -> Q:
    """A date of which month and day are known, or neither."""
    month, day = f"{side}_month", f"{side}_day"
    neither = Q((f"{month}__isnull", True), (f"{day}__isnull", True))
    known = Q((f"{month}__isnull", False), (f"{day}__isnull", False))
    return neither | known & Q((f"{month}__range", (1, 12)), (f"{day}__range", (1, 31)))


class MeanFrost(models.Model):
    """A mean last and first freeze at 0 °C (one may be unknown), and how far years spread about it."""

    garden = models.OneToOneField(Garden, models.CASCADE, related_name="mean_frost")
    last_month = models.PositiveSmallIntegerField(null=True, validators=_MONTH)
    last_day = models.PositiveSmallIntegerField(null=True, validators=_DAY)
    first_month = models.PositiveSmallIntegerField(null=True, validators=_MONTH)
    first_day = models.PositiveSmallIntegerField(null=True, validators=_DAY)
    spread_days = models.FloatField(default=DEFAULT_SPREAD_DAYS)
    source = TidyField(_("where the dates come from"), max_length=200, blank=True)

    class Meta:
        verbose_name = _("mean frost dates")
        verbose_name_plural = _("mean frost dates")
        constraints = [
            models.CheckConstraint(condition=Q(spread_days__gt=0), name="frost_spread_above_zero"),
            models.CheckConstraint(
                condition=Q(last_month__isnull=False) | Q(first_month__isnull=False),
                name="mean_frost_has_a_date",
            ),
            models.CheckConstraint(condition=_unknown_or_in_calendar("last"), name="mean_last_in_calendar"),
            models.CheckConstraint(condition=_unknown_or_in_calendar("first"), name="mean_first_in_calendar"),
        ]

    def __str__(self) -> str:
        return f"mean frost dates of {self.garden}"

    @property
    def last(self) -> tuple[int, int] | None:
        """Month and day of the mean last freeze."""
        return None if self.last_month is None else (self.last_month, self.last_day)

    @property
    def first(self) -> tuple[int, int] | None:
        """Month and day of the mean first freeze."""
        return None if self.first_month is None else (self.first_month, self.first_day)


MOST_OFFSET_C = 10


class GardenClimate(models.Model):
    """Which basis a garden plans by, and how many °C it is warmer (below 0: colder) than its station.

    A record may be that of several stations, each with its share, and of late years alone. An offset that was
    learned from paired nights keeps its uncertainty in °C and the number of nights; who set it, and when.
    """

    garden = models.OneToOneField(Garden, models.CASCADE, related_name="climate")
    basis = models.CharField(max_length=6, choices=BasisChoice.choices)
    record = models.ForeignKey(StationRecord, models.PROTECT, null=True, blank=True, related_name="used_by")
    weighted = models.BooleanField(_("several stations weighed"), default=False)
    recent_only = models.BooleanField(_("the last fifteen years alone"), default=False)
    offset_c = models.FloatField(_("difference from the station"), default=0.0)
    # `None` where it was typed and not learned
    offset_half_c = models.FloatField(_("its uncertainty"), null=True, blank=True)
    offset_nights = models.PositiveIntegerField(_("nights it was learned from"), null=True, blank=True)
    offset_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("accepted by"),
    )
    offset_on = models.DateField(_("accepted on"), null=True, blank=True)
    table_counts_passed = models.BooleanField(
        default=False
    )  # the typed table tells the chance that it is over
    table_source = TidyField(_("where the table comes from"), max_length=200, blank=True)
    changed_at = models.DateTimeField(default=timezone.now)

    class Meta:
        verbose_name = _("garden's climate")
        verbose_name_plural = _("gardens' climates")
        constraints = [
            models.CheckConstraint(condition=Q(basis__in=BasisChoice.values), name="climate_basis_known"),
            models.CheckConstraint(
                condition=~Q(basis="record") | Q(record__isnull=False), name="climate_by_record_has_one"
            ),
            models.CheckConstraint(
                condition=Q(offset_c__range=(-MOST_OFFSET_C, MOST_OFFSET_C)), name="climate_offset_in_range"
            ),
        ]

    def __str__(self) -> str:
        return f"climate of {self.garden}"

    def forget_learned(self) -> None:
        """Lets go of a difference that was learned beside other stations; what somebody said stays."""
        if self.offset_nights is not None:
            self.offset_c, self.offset_half_c, self.offset_nights = 0.0, None, None
            self.offset_by, self.offset_on = None, None
