"""Where the name of a thing is written: beside it, and across no line of the map if that can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from plots.sitemap.boxes import Box
from plots.sketch import Point

LETTER = 0.5  # width of a slanted character, as a share of its height
AIR = 0.12  # around a name, as a share of its height

Reach = tuple[float, float, float, float]  # left, top, right, bottom


@dataclass(frozen=True, slots=True)
class Lined:
    """Something with lines around it; into an `open` one, such as a path, a name may be written."""

    reach: Reach
    open: bool = False

    def is_crossed_by(self, name: Reach) -> bool:
        left, top, right, bottom = self.reach
        apart = name[2] <= left or name[0] >= right or name[3] <= top or name[1] >= bottom
        inside = left <= name[0] and top <= name[1] and name[2] <= right and name[3] <= bottom
        return not apart and not (self.open and inside)


def name_reach(middle: Point, text: str, size: float) -> Reach:
    """How far a name written level around `middle` comes, in metres, with a little air."""
    across, down = LETTER * size * len(text) / 2 + AIR * size, (0.5 + AIR) * size
    return middle[0] - across, middle[1] - down, middle[0] + across, middle[1] + down


def name_middle(box: Box, text: str, size: float, others: Sequence[Lined]) -> Point:
    """Under the thing, else right, left, above or further off: where it crosses the fewest lines."""
    best, fewest = box.middle, len(others) + 1
    for middle in _places(box, text, size):
        reach = name_reach(middle, text, size)
        crossed = sum(other.is_crossed_by(reach) for other in others)
        if crossed < fewest:
            best, fewest = middle, crossed
        if not crossed:
            break
    return best


def _places(box: Box, text: str, size: float) -> Iterator[Point]:
    x, y = box.middle
    left, top, right, bottom = box.reach()
    aside = LETTER * size * len(text) / 2 + 0.3 * size
    yield x, bottom + 0.7 * size
    yield right + aside, y
    yield left - aside, y
    yield x, top - 0.7 * size
    yield x, bottom + 1.5 * size
    yield x, top - 1.5 * size
