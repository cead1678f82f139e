"""Reads the crop catalogue, whose tables keep the units in which they were published, into facts in SI units.

The folder holds `crops.csv` (one row per crop), `crops_provenance.csv` (where each group of its facts comes
from), `emergence.csv` and `germination_limits.csv` (published tables, rivals side by side) and `sources.csv`.
"""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any, TypeVar

from crops.facts import CountedFrom, CropFacts, EmergencePoint, Hardiness, Method
from plots.quantities import GALLON, INCH, fahrenheit_to_celsius

FOLDER = Path(__file__).resolve().parent.parent / "fixtures" / "catalogue"
NO_EMERGENCE = "NG"

T = TypeVar("T")


class CatalogueError(ValueError):
    """A table of the catalogue cannot be read; the message names the file, the line and what is wrong."""


class FactBasis(StrEnum):
    """How a fact is known: seen on its page, a page together with judgement, or from memory alone."""

    SEEN = "seen"
    MIXED = "mixed"
    MEMORY = "memory"


@dataclass(frozen=True, slots=True)
class SourceRow:
    """A page or book that facts were taken from, and how much of it was seen."""

    id: str
    title: str
    publisher: str
    year: str
    url: str
    seen: str


@dataclass(frozen=True, slots=True)
class Provenance:
    """Where some facts of one crop come from; `fields` are names of `CropFacts`."""

    group: str
    fields: tuple[str, ...]
    basis: FactBasis
    memory_note: str
    source_ids: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class EmergenceCell:
    """One cell of the published emergence table: days at a constant soil temperature.

    `days` is `None` both where nothing came up (`none_came_up`) and where the temperature was not tested.
    """

    key: str
    celsius: float
    days: float | None
    none_came_up: bool
    percent_normal: float | None
    source_id: str
    comment: str


@dataclass(frozen=True, slots=True)
class LimitRow:
    """One source's soil temperatures for germination, °C; rival sources stay separate rows."""

    key: str
    min_c: float | None
    optimum_low_c: float | None
    optimum_high_c: float | None
    optimum_c: float | None
    max_c: float | None
    source_id: str
    comment: str


@dataclass(frozen=True)
class Catalogue:
    """Everything the tables say: `crops` and `provenance` by slug, `emergence` and `limits` by table key."""

    crops: Mapping[str, CropFacts]
    provenance: Mapping[str, tuple[Provenance, ...]]
    sources: Mapping[str, SourceRow]
    emergence: Mapping[str, tuple[EmergenceCell, ...]]
    limits: Mapping[str, tuple[LimitRow, ...]]


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of a table, with its place for error messages."""

    place: str
    cells: Mapping[str, str]

    def text(self, column: str) -> str:
        try:
            return self.cells[column].strip()
        except KeyError as error:
            raise CatalogueError(f"{self.place}: the column {column} is missing") from error

    def maybe(self, column: str, convert: Callable[[str], T]) -> T | None:
        text = self.text(column)
        return self.read(column, convert) if text else None

    def read(self, column: str, convert: Callable[[str], T]) -> T:
        text = self.text(column)
        try:
            return convert(text)
        except (ValueError, KeyError) as error:
            raise CatalogueError(f"{self.place}: {column} cannot be {text!r}") from error


def _temperature(text: str) -> float:
    return round(fahrenheit_to_celsius(float(text)), 1)  # a tenth, as in weather records: 28 °F is -2.2 °C


def _inches(text: str) -> float:
    return INCH.to_si(float(text))


def _litres(text: str) -> float:
    return GALLON.to_si(float(text))


def _yes(text: str) -> bool:
    return {"yes": True, "no": False}[text]


def _one_of(*words: str) -> Callable[[str], str]:
    return {word.replace("-", " "): word for word in words}.__getitem__


_COLUMNS: dict[str, tuple[str, Callable[[str], Any]]] = {
    "common_name": ("name", str),
    "botanical_name": ("botanical_name", str),
    "family": ("family", str),
    "hardiness": ("hardiness", Hardiness),
    "method": ("method", Method),
    "sow_depth_in": ("sow_depth_m", _inches),
    "seedling_spacing_in": ("seedling_spacing_m", _inches),
    "final_spacing_in": ("spacing_m", _inches),
    "row_spacing_in": ("row_spacing_m", _inches),
    "thin_height_or_leaves": ("thin_when", str),
    "days_emerge_opt": ("emergence_days_optimum", float),
    "soil_min_f": ("soil_min_c", _temperature),
    "soil_opt_low_f": ("soil_optimum_low_c", _temperature),
    "soil_opt_high_f": ("soil_optimum_high_c", _temperature),
    "soil_max_f": ("soil_max_c", _temperature),
    "indoor_weeks_low": ("indoor_weeks_low", float),
    "indoor_weeks_high": ("indoor_weeks_high", float),
    "spring_outdoor_sow_weeks_early": ("sow_weeks_early", float),
    "spring_outdoor_sow_weeks_late": ("sow_weeks_late", float),
    "transplant_weeks_early": ("transplant_weeks_early", float),
    "transplant_weeks_late": ("transplant_weeks_late", float),
    "dtm_low": ("maturity_days_low", int),
    "dtm_high": ("maturity_days_high", int),
    "dtm_counted_from": ("maturity_from", CountedFrom),
    "harvest_days_low": ("harvest_days_low", int),
    "harvest_days_high": ("harvest_days_high", int),
    "fall_crop": ("fall_crop", _yes),
    "fall_frost_margin_days": ("fall_margin_days", int),
    "succession_days": ("succession_days", int),
    "sun_hours_min": ("sun_hours_min", float),
    "support": ("support", _one_of("none", "stake", "cage", "trellis", "optional-trellis")),
    "height_in": ("height_m", _inches),
    "container_min_gal": ("container_litres", _litres),
    "nitrogen_demand": ("nitrogen_demand", _one_of("light", "medium", "heavy")),
    "rooting_depth_class": ("rooting_depth_class", _one_of("shallow", "medium", "deep")),
    "grow_min_f": ("growth_min_c", _temperature),
    "grow_opt_low_f": ("growth_optimum_low_c", _temperature),
    "grow_opt_high_f": ("growth_optimum_high_c", _temperature),
    "grow_max_f": ("growth_max_c", _temperature),
    "kill_f": ("kill_c", _temperature),
    "autumn_plant_weeks_early": ("autumn_weeks_early", float),
    "autumn_plant_weeks_late": ("autumn_weeks_late", float),
    "perennial": ("perennial", _yes),
    "first_harvest_year": ("first_harvest_year", int),
    "emergence_key": ("emergence_key", str),
}


def load_catalogue(folder: Path = FOLDER) -> Catalogue:
    """Reads and checks the tables in `folder`; `CatalogueError` names the place of the first mistake."""
    sources = _read_sources(folder)
    emergence = _read_emergence(folder, sources)
    crops = _read_crops(folder, emergence)
    return Catalogue(
        crops=crops,
        provenance=_read_provenance(folder, crops, sources),
        sources=sources,
        emergence=emergence,
        limits=_read_limits(folder, sources),
    )


def _rows(path: Path) -> Iterator[_Row]:
    try:
        with path.open(encoding="utf-8", newline="") as file:
            for line, cells in enumerate(csv.DictReader(file), start=2):
                if None in cells or None in cells.values():
                    raise CatalogueError(f"{path.name}, line {line}: not as many cells as there are columns")
                yield _Row(f"{path.name}, line {line}", cells)
    except OSError as error:
        raise CatalogueError(f"{path} cannot be read: {error.strerror}") from error


def _read_sources(folder: Path) -> dict[str, SourceRow]:
    found: dict[str, SourceRow] = {}
    for row in _rows(folder / "sources.csv"):
        source = SourceRow(
            id=row.text("id"),
            title=row.text("title"),
            publisher=row.text("publisher"),
            year=row.text("year"),
            url=row.text("url"),
            seen=row.text("seen_or_memory"),
        )
        if source.id in found:
            raise CatalogueError(f"{row.place}: {source.id} is there twice")
        found[source.id] = source
    return found


def _read_emergence(folder: Path, sources: Mapping[str, SourceRow]) -> dict[str, tuple[EmergenceCell, ...]]:
    found: defaultdict[str, list[EmergenceCell]] = defaultdict(list)
    for row in _rows(folder / "emergence.csv"):
        none_came_up = row.maybe("note", {NO_EMERGENCE: True}.__getitem__)
        cell = EmergenceCell(
            key=row.text("crop"),
            celsius=row.read("temp_f", lambda text: fahrenheit_to_celsius(float(text))),
            days=row.maybe("days", float),
            none_came_up=bool(none_came_up),
            percent_normal=row.maybe("pct_normal_seedlings", float),
            source_id=_known(row, "source_id", row.text("source_id"), sources),
            comment=row.text("comment"),
        )
        if cell.none_came_up and cell.days is not None:
            raise CatalogueError(f"{row.place}: days and {NO_EMERGENCE} exclude each other")
        found[cell.key].append(cell)
    return {key: tuple(sorted(cells, key=lambda cell: cell.celsius)) for key, cells in found.items()}


def _read_crops(folder: Path, emergence: Mapping[str, tuple[EmergenceCell, ...]]) -> dict[str, CropFacts]:
    found: dict[str, CropFacts] = {}
    for row in _rows(folder / "crops.csv"):
        slug = row.text("slug")
        if slug in found:
            raise CatalogueError(f"{row.place}: {slug} is there twice")
        values = {
            name: row.read(column, convert)
            for column, (name, convert) in _COLUMNS.items()
            if row.text(column) or column in ("common_name", "hardiness", "method")
        }
        key = values.get("emergence_key", "")
        if key:
            _known(row, "emergence_key", key, emergence)
        points = emergence_points(emergence.get(key, ()))
        found[slug] = CropFacts(**{"botanical_name": "", "family": "", **values}, slug=slug, emergence=points)
    return found


def emergence_points(cells: tuple[EmergenceCell, ...]) -> tuple[EmergencePoint, ...]:
    """The cells that were tested, coldest first, as the facts of a crop carry them."""
    return tuple(
        EmergencePoint(celsius=cell.celsius, days=cell.days)
        for cell in cells
        if cell.none_came_up or cell.days is not None
    )


def _read_provenance(
    folder: Path, crops: Mapping[str, CropFacts], sources: Mapping[str, SourceRow]
) -> dict[str, tuple[Provenance, ...]]:
    found: defaultdict[str, list[Provenance]] = defaultdict(list)
    for row in _rows(folder / "crops_provenance.csv"):
        slug = _known(row, "slug", row.text("slug"), crops)
        columns = row.text("fields").split()
        ids = [part.strip() for part in row.text("seen_source_ids").split(";") if part.strip()]
        found[slug].append(
            Provenance(
                group=row.text("field_group"),
                fields=tuple(_COLUMNS[_known(row, "fields", column, _COLUMNS)][0] for column in columns),
                basis=row.read("basis", FactBasis),
                memory_note=row.text("memory_source"),
                source_ids=tuple(_known(row, "seen_source_ids", id_, sources) for id_ in ids),
            )
        )
    return {slug: tuple(rows) for slug, rows in found.items()}


def _read_limits(folder: Path, sources: Mapping[str, SourceRow]) -> dict[str, tuple[LimitRow, ...]]:
    found: defaultdict[str, list[LimitRow]] = defaultdict(list)
    for row in _rows(folder / "germination_limits.csv"):
        found[row.text("crop")].append(
            LimitRow(
                key=row.text("crop"),
                min_c=row.maybe("min_f", _temperature),
                optimum_low_c=row.maybe("opt_low_f", _temperature),
                optimum_high_c=row.maybe("opt_high_f", _temperature),
                optimum_c=row.maybe("opt_f", _temperature),
                max_c=row.maybe("max_f", _temperature),
                source_id=_known(row, "source_id", row.text("source_id"), sources),
                comment=row.text("comment"),
            )
        )
    return {key: tuple(rows) for key, rows in found.items()}


def _known(row: _Row, column: str, name: str, names: Mapping[str, object]) -> str:
    if name not in names:
        raise CatalogueError(f"{row.place}: {column} names {name!r}, which is nowhere in the catalogue")
    return name
