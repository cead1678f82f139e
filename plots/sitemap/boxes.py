"""Boxes on the site, seen from above: metres from the left and from the top, turned about their middle."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin
from typing import TypeVar

Point = tuple[float, float]
Key = TypeVar("Key", bound=Hashable)

TOUCHING = 0.02  # metres that two boxes may share: a stake's width, and what rounding of feet leaves


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle whose corner stands `left` and `top` metres in before it is turned by `turn` degrees."""

    left: float
    top: float
    width: float
    length: float
    turn: float = 0.0

    @property
    def middle(self) -> Point:
        return self.left + self.width / 2, self.top + self.length / 2

    @property
    def area(self) -> float:
        """Square metres."""
        return self.width * self.length

    def at(self, across: float, down: float) -> Point:
        """The point that lies so far from the box's own corner along its own sides.

        >>> Box(1, 2, 4, 2, turn=90).at(0, 0)
        (4.0, 1.0)
        """
        x, y = self.middle
        dx, dy = across - self.width / 2, down - self.length / 2
        cosine, sine = cos(radians(self.turn)), sin(radians(self.turn))
        return round(x + dx * cosine - dy * sine, 9), round(y + dx * sine + dy * cosine, 9)

    def corners(self) -> tuple[Point, Point, Point, Point]:
        return (
            self.at(0, 0),
            self.at(self.width, 0),
            self.at(self.width, self.length),
            self.at(0, self.length),
        )

    def reach(self) -> tuple[float, float, float, float]:
        """The furthest left, top, right and bottom that the turned box comes."""
        xs, ys = zip(*self.corners(), strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    def moved(self, left: float, top: float) -> Box:
        return replace(self, left=left, top=top)

    def distance(self, point: Point) -> float:
        """Metres from the nearest edge to a point outside; 0 for a point inside.

        >>> Box(0, 0, 2, 2).distance((5, 6)), Box(0, 0, 2, 2).distance((1, 1))
        (5.0, 0.0)
        """
        x, y = self.middle
        cosine, sine = cos(radians(-self.turn)), sin(radians(-self.turn))
        dx, dy = point[0] - x, point[1] - y
        across, down = dx * cosine - dy * sine, dx * sine + dy * cosine
        return hypot(max(abs(across) - self.width / 2, 0.0), max(abs(down) - self.length / 2, 0.0))


def extent(boxes: Iterable[Box]) -> tuple[float, float]:
    """How far right and down the boxes reach; 0 without any."""
    reaches = [box.reach() for box in boxes]
    return max((reach[2] for reach in reaches), default=0.0), max(
        (reach[3] for reach in reaches), default=0.0
    )


def overlap(one: Box, other: Box) -> bool:
    """Whether two boxes share more ground than a stake's width.

    They do not if, seen along a side of either, they lie beside each other (separating axes).
    """
    corners = one.corners(), other.corners()
    for turn in {one.turn % 90, other.turn % 90}:
        for angle in (turn, turn + 90):
            axis = cos(radians(angle)), sin(radians(angle))
            seen = [[x * axis[0] + y * axis[1] for x, y in box] for box in corners]
            if min(max(seen[0]), max(seen[1])) - max(min(seen[0]), min(seen[1])) <= TOUCHING:
                return False
    return True


def overlaps(boxes: Sequence[tuple[Key, Box]]) -> list[tuple[Key, Key]]:
    """All pairs that share ground, in the order given; near enough linear for a garden of thousands."""
    order = {key: place for place, (key, _box) in enumerate(boxes)}
    swept = sorted(((box.reach(), key, box) for key, box in boxes), key=lambda item: item[0][0])
    near: list[tuple[tuple[float, float, float, float], Key, Box]] = []
    found = []
    for item in swept:
        reach, key, box = item
        near = [other for other in near if other[0][2] > reach[0]]
        for other_reach, other_key, other in near:
            apart = other_reach[3] <= reach[1] or reach[3] <= other_reach[1]
            if not apart and overlap(box, other):
                found.append((other_key, key) if order[other_key] < order[key] else (key, other_key))
        near.append(item)
    return sorted(found, key=lambda pair: (order[pair[0]], order[pair[1]]))


def outside(boxes: Sequence[tuple[Key, Box]], width: float | None, length: float | None) -> list[Key]:
    """What does not lie wholly on a site of this size; an unknown side has no end."""
    far_right = float("inf") if width is None else width + TOUCHING
    far_down = float("inf") if length is None else length + TOUCHING
    return [
        key
        for key, box in boxes
        if (reach := box.reach())
        and (reach[0] < -TOUCHING or reach[1] < -TOUCHING or reach[2] > far_right or reach[3] > far_down)
    ]


def nearest(box: Box, others: Sequence[tuple[Key, Box]]) -> tuple[Key, float] | None:
    """The thing whose middle is nearest to the box's edge, with the metres between; `None` without any."""
    measured = [(box.distance(other.middle), place) for place, (_key, other) in enumerate(others)]
    if not measured:
        return None
    metres, place = min(measured)
    return others[place][0], metres
