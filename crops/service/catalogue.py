"""Loads the catalogue's tables into the database, and changes only what differs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from django.db import transaction

from crops import catalogue as tables
from crops.facts import CropFacts
from crops.models import Crop, EmergenceReading, FactSource, GerminationLimit, SeedTable, Source
from crops.sheet import FACT_FIELDS


@dataclass
class CatalogueChanges:
    """What loading changed, by crop slug; `kept` are crops in use that the catalogue no longer lists."""

    added: list[str] = field(default_factory=list)
    changed: list[str] = field(default_factory=list)
    unchanged: list[str] = field(default_factory=list)
    removed: list[str] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)


@transaction.atomic
def update_catalogue(catalogue: tables.Catalogue | None = None) -> CatalogueChanges:
    """Makes the stored catalogue equal to the tables; a garden's own crops, varieties and plantings stay.

    A crop that the tables no longer list is removed only when nothing refers to it.
    """
    catalogue = catalogue or tables.load_catalogue()
    sources = _store_sources(catalogue.sources.values())
    seed_tables = _store_seed_tables(catalogue, sources)
    changes = CatalogueChanges()
    stored = {crop.slug: crop for crop in Crop.objects.filter(garden=None).select_for_update()}
    told = _told_sources(stored.values())
    crops: dict[str, Crop] = {}
    cite_else = []
    for slug, facts in catalogue.crops.items():
        crop = stored.get(slug) or Crop(slug=slug)
        is_new = crop.pk is None
        limits_key = slug if slug in catalogue.limits else facts.emergence_key
        differs = _take(
            crop, _columns(facts, seed_tables.get(facts.emergence_key), seed_tables.get(limits_key))
        )
        if differs and not is_new:
            crop.save()
        crops[slug] = crop
        provenance = catalogue.provenance.get(slug, ())
        cites_else = told.get(slug, set()) != {_citation(row) for row in provenance}
        if cites_else:
            cite_else.append(slug)
        (changes.added if is_new else changes.changed if differs or cites_else else changes.unchanged).append(
            slug
        )
    Crop.objects.bulk_create([crops[slug] for slug in changes.added])
    _store_provenance([(crops[slug], catalogue.provenance.get(slug, ())) for slug in cite_else], sources)
    _remove_gone([crop for slug, crop in stored.items() if slug not in catalogue.crops], changes)
    Source.objects.exclude(key__in=catalogue.sources).filter(fact_sources=None).delete()
    return changes


def _store_sources(rows: Iterable[tables.SourceRow]) -> dict[str, Source]:
    columns = ("title", "publisher", "year", "url", "seen")
    stored = {source.key: source for source in Source.objects.all()}
    for row in rows:
        values = {name: getattr(row, name) for name in columns}
        if row.id not in stored:
            # Two loads at once meet here: the second waits for the first and then finds its rows.
            stored[row.id], _ = Source.objects.get_or_create(key=row.id, defaults=values)
        if _take(stored[row.id], values):
            stored[row.id].save()
    return stored


def _store_seed_tables(catalogue: tables.Catalogue, sources: Mapping[str, Source]) -> dict[str, SeedTable]:
    keys = catalogue.emergence.keys() | catalogue.limits.keys()
    stored = {table.key: table for table in SeedTable.objects.prefetch_related("readings", "limits")}
    missing = SeedTable.objects.bulk_create([SeedTable(key=key) for key in sorted(keys - stored.keys())])
    stored |= {table.key: table for table in missing}
    for key in keys:
        table = stored[key]
        readings = [
            EmergenceReading(table=table, source=sources[cell.source_id], **_values(cell, _READING))
            for cell in catalogue.emergence.get(key, ())
        ]
        limits = [
            GerminationLimit(table=table, source=sources[row.source_id], **_values(row, _LIMIT))
            for row in catalogue.limits.get(key, ())
        ]
        _replace(table.readings, readings, (*_READING, "source_id"))
        _replace(table.limits, limits, (*_LIMIT, "source_id"))
    return stored


_READING = ("celsius", "days", "none_came_up", "percent_normal", "comment")
_LIMIT = ("min_c", "optimum_low_c", "optimum_high_c", "optimum_c", "max_c", "comment")


def _replace(related: object, rows: list, columns: tuple[str, ...]) -> None:
    """Replaces the rows behind a reverse relation when they say anything else than `rows`."""

    def said(row: object) -> tuple[object, ...]:
        return tuple(getattr(row, name) for name in columns)

    if [said(row) for row in related.all()] != [said(row) for row in rows]:
        related.all().delete()
        related.model.objects.bulk_create(rows)


def _columns(facts: CropFacts, emergence: SeedTable | None, limits: SeedTable | None) -> dict[str, object]:
    values = {name: getattr(facts, name) for name in ("name", "botanical_name", "family", *FACT_FIELDS)}
    return {
        **{name: value.value if isinstance(value, StrEnum) else value for name, value in values.items()},
        "maturity_from": facts.maturity_from.value if facts.maturity_from else "",
        "emergence_table_id": emergence and emergence.pk,
        "limits_table_id": limits and limits.pk,
    }


def _take(row: object, values: Mapping[str, object]) -> bool:
    """Sets attributes; whether any of them was different."""
    differing = {name: value for name, value in values.items() if getattr(row, name) != value}
    for name, value in differing.items():
        setattr(row, name, value)
    return bool(differing)


def _values(row: object, columns: tuple[str, ...]) -> dict[str, object]:
    return {name: getattr(row, name) for name in columns}


Citation = tuple[str, str, str, str, frozenset[str]]


def _citation(row: tables.Provenance) -> Citation:
    return (row.group, " ".join(row.fields), row.basis.value, row.memory_note, frozenset(row.source_ids))


def _told_sources(crops: Iterable[Crop]) -> dict[str, set[Citation]]:
    """What the stored crops cite, by slug."""
    told: dict[str, set[Citation]] = {}
    for row in (
        FactSource.objects.filter(crop__in=list(crops)).select_related("crop").prefetch_related("sources")
    ):
        keys = frozenset(source.key for source in row.sources.all())
        told.setdefault(row.crop.slug, set()).add(
            (row.field_group, row.fields, row.basis, row.memory_note, keys)
        )
    return told


def _store_provenance(
    cited: Sequence[tuple[Crop, Iterable[tables.Provenance]]], sources: Mapping[str, Source]
) -> None:
    """Replaces what crops cite, all of them in three statements."""
    FactSource.objects.filter(crop__in=[crop for crop, _rows in cited]).delete()
    told = [(crop, row) for crop, rows in cited for row in rows]
    stored = FactSource.objects.bulk_create(
        FactSource(
            crop=crop,
            field_group=row.group,
            fields=" ".join(row.fields),
            basis=row.basis.value,
            memory_note=row.memory_note,
        )
        for crop, row in told
    )
    links = FactSource.sources.through
    links.objects.bulk_create(
        links(factsource=fact_source, source=sources[source_id])
        for fact_source, (_crop, row) in zip(stored, told, strict=True)
        for source_id in row.source_ids
    )


def _remove_gone(crops: Iterable[Crop], changes: CatalogueChanges) -> None:
    for crop in crops:
        if crop.plantings.exists() or crop.varieties.exists():
            changes.kept.append(crop.slug)
        else:
            crop.delete()
            changes.removed.append(crop.slug)
