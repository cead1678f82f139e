"""The way past all plots: row by row and back again from the gate, unless the garden has set another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from plots.sitemap.boxes import Box, Point
from plots.spelling import natural_key


@dataclass(frozen=True, slots=True)
class Stop:
    """A plot to be walked past; without a box it is not on the map. `kept` is its place set by hand."""

    key: int
    label: str
    box: Box | None = None
    kept: int | None = None


def rows_of(stops: Sequence[Stop], *, columns: bool = False) -> list[list[Stop]]:
    """The stops on the map in rows from the top, each from the left; with `columns` the other way round.

    A stop belongs to a row when its middle lies within the depth of the row's first plot.
    """
    placed = sorted(
        ((_across(stop.box, columns), stop) for stop in stops if stop.box),
        key=lambda item: (item[0], item[1].label),
    )
    rows: list[list[Stop]] = []
    ends = 0.0
    for across, stop in placed:
        if not rows or across >= ends:
            rows.append([])
            ends = across + _depth(stop, columns) / 2
        rows[-1].append(stop)
    return [sorted(row, key=lambda stop: (_along(stop, columns), natural_key(stop.label))) for row in rows]


def walk_order(stops: Sequence[Stop], *, start: Point | None = None, columns: bool = False) -> list[int]:
    """The keys of all stops in the order of the walk.

    The walk begins at the row and the end of it that are nearer to `start` (a gate; without one the top left
    corner) and turns at the end of each row. Stops that are not on the map come last, by label. Where places
    were set by hand they hold, and a stop without one follows the stop that it would have followed anyway.
    """
    proposed = _there_and_back(rows_of(stops, columns=columns), start or (0.0, 0.0), columns)
    unplaced = [stop for stop in stops if stop.box is None]
    proposed += sorted(unplaced, key=lambda stop: natural_key(stop.label))
    if all(stop.kept is None for stop in stops):
        return [stop.key for stop in proposed]
    order = sorted((stop for stop in proposed if stop.kept is not None), key=lambda stop: stop.kept or 0)
    after: dict[int, list[Stop]] = {}
    last = 0
    for stop in proposed:
        if stop.kept is None:
            after.setdefault(last, []).append(stop)
        else:
            last = stop.key
    walk = list(after.get(0, []))
    for stop in order:
        walk += [stop, *after.get(stop.key, [])]
    return [stop.key for stop in walk]


def moved_after(order: Sequence[int], key: int, after: int | None) -> list[int]:
    """The walk with one stop moved right behind another, or with `None` to the beginning.

    >>> moved_after([1, 2, 3, 4], 4, 1), moved_after([1, 2, 3], 3, None)
    ([1, 4, 2, 3], [3, 1, 2])
    """
    rest = [stop for stop in order if stop != key]
    place = 0 if after is None else rest.index(after) + 1
    return [*rest[:place], key, *rest[place:]]


def _there_and_back(rows: list[list[Stop]], start: Point, columns: bool) -> list[Stop]:
    if not rows:
        return []
    along, across = (start[1], start[0]) if columns else start
    first, last = _middle(rows[0][0], columns), _middle(rows[-1][0], columns)
    if abs(last - across) < abs(first - across):
        rows = rows[::-1]
    backwards = abs(_along(rows[0][-1], columns) - along) < abs(_along(rows[0][0], columns) - along)
    walk: list[Stop] = []
    for row in rows:
        walk += row[::-1] if backwards else row
        backwards = not backwards
    return walk


def _across(box: Box, columns: bool) -> float:
    return box.middle[0] if columns else box.middle[1]


def _middle(stop: Stop, columns: bool) -> float:
    return _across(stop.box, columns) if stop.box else 0.0


def _along(stop: Stop, columns: bool) -> float:
    return _across(stop.box, not columns) if stop.box else 0.0


def _depth(stop: Stop, columns: bool) -> float:
    if stop.box is None:
        return 0.0
    left, top, right, bottom = stop.box.reach()
    return right - left if columns else bottom - top
