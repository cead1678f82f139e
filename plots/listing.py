"""Long lists: searching, filtering, sorting and turning pages, over rows of any kind.

A list is declared once (`Listing`) and asked with what stands in the address (`Listing.show`), so page and
CSV cannot differ. Wrong or old words in an address never fail: they count as not said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from typing import Any, Generic, TypeVar
from urllib.parse import urlencode

from plots.spelling import name_key, natural_key

Row = TypeVar("Row")
Cell = str | int | float | Decimal | date | datetime | bool | None

PAGE = 100


@dataclass(frozen=True)
class Column(Generic[Row]):
    """A column: its word in addresses, its heading, what stands in it; `order` where that sorts wrongly."""

    key: str
    title: str
    value: Callable[[Row], Cell]
    order: Callable[[Row], Cell] | None = None
    on_page: bool = True
    in_csv: bool = True


@dataclass(frozen=True)
class Filter(Generic[Row]):
    """A choice above the list; `keeps` says whether a row belongs to the chosen word."""

    key: str
    title: str
    choices: Sequence[tuple[str, str]]
    keeps: Callable[[Row, str], bool]


@dataclass(frozen=True)
class Head:
    """A column's heading on the page: `sort` is what its link asks for, `aria` the order it has now."""

    key: str
    title: str
    sort: str
    aria: str


@dataclass(frozen=True)
class Chosen:
    """A filter as the page shows it."""

    key: str
    title: str
    choices: Sequence[tuple[str, str]]
    value: str

    @property
    def words(self) -> str:
        """The chosen word as people read it."""
        return next((str(title) for word, title in self.choices if word == self.value), "")


@dataclass(frozen=True)
class Shown(Generic[Row]):
    """What was asked for: `found` rows of `total`, of which this page has `rows`; `every` is for the CSV."""

    rows: Sequence[Row]
    every: Sequence[Row]
    total: int
    page: int
    pages: int
    heads: Sequence[Head]
    filters: Sequence[Chosen]
    searched: bool
    query: str
    sort: str
    beside: Sequence[tuple[str, str]] = ()  # what else the address says, such as the year: it stays said

    @property
    def found(self) -> int:
        return len(self.every)

    @property
    def in_use(self) -> Sequence[Chosen]:
        """The filters that something was chosen in."""
        return [chosen for chosen in self.filters if chosen.value]

    @property
    def everything(self) -> str:
        """The query of the address that narrows nothing."""
        return f"?{urlencode(self.beside)}"

    @property
    def narrowed(self) -> bool:
        """Whether a search or filter leaves anything out of sight."""
        return bool(self.query or self.in_use)


@dataclass(frozen=True)
class Listing(Generic[Row]):
    """One list. `text` gives the words that a search looks through; without `sort` rows keep their order."""

    columns: Sequence[Column[Row]]
    filters: Sequence[Filter[Row]] = ()
    text: Callable[[Row], str] | None = None
    sort: str = ""
    page_size: int = field(default=PAGE)

    def show(self, rows: Iterable[Row], asked: Mapping[str, Any]) -> Shown[Row]:
        """The rows that are asked for by `q`, `sort` (`label`, `-label`), `page`, and each filter's word."""
        everything = list(rows)
        query = str(asked.get("q", "")).strip()[:100] if self.text else ""
        chosen = [self._chosen(one, asked) for one in self.filters]
        kept = self._kept(everything, query, chosen)
        sort = self._sort(str(asked.get("sort", "")))
        ordered = self._ordered(kept, sort)
        pages = max(1, -(-len(ordered) // self.page_size))
        page = min(_whole(asked.get("page")), pages)
        start = (page - 1) * self.page_size
        return Shown(
            rows=ordered[start : start + self.page_size],
            every=ordered,
            total=len(everything),
            page=page,
            pages=pages,
            heads=[self._head(column, sort) for column in self.columns if column.on_page],
            filters=chosen,
            searched=self.text is not None,
            query=query,
            sort=sort,
            beside=[(key, str(asked[key])) for key in asked if key not in self._own_words()],
        )

    def table(self, shown: Shown[Row]) -> tuple[list[str], list[list[Cell]]]:
        """Headings and rows of the CSV: everything found, not only this page."""
        columns = [column for column in self.columns if column.in_csv]
        titles = [str(column.title) for column in columns]
        return titles, [[column.value(row) for column in columns] for row in shown.every]

    def _own_words(self) -> set[str]:
        return {"q", "sort", "page", "as", *(one.key for one in self.filters)}

    def _chosen(self, one: Filter[Row], asked: Mapping[str, Any]) -> Chosen:
        word = str(asked.get(one.key, ""))
        known = word if any(word == choice for choice, _title in one.choices) else ""
        return Chosen(one.key, one.title, one.choices, known)

    def _kept(self, rows: list[Row], query: str, chosen: Sequence[Chosen]) -> list[Row]:
        for one, choice in zip(self.filters, chosen, strict=True):
            if choice.value:
                rows = [row for row in rows if one.keeps(row, choice.value)]
        words = name_key(query).split()
        if words and (text := self.text):
            rows = [row for row in rows if _has_all(name_key(text(row)), words)]
        return rows

    def _sort(self, asked: str) -> str:
        known = {column.key for column in self.columns}
        return asked if asked.removeprefix("-") in known else self.sort

    def _ordered(self, rows: list[Row], sort: str) -> list[Row]:
        if not sort:
            return rows
        column = next(column for column in self.columns if column.key == sort.removeprefix("-"))
        value = column.order or column.value
        empty = [row for row in rows if value(row) in (None, "")]
        filled = [row for row in rows if value(row) not in (None, "")]
        filled.sort(key=lambda row: _sort_key(value(row)), reverse=sort.startswith("-"))
        return filled + empty  # what is missing stands last, whichever way

    def _head(self, column: Column[Row], sort: str) -> Head:
        up, down = column.key, f"-{column.key}"
        aria = {up: "ascending", down: "descending"}.get(sort, "none")
        return Head(column.key, column.title, down if sort == up else up, aria)


def _has_all(text: str, words: Iterable[str]) -> bool:
    return all(word in text for word in words)


def _sort_key(value: Cell) -> Any:
    """As people look things up: 2 before 10, and Ç with C."""
    return natural_key(name_key(value)) if isinstance(value, str) else value


def _whole(text: Any) -> int:
    word = str(text or "1")
    return max(1, int(word)) if word.isascii() and word.isdigit() and len(word) < 7 else 1
