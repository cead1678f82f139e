"""The sheet of facts of one crop or variety as rows for a page, each with where its figures come from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from crops.facts import CropFacts
from crops.models import FactSource, Source
from crops.sheet import SECTIONS, Line
from crops.wording.facts import SECTION_TITLES, line_label, line_text

_SAID_ELSEWHERE = {"maturity_from"}  # said with the days that it counts


@dataclass(frozen=True, slots=True)
class NumberedSource:
    """A source with its number on this page."""

    number: int
    source: Source


@dataclass(frozen=True, slots=True)
class Cited:
    """How a fact is known: in words, from which numbered sources, and from whose memory of what."""

    basis: str
    memory: str = ""
    numbers: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class FactRow:
    """A line of the page; `instead_of` is what the crop says where a variety differs."""

    label: str
    text: str
    cited: Cited | None
    instead_of: str = ""


@dataclass(frozen=True, slots=True)
class SectionRows:
    """A section of the page."""

    key: str
    title: str
    rows: tuple[FactRow, ...]


def numbered(groups: Iterable[FactSource], others: Iterable[Source]) -> dict[int, NumberedSource]:
    """The sources of a page in the order in which they are first cited, by primary key."""
    found: dict[int, NumberedSource] = {}
    for source in [*(source for group in groups for source in group.sources.all()), *others]:
        if source.pk not in found:
            found[source.pk] = NumberedSource(len(found) + 1, source)
    return found


def citations(groups: Iterable[FactSource], sources: Mapping[int, NumberedSource]) -> dict[str, Cited]:
    """How each fact is known, by its name."""
    return {
        name: Cited(
            basis=group.get_basis_display(),
            memory=group.memory_note.removeprefix("from memory: "),
            numbers=tuple(sorted(sources[source.pk].number for source in group.sources.all())),
        )
        for group in groups
        for name in group.fields.split()
    }


def sections(facts: CropFacts, units: str, cited: Mapping[str, Cited]) -> list[SectionRows]:
    """Everything known, section by section; what is not known is left out."""
    found = []
    for section in SECTIONS:
        rows = [
            _row(facts, line, units, cited) for line in section.lines if line.fields[0] not in _SAID_ELSEWHERE
        ]
        known = tuple(row for row in rows if row.text)
        if known:
            found.append(SectionRows(section.key, str(SECTION_TITLES[section.key]), known))
    return found


def own_sections(
    facts: CropFacts, crop_facts: CropFacts, units: str, own: Cited, cited: Mapping[str, Cited]
) -> list[SectionRows]:
    """As `sections`, for a variety: rows in which it differs from its crop say what the crop has instead."""
    lines = {line_label(line): line for section in SECTIONS for line in section.lines}
    found = []
    for section in sections(facts, units, cited):
        rows = tuple(
            _against(row, line_text(crop_facts, lines[row.label], units), own) for row in section.rows
        )
        found.append(replace(section, rows=rows))
    return found


def _row(facts: CropFacts, line: Line, units: str, cited: Mapping[str, Cited]) -> FactRow:
    return FactRow(line_label(line), line_text(facts, line, units), cited.get(line.fields[0]))


def _against(row: FactRow, crop_text: str, own: Cited) -> FactRow:
    return row if row.text == crop_text else replace(row, cited=own, instead_of=crop_text)
