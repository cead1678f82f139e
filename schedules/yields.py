"""What plots and rows gave, as far as all of it was weighed: by crop, by row, by ground and by water."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum

from schedules.figures import Logged, Totals, totals
from schedules.work import Work


@dataclass(frozen=True, slots=True)
class CropYield:
    """What was picked of one crop; `row_m` is the length of its rows and `row_grams` what these gave.

    Both only of plantings whose row is known and whose pickings were weighed.
    """

    crop: int | None
    sums: Totals
    row_m: float = 0.0
    row_grams: float = 0.0

    @property
    def grams_a_metre(self) -> float | None:
        return self.row_grams / self.row_m if self.row_m else None


@dataclass(frozen=True, slots=True)
class RowPicked:
    """The weighed pickings of one planting and the length of its row in metres."""

    crop: int
    row_m: float
    grams: float


def crop_yields(logs: Iterable[Logged], rows: Iterable[RowPicked] = ()) -> list[CropYield]:
    """By crop, the heaviest first, then by pieces; pickings that name no crop stand last."""
    groups: dict[int | None, list[Logged]] = defaultdict(list)
    for one in logs:
        if one.work == Work.PICK:
            groups[one.crop].append(one)
    metres: dict[int, float] = defaultdict(float)
    grams: dict[int, float] = defaultdict(float)
    for row in rows:
        metres[row.crop] += row.row_m
        grams[row.crop] += row.grams
    found = [
        CropYield(crop, totals(own), metres.get(crop or 0, 0.0), grams.get(crop or 0, 0.0))
        for crop, own in groups.items()
    ]
    return sorted(found, key=lambda one: (one.crop is None, -one.sums.grams, -one.sums.pieces, one.crop or 0))


@dataclass(frozen=True, slots=True)
class PlotsWeighed:
    """What the plots gave whose every picking was weighed."""

    plots: frozenset[int]
    grams: float


def plots_weighed(logs: Iterable[Logged]) -> PlotsWeighed:
    """Those plots; one with a picking that was counted or not measured gave more than its weight tells.

    >>> from datetime import date
    >>> day = date(2026, 7, 9)
    >>> picked = (1, 500.0), (2, 90.0), (2, None)
    >>> plots_weighed([Logged(day, "harvest", plot, grams=grams) for plot, grams in picked])
    PlotsWeighed(plots=frozenset({1}), grams=500.0)
    """
    picked = [one for one in logs if one.work == Work.PICK and one.plot is not None]
    partly = {one.plot for one in picked if one.grams is None}
    whole = [one for one in picked if one.plot not in partly]
    return PlotsWeighed(
        frozenset(one.plot for one in whole if one.plot is not None), fsum(one.grams or 0.0 for one in whole)
    )


def litres_a_gram(logs: Iterable[Logged]) -> float | None:
    """Water for each gram picked, of the plots that tell both in full; `None` where none does.

    A plot counts only if all of its waterings and pickings have an amount, and it was watered before its
    first picking: else food would be set against the water of a part of its time.
    """
    groups: dict[int | None, list[Logged]] = defaultdict(list)
    for one in logs:
        groups[one.plot].append(one)
    litres = grams = 0.0
    for plot, own in groups.items():
        sums = totals(own)
        watered = [one.day for one in own if one.work == Work.WATER]
        if plot is None or not watered or not sums.grams or sums.first_picked is None:
            continue
        if sums.unmeasured or sums.unweighed or sums.pieces or min(watered) > sums.first_picked:
            continue
        litres += sums.litres
        grams += sums.grams
    return litres / grams if grams else None
