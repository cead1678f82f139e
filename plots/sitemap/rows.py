"""So many rows of so many plots, this size, this path: where they lie and what they are called."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from plots.sitemap.boxes import Box
from plots.spelling import folded

MOST = 2000  # plots made at once


class Labels(StrEnum):
    """How the plots of the rows are called."""

    LETTERS = "letters"  # A1 A2 A3 / B1 B2 B3
    NUMBERS = "numbers"  # 1 2 3 / 4 5 6
    PAIRS = "pairs"  # 1-1 1-2 1-3 / 2-1 2-2 2-3


@dataclass(frozen=True, slots=True)
class Rows:
    """What somebody asked for; lengths in metres.

    `width` is a plot's side along the row, `depth` across it; `gap` lies between neighbours of a row and
    `path` between rows. Rows run from left to right, or with `down` from top to bottom. `first` is the first
    row's letter as a number (A is 1), its number, or the first plot's number. With `back` every second row is
    counted the other way, as one walks.
    """

    rows: int
    per_row: int
    width: float
    depth: float
    gap: float = 0.0
    path: float = 0.0
    left: float = 0.0
    top: float = 0.0
    down: bool = False
    labels: Labels = Labels.LETTERS
    first: int = 1
    before: str = ""
    back: bool = False


@dataclass(frozen=True, slots=True)
class RowPlot:
    label: str
    box: Box


def row_plots(asked: Rows) -> list[RowPlot]:
    """The plots row by row, each row in the order of its labels.

    >>> [(plot.label, plot.box.left, plot.box.top) for plot in row_plots(Rows(2, 2, 3, 6, gap=1, path=2))]
    [('A1', 0.0, 0.0), ('A2', 4.0, 0.0), ('B1', 0.0, 8.0), ('B2', 4.0, 8.0)]
    """
    made = []
    for row in range(asked.rows):
        turned = asked.back and row % 2 == 1
        for number in range(asked.per_row):
            along = asked.per_row - 1 - number if turned else number
            made.append(RowPlot(_label(asked, row, number), _box(asked, row, along)))
    return made


def row_paths(asked: Rows) -> list[Box]:
    """The paths between the rows, as long as the rows are; none where the rows touch."""
    if asked.path <= 0:
        return []
    along = asked.per_row * asked.width + (asked.per_row - 1) * asked.gap
    across = [asked.depth + row * (asked.depth + asked.path) for row in range(asked.rows - 1)]
    if asked.down:
        return [_clean(asked.left + side, asked.top, asked.path, along) for side in across]
    return [_clean(asked.left, asked.top + side, along, asked.path) for side in across]


def taken_labels(plots: Iterable[RowPlot], labels: Iterable[str]) -> list[str]:
    """Which of the new labels are on a stake already; capitals make no difference to who reads one."""
    taken = {folded(label) for label in labels}
    return [plot.label for plot in plots if folded(plot.label) in taken]


def next_first(labels: Iterable[str], kind: Labels) -> int:
    """The first row or number that is still free behind those in use, for plots without words before them.

    >>> next_first(["A1", "A12", "B3", "herbs"], Labels.LETTERS), next_first(["7", "A1"], Labels.NUMBERS)
    (3, 8)
    """
    used = [0]
    for label in labels:
        if kind == Labels.NUMBERS and label.isdecimal():
            used.append(int(label))
        elif kind == Labels.PAIRS and label.partition("-")[0].isdecimal():
            used.append(int(label.partition("-")[0]))
        elif kind == Labels.LETTERS and (stem := label.rstrip("0123456789")) != label:
            used.append(letter_number(stem) or 0)
    return max(used) + 1


def letters(number: int) -> str:
    """A row's letter: A to Z, then AA.

    >>> letters(1), letters(26), letters(27)
    ('A', 'Z', 'AA')
    """
    shown = ""
    while number > 0:
        number, rest = divmod(number - 1, 26)
        shown = chr(ord("A") + rest) + shown
    return shown


def letter_number(text: str) -> int | None:
    """The number of a row's letter, or of a number in digits; `None` for anything else.

    >>> letter_number("b"), letter_number("AA"), letter_number("7"), letter_number("x1")
    (2, 27, 7, None)
    """
    plain = text.strip().upper()
    if plain.isascii() and plain.isdigit() and len(plain) < 6:
        return int(plain)
    if not (plain.isascii() and plain.isalpha() and len(plain) <= 2):
        return None
    number = 0
    for letter in plain:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def _label(asked: Rows, row: int, number: int) -> str:
    if asked.labels == Labels.NUMBERS:
        return f"{asked.before}{asked.first + row * asked.per_row + number}"
    if asked.labels == Labels.PAIRS:
        return f"{asked.before}{asked.first + row}-{number + 1}"
    return f"{asked.before}{letters(asked.first + row)}{number + 1}"


def _box(asked: Rows, row: int, along: int) -> Box:
    in_row = along * (asked.width + asked.gap)
    across = row * (asked.depth + asked.path)
    if asked.down:
        return _clean(asked.left + across, asked.top + in_row, asked.depth, asked.width)
    return _clean(asked.left + in_row, asked.top + across, asked.width, asked.depth)


def _clean(left: float, top: float, width: float, length: float) -> Box:
    """Without the noise that sums of feet in metres leave."""
    return Box(*(round(float(value), 6) for value in (left, top, width, length)))
