"""Which plots something that was seen at one plot may reach: those near by, and those of the same family."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from plots.sitemap.boxes import Box

NEAR_M = 10.0  # common practice, no source: a garden says otherwise in its guidance


@dataclass(frozen=True, slots=True)
class Ground:
    """A plot by key, with its place on the map where it has one and the families that grow there."""

    plot: int
    box: Box | None
    families: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Reached:
    """A plot that it may reach: by metres (`None`: not near, or not on the map), by these families."""

    plot: int
    metres: float | None
    families: frozenset[str]


def reached(
    origin: Ground, others: Iterable[Ground], *, families: frozenset[str], within_m: float = NEAR_M
) -> list[Reached]:
    """The other plots within `within_m` of the origin, or growing one of `families`; nearest first.

    >>> here = Ground(1, Box(0, 0, 2, 2))
    >>> others = [Ground(2, Box(5, 0, 2, 2)), Ground(3, None, frozenset({"Solanaceae"})), Ground(4, None)]
    >>> [(one.plot, one.metres) for one in reached(here, others, families=frozenset({"Solanaceae"}))]
    [(2, 3.0), (3, None)]
    """
    found = []
    for other in others:
        metres = _between(origin.box, other.box)
        near = metres if metres is not None and metres <= within_m else None
        shared = families & other.families
        if other.plot != origin.plot and (near is not None or shared):
            found.append(Reached(other.plot, near, shared))
    return sorted(found, key=lambda one: (one.metres is None, one.metres or 0.0))


def _between(one: Box | None, other: Box | None) -> float | None:
    """Metres between the edges of two plots: of boxes apart, a corner of one is always nearest."""
    if one is None or other is None:
        return None
    corners = [other.distance(corner) for corner in one.corners()]
    corners += [one.distance(corner) for corner in other.corners()]
    return round(min(corners), 9)
