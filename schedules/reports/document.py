"""A sheet before it is set: its head and its blocks, as plain values, words already translated.

A sheet is worked out once into a `Document`; the page on screen, the PDF and the CSV are all made from it, so
that they cannot differ. `Page` is the pen that a sheet is written with. Nothing here knows of fonts or tags.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing


WRITING_LINE = 26.0  # points between lines to write on by hand
ROOM = 110.0  # points on its page for a heading and the beginning of what it heads


@dataclass(frozen=True, slots=True)
class Head:
    """Whose sheet it is: `paper` is "letter" or "a4", `language` a tag; `note` stands small at every foot.

    A `large` sheet is set in 18 points and more.
    """

    garden: str
    title: str
    paper: str
    language: str
    printed_on: date
    subtitle: str = ""
    note: str = ""
    large: bool = False


@dataclass(frozen=True, slots=True)
class Title:
    """Begins a sheet on a page of its own, which the file's outline names.

    `code` is an address to scan, set beside it.
    """

    text: str
    subtitle: str = ""
    code: str = ""


@dataclass(frozen=True, slots=True)
class Heading:
    """Heads what follows, which begins on the same page: `room` points of it, or more."""

    text: str
    room: float = 0.0


@dataclass(frozen=True, slots=True)
class Text:
    """Text as people wrote it; a new line begins a paragraph."""

    text: str


@dataclass(frozen=True, slots=True)
class Loud:
    """Text in letters that can be read from some steps away, as large as one page has room for."""

    text: str


@dataclass(frozen=True, slots=True)
class Quiet:
    """Small print: where something comes from, how it is meant."""

    text: str


@dataclass(frozen=True, slots=True)
class Points:
    """Short items, one below the other; `numbered` where their order counts."""

    items: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Caution:
    """A hazard and what to do about it, set apart so that nobody reads past it."""

    text: str


@dataclass(frozen=True, slots=True)
class Facts:
    """Words on the left, what they are on the right, `label_share` of the width for the words."""

    pairs: tuple[tuple[str, str], ...]
    label_share: float = 0.3

    @property
    def grid(self) -> Grid:
        """The same as a table."""
        return Grid(self.pairs, (self.label_share, 1 - self.label_share))


@dataclass(frozen=True, slots=True)
class Grid:
    """A ruled table; its titles come again on each page, its columns part the width by `shares`.

    With `row_height` (points) no row is lower, for writing into; with `parted`, cells are parted; with
    `to_the_end` empty rows follow as far as the page reaches. Columns in `numbers` are set to the right.
    In a `grouped` one, rows with the same first cell belong together, and paper shows it once on a page.
    """

    rows: tuple[tuple[str, ...], ...]
    shares: tuple[float, ...]
    titles: tuple[str, ...] = ()
    row_height: float | None = None
    parted: bool = False
    numbers: frozenset[int] = frozenset()
    name: str = ""  # of the table in a CSV
    to_the_end: bool = False
    close: bool = False  # its lines to each other, for its sheet to hold many
    grouped: bool = False


@dataclass(frozen=True, slots=True)
class Lines:
    """Empty lines to write on."""

    count: int


@dataclass(frozen=True, slots=True)
class Notes:
    """Rows to write in by hand, as far as the page reaches and its sources leave room; none where few fit."""

    text: str  # heads them
    titles: tuple[str, ...]
    shares: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Signature:
    """Lines to sign on, side by side, each over its words."""

    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Chart:
    """A drawing made as wide as it is asked for, said in words by `alt`, with its numbers in `table`.

    The table stands behind it on the page and in the CSV, not on paper. One `to_scale` is set as it is drawn,
    in parts where it is larger than its page.
    """

    draw: Callable[[float], Drawing]
    alt: str
    table: Grid | None = None
    to_scale: bool = False


@dataclass(frozen=True, slots=True)
class Key:
    """Small drawings, each beside the words that it stands for."""

    entries: tuple[tuple[Drawing, str], ...]
    columns: int = 3


@dataclass(frozen=True, slots=True)
class Card:
    """A card to cut out: for whom, what it says, and an address to scan and to type."""

    name: str
    lines: tuple[str, ...]
    code: str = ""


@dataclass(frozen=True, slots=True)
class Cards:
    """Cards side by side, with lines to cut along."""

    cards: tuple[Card, ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo, as JPEG, and the words below it."""

    jpeg: bytes
    alt: str
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Sources:
    """What a sheet rests on, small at its end."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Gap:
    """So many points of nothing."""

    points: float = 10.0


@dataclass(frozen=True, slots=True)
class Break:
    """Goes on on a new page."""


Written = Title | Heading | Text | Loud | Quiet | Points | Caution | Sources
Block = Written | Facts | Grid | Lines | Notes | Signature | Chart | Key | Cards | Picture | Gap | Break


@dataclass(frozen=True, slots=True)
class Document:
    """A finished sheet, or several one after the other; `across` lays its pages on their side."""

    head: Head
    blocks: tuple[Block, ...]
    across: bool = False

    @property
    def tables(self) -> tuple[tuple[str, Grid], ...]:
        """Its tables in order, facts and those behind charts among them, each with a name of what it shows.

        That is its own, or the heading's above it; of several sheets it begins with the sheet's.
        """
        found: list[tuple[str, Grid]] = []
        several = sum(isinstance(block, Title) for block in self.blocks) > 1
        sheet = above = ""
        for block in self.blocks:
            match block:
                case Title(text, subtitle):
                    above = f"{text}, {subtitle}" if several and subtitle else text
                    sheet = f"{above}: " if several else ""
                case Heading(text):
                    above = f"{sheet}{text}"
                case Grid():
                    found.append((f"{sheet}{block.name}" if block.name else above, block))
                case Chart(_draw, alt, table) if table is not None:
                    found.append((table.name or alt, table))
                case Facts():
                    found.append((above, block.grid))
        return tuple(found)

    @property
    def sheets(self) -> int:
        """How many titled sheets it is made of."""
        return sum(isinstance(block, Title) for block in self.blocks)

    def words(self) -> Iterator[str]:
        """Every text that stands in it."""
        yield from (self.head.title, self.head.subtitle, self.head.note)
        for block in self.blocks:
            yield from _texts(block)

    def and_then(self, others: Iterable[Document]) -> Document:
        """This document with others after it, under its own head."""
        blocks = self.blocks
        for other in others:
            blocks += other.blocks
        return replace(self, blocks=blocks)


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for part in value:
            yield from _texts(part)
    elif isinstance(value, Block):
        for one in fields(value):
            yield from _texts(getattr(value, one.name))


class Page:
    """A sheet in the making; what is added flows over as many pages as it needs.

    An untitled one begins with the first `next_sheet`.
    """

    def __init__(self, head: Head, *, across: bool = False, titled: bool = True) -> None:
        self.head, self.across = head, across
        self._blocks: list[Block] = []
        if titled:
            self.next_sheet(head.title, head.subtitle)

    def next_sheet(self, title: str, subtitle: str = "", code: str = "") -> None:
        """A page that begins with a title, with an address to scan beside it."""
        self._blocks.append(Title(title, subtitle, code))

    def heading(self, text: str, *, room: float = 0.0) -> None:
        self._blocks.append(Heading(text, room))

    def text(self, text: str) -> None:
        if text.strip():
            self._blocks.append(Text(text))

    def loud(self, text: str) -> None:
        if text.strip():
            self._blocks.append(Loud(text))

    def quiet(self, text: str) -> None:
        if text.strip():
            self._blocks.append(Quiet(text))

    def points(self, items: Iterable[str], *, numbered: bool = False) -> None:
        """Items one below the other; empty ones are left out."""
        kept = tuple(item for item in items if item.strip())
        if kept:
            self._blocks.append(Points(kept, numbered))

    def caution(self, text: str) -> None:
        self._blocks.append(Caution(text))

    def facts(self, pairs: Iterable[tuple[str, str]], *, label_share: float = 0.3) -> None:
        """Pairs without a right side are left out."""
        kept = tuple((label, value) for label, value in pairs if value)
        if kept:
            self._blocks.append(Facts(kept, label_share))

    def table(
        self,
        rows: Iterable[Sequence[str]],
        *,
        shares: Sequence[float],
        titles: Sequence[str] = (),
        row_height: float | None = None,
        grid: bool = False,
        numbers: Iterable[int] = (),
        name: str = "",
        to_the_end: bool = False,
        close: bool = False,
        grouped: bool = False,
    ) -> None:
        """A ruled table: see `Grid`; nothing where there are no rows to write or to write into."""
        cells = tuple(tuple(row) for row in rows)
        if cells or to_the_end:
            made = Grid(cells, tuple(shares), tuple(titles), row_height, grid, frozenset(numbers), name)
            self._blocks.append(replace(made, to_the_end=to_the_end, close=close, grouped=grouped))

    def writing_lines(self, count: int) -> None:
        if count:
            self._blocks.append(Lines(count))

    def notes(self, text: str, titles: Sequence[str], shares: Sequence[float]) -> None:
        """What is left of the page, ruled to write in; see `Notes`."""
        self._blocks.append(Notes(text, tuple(titles), tuple(shares)))

    def signature(self, *labels: str) -> None:
        self._blocks.append(Signature(labels))

    def chart(
        self, draw: Callable[[float], Drawing], alt: str, table: Grid | None = None, *, to_scale: bool = False
    ) -> None:
        self._blocks.append(Chart(draw, alt, table, to_scale))

    def key(self, entries: Iterable[tuple[Drawing, str]], *, columns: int = 3) -> None:
        """Small drawings beside their words."""
        kept = tuple(entries)
        if kept:
            self._blocks.append(Key(kept, columns))

    def cards(self, cards: Iterable[Card]) -> None:
        kept = tuple(cards)
        if kept:
            self._blocks.append(Cards(kept))

    def picture(self, jpeg: bytes, alt: str, caption: str = "") -> None:
        self._blocks.append(Picture(jpeg, alt, caption))

    def sources(self, items: Iterable[str]) -> None:
        kept = tuple(dict.fromkeys(item for item in items if item))
        if kept:
            self._blocks.append(Sources(kept))

    def gap(self, points: float = 10.0) -> None:
        self._blocks.append(Gap(points))

    def new_page(self) -> None:
        self._blocks.append(Break())

    def document(self) -> Document:
        """The finished sheet."""
        return Document(self.head, tuple(self._blocks), self.across)
