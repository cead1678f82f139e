"""How labels lie on a sheet: sheets of ready-cut labels, and cards to cut out. Lengths are millimetres.

The ready-cut measures are those in which weatherproof sheets are commonly sold (values from memory: hold a
printed trial sheet against the labels first). The whole of a sheet lies in the middle of its paper.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

INCH = 25.4
PAPERS_MM = {"letter": (8.5 * INCH, 11 * INCH), "a4": (210.0, 297.0)}


@dataclass(frozen=True, slots=True)
class Labels:
    """One kind of sheet: labels of `width` by `height`, `gap` apart sideways; `cut` ones are cut by hand."""

    key: str
    paper: str
    width: float
    height: float
    columns: int
    rows: int
    gap: float = 0.0
    cut: bool = False

    @property
    def count(self) -> int:
        return self.columns * self.rows

    @property
    def left(self) -> float:
        """The margin on the left, and on the right."""
        taken = self.columns * self.width + (self.columns - 1) * self.gap
        return (PAPERS_MM[self.paper][0] - taken) / 2

    @property
    def top(self) -> float:
        """The margin above, and below: room for the line that shows whether the scale is right."""
        return (PAPERS_MM[self.paper][1] - self.rows * self.height) / 2

    def corner(self, place: int, *, back: bool = False) -> tuple[float, float]:
        """From the left and from the top to the label at `place`, counted from 0 along the rows.

        With `back`, where it comes to lie on the other side of the sheet, turned over its long edge.

        >>> SHEETS["a4-8"].corner(3), SHEETS["a4-8"].corner(3, back=True)
        ((106.25, 80.8), (4.65, 80.8))
        """
        row, column = divmod(place, self.columns)
        if back:
            column = self.columns - 1 - column
        across = self.left + column * (self.width + self.gap)
        return round(across, 4), round(self.top + row * self.height, 4)


def placed(count: int, sheet: Labels, *, first: int = 1) -> Iterator[list[tuple[int, int]]]:
    """Page by page which label lies at which place; the first sheet is used up to the label before `first`.

    >>> [len(page) for page in placed(10, SHEETS["a4-8"], first=7)]
    [2, 8]
    """
    at = [(number, first - 1 + number) for number in range(count)]
    for page in range(pages_of(count, sheet, first=first)):
        yield [(number, place % sheet.count) for number, place in at if place // sheet.count == page]


def pages_of(count: int, sheet: Labels, *, first: int = 1) -> int:
    """On how many sheets so many labels go."""
    return -(-(first - 1 + count) // sheet.count)


_ALL = (
    Labels("letter-30", "letter", 2.625 * INCH, 1 * INCH, 3, 10, gap=0.125 * INCH),
    Labels("letter-10", "letter", 4 * INCH, 2 * INCH, 2, 5, gap=0.1875 * INCH),
    Labels("letter-6", "letter", 4 * INCH, 10 / 3 * INCH, 2, 3, gap=0.1875 * INCH),
    Labels("letter-cards-4", "letter", 3.75 * INCH, 5 * INCH, 2, 2, cut=True),
    Labels("letter-cards-2", "letter", 7.5 * INCH, 5 * INCH, 1, 2, cut=True),
    Labels("a4-24", "a4", 63.5, 33.9, 3, 8, gap=2.5),
    Labels("a4-14", "a4", 99.1, 38.1, 2, 7, gap=2.5),
    Labels("a4-8", "a4", 99.1, 67.7, 2, 4, gap=2.5),
    Labels("a4-cards-4", "a4", 95, 130, 2, 2, cut=True),
    Labels("a4-cards-2", "a4", 190, 130, 1, 2, cut=True),
)
SHEETS = {sheet.key: sheet for sheet in _ALL}
