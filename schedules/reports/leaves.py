"""Sheets whose every word has a place of its own, drawn straight onto pages.

What lies on many pages (words, their breaks into lines, marks, the frost behind a season) is worked out once:
a garden prints hundreds of calendars in one file. Places are points from the lower left corner.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache
from io import BytesIO

from django.utils.formats import date_format
from django.utils.translation import get_language, gettext
from reportlab.graphics.shapes import Shape, String
from reportlab.lib.colors import Color
from reportlab.pdfbase.pdfmetrics import getFont
from reportlab.pdfgen.canvas import Canvas

from schedules.reports import fonts, ink
from schedules.reports.operators import filling, n, operators, stroking
from schedules.reports.sheet import is_from_the_right

_CACHED = 60_000
_WIDE = 400.0  # points between the margins: whole pages, not halves
_ESCAPED = [
    f"\\{code:03o}" if code < 32 or code > 126 else f"\\{chr(code)}" if chr(code) in "\\()" else chr(code)
    for code in range(256)
]


@dataclass(frozen=True, slots=True)
class Sizes:
    """Sizes of type in points; nothing of the `LARGE` ones is below 18."""

    title: float
    heading: float
    body: float
    small: float

    @property
    def leading(self) -> float:
        """From one line of body text to the next."""
        return round(self.body * 1.32, 1)

    @property
    def small_leading(self) -> float:
        return round(self.small * 1.28, 1)


_NARROWER = (0.9, 0.8, 0.7, 0.6)
USUAL = Sizes(title=27.0, heading=16.0, body=10.5, small=9.5)
LARGE = Sizes(title=30.0, heading=23.0, body=18.0, small=18.0)


@lru_cache(maxsize=_CACHED)
def legible(text: str) -> str:
    """As `fonts.legible`, remembered."""
    return fonts.legible(text)


@lru_cache(maxsize=_CACHED)
def lost(text: str) -> bool:
    """Whether letters of the text stand written out in brackets."""
    missing: set[str] = set()
    fonts.legible(text, missing)
    return bool(missing)


@lru_cache(maxsize=_CACHED)
def width_of(text: str, size: float, font: str = fonts.BODY) -> float:
    """As `fonts.width_of`, remembered."""
    return fonts.width_of(text, size, font)


@lru_cache(maxsize=_CACHED)
def lines_of(text: str, size: float, room: float, font: str = fonts.BODY) -> tuple[str, ...]:
    """The text in legible lines no wider than `room`, broken as `fonts.broken` does."""
    # What must not be broken at a space is kept through `legible`, which has but one kind of space.
    shown = "\u00a0".join(map(legible, text.split("\u00a0"))) if "\u00a0" in text else legible(text)
    parts = shown.splitlines() or [""]
    return tuple(line for part in parts for line in fonts.broken(part, size, room, font))


def without_orphan(text: str, size: float, room: float, font: str = fonts.BODY) -> tuple[str, ...]:
    """The same lines as evenly long as they can be where the last would be less than a quarter of one."""
    lines = lines_of(text, size, room, font)
    if len(lines) == 1 or width_of(lines[-1], size, font) >= room / 4:
        return lines
    for share in _NARROWER:
        closer = lines_of(text, size, room * share, font)
        if len(closer) == len(lines) and width_of(closer[-1], size, font) >= room / 4:
            return closer
    return lines


def at_once(number: int, count: int) -> int:
    """How many lines need room for line `number` of `count`: the first and the last never stand alone.

    >>> [at_once(number, 5) for number in (1, 2, 3, 4, 5)]
    [2, 1, 1, 2, 1]
    """
    return 2 if count > 1 and number in (1, count - 1) else 1


class Leaf:
    """One page in the making."""

    def __init__(self, book: Leaves, width: float, height: float) -> None:
        self.book, self.width, self.height = book, width, height
        self.operators: list[str] = []
        self.bookmarks: list[tuple[str, int]] = []
        self._fill: Color | None = None

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        *,
        font: str = fonts.BODY,
        color: Color = ink.INK,
        anchor: str = "start",
    ) -> None:
        """Text standing on the line y; `anchor` is start, middle or end."""
        if not text:
            return
        shown = legible(text)
        if anchor != "start":
            wide = width_of(shown, size, font)
            x -= wide if anchor == "end" else wide / 2
        if color is not self._fill:
            self._fill = color
            self.operators.append(filling(color))
        runs = " ".join(f"{name} {size:g} Tf ({codes}) Tj" for name, codes in self.book.shown(shown, font))
        self.operators.append(f"BT 1 0 0 1 {x:.2f} {y:.2f} Tm {runs} ET")

    def lines(
        self,
        x: float,
        y: float,
        lines: Iterable[str],
        size: float,
        leading: float,
        *,
        font: str = fonts.BODY,
        color: Color = ink.INK,
    ) -> None:
        """Lines below each other, the first standing on y."""
        for at, line in enumerate(lines):
            self.text(x, y - at * leading, line, size, font=font, color=color)

    def rule(
        self,
        x1: float,
        y1: float,
        x2: float,
        y2: float,
        *,
        color: Color = ink.INK,
        width: float = ink.HAIR,
        dash: str = "",
    ) -> None:
        """A straight line; `dash` are lengths of strokes and gaps, as in "1.5 3"."""
        pen = f"{stroking(color)} {n(width)} w [{dash}] 0 d"
        self.operators.append(f"{pen} {n(x1)} {n(y1)} m {n(x2)} {n(y2)} l S")

    def box(self, x: float, y: float, side: float) -> None:
        """An empty box to tick, standing on y."""
        self.operators.append(f"{stroking(ink.INK)} 0.9 w [] 0 d {n(x)} {n(y)} {n(side)} {n(side)} re S")

    def place(self, drawn: str, x: float, y: float, scale: float = 1.0) -> None:
        """Operators with their own origin put at (x, y)."""
        size = n(scale) if scale == 1 else f"{scale:.4f}"
        self.operators.append(f"q {size} 0 0 {size} {n(x)} {n(y)} cm {drawn} Q")

    def drawing(self, shapes: Iterable[Shape], x: float, y: float, scale: float = 1.0) -> None:
        """Shapes and words of a drawing with its origin at (x, y)."""
        waiting: list[Shape] = []
        for shape in shapes:
            if not isinstance(shape, String):
                waiting.append(shape)
                continue
            self._flush(waiting, x, y, scale)
            self.text(
                x + shape.x * scale,
                y + shape.y * scale,
                shape.text,
                shape.fontSize * scale,
                font=shape.fontName,
                color=shape.fillColor,
                anchor=shape.textAnchor,
            )
        self._flush(waiting, x, y, scale)

    def _flush(self, waiting: list[Shape], x: float, y: float, scale: float) -> None:
        if waiting:
            self.place(operators(waiting), x, y, scale)
            waiting.clear()


@dataclass(frozen=True, slots=True)
class Foot:
    """What stands at the foot of a sheet's pages; `record` says where its dates came from."""

    garden: str
    title: str
    record: str
    printed_on: date

    def height(self, width: float, sizes: Sizes) -> float:
        """How much of the page it takes above the lower margin."""
        above = 1 if self._beside(width, sizes) else 2 if self._page_beside(width, sizes) else 3
        return 9 + (above + len(lines_of(self.record, sizes.small, width))) * sizes.small_leading

    def _printed(self) -> str:
        return gettext("printed {date}").format(date=date_format(self.printed_on, "DATE_FORMAT"))

    def _beside(self, width: float, sizes: Sizes) -> bool:
        """Whether date and page stand beside the garden's name."""
        return sizes is not LARGE and width >= _WIDE

    def _page_beside(self, width: float, sizes: Sizes) -> bool:
        """Whether the page stands beside the date, be its number as long as can be."""
        longest = legible(f"{self._printed()}  ·  {page_of(999, 999)}")
        return width_of(longest, sizes.small) <= width

    def draw(self, leaf: Leaf, left: float, bottom: float, width: float, sizes: Sizes, page: str) -> None:
        """Draws it on the page, `page` being the words of its number."""
        size, leading = sizes.small, sizes.small_leading
        right = left + width
        y = bottom + self.height(width, sizes) - 1
        leaf.rule(left, y, right, y)
        y -= size + 2
        name, printed = legible(f"{self.garden}  ·  {self.title}"), self._printed()
        if self._beside(width, sizes):
            both = f"{printed}  ·  {page}"
            room = width - width_of(legible(both), size) - 12
            leaf.text(left, y, _shortened(name, size, room), size, color=ink.QUIET)
            leaf.text(right, y, both, size, color=ink.QUIET, anchor="end")
        else:
            leaf.text(left, y, _shortened(name, size, width), size, color=ink.QUIET)
            y -= leading
            leaf.text(left, y, printed, size, color=ink.QUIET)
            if not self._page_beside(width, sizes):
                y -= leading
            leaf.text(right, y, page, size, color=ink.QUIET, anchor="end")
        y -= leading
        leaf.lines(left, y, lines_of(self.record, size, width), size, leading, color=ink.QUIET)


def page_of(number: int, count: int) -> str:
    """The number of a page in words."""
    return gettext("page {number} of {count}").format(number=number, count=count)


@lru_cache(maxsize=2000)
def _shortened(text: str, size: float, room: float) -> str:
    return fonts.shortened(text, size, room)


class Leaves:
    """The file that the pages come into, with title, author, language and an outline."""

    def __init__(self, *, title: str, author: str, subject: str, language: str) -> None:
        fonts.register()
        self._out = BytesIO()
        self._canvas = Canvas(self._out, lang=language, invariant=1, initialFontName=fonts.BODY)
        self._canvas.setTitle(title)
        self._canvas.setAuthor(author)
        self._canvas.setSubject(subject)
        self._canvas.setCreator("Trugbook")
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        self._shown: dict[tuple[str, str, str], tuple[tuple[str, str], ...]] = {}
        self._kept: dict[Hashable, str] = {}
        self._bookmarks = 0

    def leaf(self, width: float, height: float) -> Leaf:
        """A page that is not yet in the file."""
        return Leaf(self, width, height)

    def kept(self, key: Hashable, make: Callable[[], Iterable[Shape]]) -> str:
        """The operators of a drawing without words, written out once in a file."""
        if key not in self._kept:
            self._kept[key] = operators(make())
        return self._kept[key]

    def shown(self, text: str, font: str) -> tuple[tuple[str, str], ...]:
        """Legible text as the file's fonts write it: pieces with the name of the font that holds each.

        It is read as the active language is, whatever letters it begins with.
        """
        language = get_language() or ""
        key = text, font, language
        if key not in self._shown:
            document, from_right = self._canvas._doc, is_from_the_right(language)
            self._shown[key] = tuple(
                (face.getSubsetInternalName(subset, document), "".join(_ESCAPED[code] for code in codes))
                for face, part in ((getFont(name), part) for name, part in fonts.runs(text, font, from_right))
                for subset, codes in face.splitString(part, document)
            )
        return self._shown[key]

    def add(self, leaves: Iterable[Leaf]) -> None:
        """Puts finished pages into the file, in order."""
        for leaf in leaves:
            self._canvas.setPageSize((leaf.width, leaf.height))
            for title, level in leaf.bookmarks:
                self._mark(title, level)
            self._canvas.addLiteral("\n".join(leaf.operators))
            self._canvas.showPage()

    def _mark(self, title: str, level: int) -> None:
        self._bookmarks += 1
        key = f"leaf{self._bookmarks}"
        self._canvas.bookmarkPage(key)
        self._canvas.addOutlineEntry(title, key, level, closed=True)

    def finished(self) -> bytes:
        """The file."""
        self._canvas.save()
        return self._out.getvalue()


@dataclass
class Flow:
    """Goes down a page and on to the next, which begins with `head` (returning the y below it)."""

    book: Leaves
    size: tuple[float, float]
    left: float
    top: float
    bottom: float
    head: Callable[[Leaf], float] | None = None
    leaves: list[Leaf] = field(default_factory=list)
    y: float = 0.0

    @property
    def leaf(self) -> Leaf:
        return self.leaves[-1]

    @property
    def width(self) -> float:
        """Between the margins."""
        return self.size[0] - 2 * self.left

    @property
    def right(self) -> float:
        return self.size[0] - self.left

    def turn(self) -> None:
        """A new page."""
        self.leaves.append(self.book.leaf(*self.size))
        self.y = self.size[1] - self.top
        if self.head is not None:
            self.y = self.head(self.leaf)

    def room(self, height: float) -> bool:
        """Whether a new page was begun because less than `height` was left."""
        if self.y - height >= self.bottom:
            return False
        self.turn()
        return True
