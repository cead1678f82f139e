"""A plot laid out in beds that can be reached from their sides, with rows on them, tall ones at the back.

Lengths are metres, counted from the edge away from the sun: the north in the northern hemisphere, the south
in the southern. Rows run from east to west.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from crops.spacing import plants_in_row
from plots.quantities import METRES_PER_INCH

# Nobody steps on a bed: half its width is an arm's reach. Common practice, no source.
WIDEST_BED_M, PATH_M = 1.35, 0.45
# Room for a hoe between rows of small plants: common practice, no source.
NARROWEST_ROWS_M = 6 * METRES_PER_INCH
MOST_ROWS_OF_A_CROP = 3
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Strip:
    """A bed across the plot, from its edge away from the sun to the one towards it."""

    start_m: float
    end_m: float

    @property
    def width_m(self) -> float:
        return self.end_m - self.start_m


@dataclass(frozen=True, slots=True)
class Wanted:
    """A crop that is to have rows: its final distance in the row, and its height where that is known."""

    slug: str
    spacing_m: float
    height_m: float | None = None

    @property
    def between_rows_m(self) -> float:
        """How far apart its rows are on a bed tended from the sides: as in the row, with room for a hoe."""
        return max(self.spacing_m, NARROWEST_ROWS_M)


@dataclass(frozen=True, slots=True)
class Row:
    """A row, its middle so far from the plot's edge away from the sun, and how many plants it has."""

    wanted: Wanted
    middle_m: float
    plants: int


@dataclass(frozen=True, slots=True)
class Plan:
    """The beds of a plot, their rows, and the crops that found no room."""

    strips: tuple[Strip, ...]
    rows: tuple[Row, ...]
    left_out: tuple[Wanted, ...]


def strips(width_m: float) -> tuple[Strip, ...]:
    """As few beds as can be reached, of one width, with paths between them.

    >>> strips(1.2)
    (Strip(start_m=0.0, end_m=1.2),)
    >>> [(round(one.start_m, 2), round(one.end_m, 2)) for one in strips(3.0)]
    [(0.0, 1.27), (1.72, 3.0)]
    """
    count = max(1, ceil((width_m + PATH_M) / (WIDEST_BED_M + PATH_M) - _NOISE))
    each = (width_m - (count - 1) * PATH_M) / count
    starts = [index * (each + PATH_M) for index in range(count)]
    return tuple(Strip(start, start + each) for start in starts)


def plan(wanted: Sequence[Wanted], *, width_m: float, length_m: float) -> Plan:
    """Rows on the beds of a plot: each crop one, in the order asked, then more while there is room.

    What sprawls over more than half a bed comes after the others, and wider than a bed it has one alone. No
    row has a taller one on its sunny side.

    >>> tomato, carrot = Wanted("tomato", 0.6, 1.5), Wanted("carrot", 0.05, 0.3)
    >>> made = plan([carrot, tomato], width_m=1.2, length_m=2.4)
    >>> [(row.wanted.slug, round(row.middle_m, 3), row.plants) for row in made.rows]
    [('tomato', 0.3, 4), ('carrot', 0.676, 48), ('carrot', 0.829, 48), ('carrot', 0.981, 48)]
    """
    beds = strips(width_m)
    chosen: list[Wanted] = []
    in_turn = sorted(wanted, key=lambda one: one.between_rows_m > beds[0].width_m / 2 + _NOISE)
    for _turn in range(MOST_ROWS_OF_A_CROP):
        for one in in_turn:
            if _placed([*chosen, one], beds) is not None:
                chosen.append(one)
    placed = _placed(chosen, beds) or []
    return Plan(
        beds,
        tuple(Row(one, middle, plants_in_row(length_m, one.spacing_m)) for one, middle in placed),
        tuple(one for one in wanted if one not in chosen),
    )


def _placed(chosen: Sequence[Wanted], beds: Sequence[Strip]) -> list[tuple[Wanted, float]] | None:
    """Every row with its middle, tallest first, never going back to a bed; `None` where they do not fit."""
    placed: list[tuple[Wanted, float]] = []
    at, edge = 0, beds[0].start_m
    for one in sorted(chosen, key=lambda one: (-(one.height_m or 0.0), one.slug)):
        while edge > beds[at].start_m and edge + one.between_rows_m > beds[at].end_m + _NOISE:
            at += 1
            if at == len(beds):
                return None
            edge = beds[at].start_m
        if edge + one.between_rows_m > beds[at].end_m + _NOISE:  # alone, over the edges
            placed.append((one, (beds[at].start_m + beds[at].end_m) / 2))
            edge = beds[at].end_m
        else:
            placed.append((one, edge + one.between_rows_m / 2))
            edge += one.between_rows_m
    return placed
