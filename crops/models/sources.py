"""Where facts come from: pages and books, and the published tables of germination and emergence."""

from __future__ import annotations

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from crops import catalogue, facts


class FactBasis(models.TextChoices):
    SEEN = catalogue.FactBasis.SEEN.value, _("seen")
    MIXED = catalogue.FactBasis.MIXED.value, _("partly from memory")
    MEMORY = catalogue.FactBasis.MEMORY.value, _("value from memory")


class Source(models.Model):
    """A page or book; `seen` says how much of it was read."""

    key = models.CharField(max_length=40, unique=True)
    title = models.CharField(max_length=300)
    publisher = models.CharField(max_length=120, blank=True)
    year = models.CharField(max_length=40, blank=True)
    url = models.CharField(max_length=500, blank=True)
    seen = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["key"]
        verbose_name = _("source")
        verbose_name_plural = _("sources")

    def __str__(self) -> str:
        return self.title

    def short_name(self) -> str:
        """Who published it; of what is only remembered, its title."""
        return self.title if self.seen.startswith("from memory") else self.publisher or self.title

    def links(self) -> list[str]:
        """The addresses; a source printed in two places has both, with a semicolon between."""
        return [part for part in self.url.split(" ; ") if part]


class SeedTable(models.Model):
    """The name under which published tables list a crop; several crops may stand under one name."""

    key = models.SlugField(max_length=60, unique=True)

    class Meta:
        ordering = ["key"]
        verbose_name = _("table of germination")
        verbose_name_plural = _("tables of germination")

    def __str__(self) -> str:
        return self.key

    def points(self) -> tuple[facts.EmergencePoint, ...]:
        """The temperatures that were tried, coldest first; costs no query once `readings` is prefetched."""
        return tuple(
            facts.EmergencePoint(celsius=reading.celsius, days=reading.days)
            for reading in sorted(self.readings.all(), key=lambda reading: reading.celsius)
            if reading.none_came_up or reading.days is not None
        )


class EmergenceReading(models.Model):
    """Days to emerge at a constant soil temperature (°C); neither days nor `none_came_up`: not tested."""

    table = models.ForeignKey(SeedTable, models.CASCADE, related_name="readings")
    celsius = models.FloatField()
    days = models.FloatField(null=True, blank=True)
    none_came_up = models.BooleanField(default=False)
    percent_normal = models.FloatField(null=True, blank=True)
    source = models.ForeignKey(Source, models.RESTRICT, related_name="+")
    comment = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["table", "celsius"]
        verbose_name = _("days to emerge")
        verbose_name_plural = _("days to emerge")
        constraints = [
            models.UniqueConstraint(fields=["table", "celsius"], name="one_reading_per_temperature"),
            models.CheckConstraint(
                condition=Q(days__isnull=True) | Q(days__gt=0, none_came_up=False),
                name="days_only_where_some_came_up",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.table} {self.celsius}"


class GerminationLimit(models.Model):
    """One source's soil temperatures for germination (°C). Rival sources stay separate rows."""

    table = models.ForeignKey(SeedTable, models.CASCADE, related_name="limits")
    min_c = models.FloatField(null=True, blank=True)
    optimum_low_c = models.FloatField(null=True, blank=True)
    optimum_high_c = models.FloatField(null=True, blank=True)
    optimum_c = models.FloatField(null=True, blank=True)
    max_c = models.FloatField(null=True, blank=True)
    source = models.ForeignKey(Source, models.RESTRICT, related_name="+")
    comment = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["table", "pk"]
        verbose_name = _("limits of germination")
        verbose_name_plural = _("limits of germination")
        constraints = [
            models.UniqueConstraint(fields=["table", "source"], name="one_row_of_limits_per_source"),
        ]

    def __str__(self) -> str:
        return f"{self.table} ({self.source_id})"


class FactSource(models.Model):
    """Where some facts of one catalogue crop come from; `fields` are names of facts, parted by spaces."""

    crop = models.ForeignKey("crops.Crop", models.CASCADE, related_name="fact_sources")
    field_group = models.CharField(max_length=20)
    fields = models.CharField(max_length=300)
    basis = models.CharField(max_length=10, choices=FactBasis.choices)
    memory_note = models.CharField(max_length=300, blank=True)
    sources = models.ManyToManyField(Source, related_name="fact_sources", blank=True)

    class Meta:
        ordering = ["crop", "pk"]
        verbose_name = _("source of facts")
        verbose_name_plural = _("sources of facts")
        constraints = [
            models.UniqueConstraint(fields=["crop", "fields"], name="facts_have_their_sources_once"),
            models.CheckConstraint(condition=Q(basis__in=FactBasis.values), name="basis_of_facts_known"),
        ]

    def __str__(self) -> str:
        return f"{self.crop_id}: {self.field_group}"
