"""The sheet of facts of one crop or variety as rows for a page, each with where its figures come from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from crops.facts import CropFacts
from crops.models import FactSource, Source
from crops.sheet import SECTIONS, Line
from crops.wording.facts import SECTION_TITLES, line_label, line_text


@dataclass(frozen=True, slots=True)
class NumberedSource:
    """A source with its number on this page: a page that was read, or what somebody remembers."""

    number: int
    title: str
    source: Source | None = None


@dataclass(frozen=True, slots=True)
class Cited:
    """How a fact is known, in words, and the numbers of its sources on this page."""

    basis: str
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


class SourceList:
    """The sources of one page, numbered in the order in which they are first cited."""

    def __init__(self) -> None:
        self._found: dict[object, NumberedSource] = {}

    def __iter__(self) -> Iterator[NumberedSource]:
        return iter(self._found.values())

    def number(self, source: Source) -> int:
        """The number of a page or book."""
        return self._numbered(source.pk, source.title, source)

    def number_of_memory(self, note: str) -> int:
        """The number of something remembered, such as a handbook that was not looked up."""
        title = note.removeprefix("from memory: ")
        return self._numbered(title, title, None)

    def _numbered(self, key: object, title: str, source: Source | None) -> int:
        if key not in self._found:
            self._found[key] = NumberedSource(len(self._found) + 1, title, source)
        return self._found[key].number


def citations(groups: Iterable[FactSource], sources: SourceList) -> dict[str, Cited]:
    """How each fact is known, by its name; numbers every source that is cited."""
    cited = {}
    for group in groups:
        numbers = [sources.number(source) for source in group.sources.all()]
        if group.memory_note:
            numbers.append(sources.number_of_memory(group.memory_note))
        for name in group.fields.split():
            cited[name] = Cited(group.get_basis_display(), tuple(sorted(numbers)))
    return cited


def sections(facts: CropFacts, units: str, cited: Mapping[str, Cited]) -> list[SectionRows]:
    """Everything known, section by section; what is not known is left out."""
    found = []
    for section in SECTIONS:
        lines = [line for line in section.lines if not _needless(facts, line)]
        known = tuple(row for row in (_row(facts, line, units, cited) for line in lines) if row.text)
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


def _needless(facts: CropFacts, line: Line) -> bool:
    """What is said with the days it counts, and that a crop is like most and does not stay."""
    return line.fields == ("maturity_from",) or (line.fields == ("perennial",) and not facts.perennial)


def _row(facts: CropFacts, line: Line, units: str, cited: Mapping[str, Cited]) -> FactRow:
    return FactRow(line_label(line), line_text(facts, line, units), cited.get(line.fields[0]))


def _against(row: FactRow, crop_text: str, own: Cited) -> FactRow:
    return row if row.text == crop_text else replace(row, cited=own, instead_of=crop_text)
