"""From when on may be picked what a product was used on: by the days on the product's own label, no others.

Trugbook supplies no interval: the days are those that the person read on the label in hand.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

LONGEST_DAYS = 730


@dataclass(frozen=True, slots=True)
class Treated:
    """A product used at a plot: on one planting, on one crop, or, where neither is told, on all of it."""

    plot: int
    day: date
    label_days: int
    product: str
    planting: int | None = None
    crop: int | None = None

    @property
    def until(self) -> date:
        """The first day on which may be picked again.

        >>> Treated(1, date(2025, 7, 1), 7, "as on its label").until
        datetime.date(2025, 7, 8)
        """
        return self.day + timedelta(days=self.label_days)

    def reaches(self, *, plot: int, planting: int | None, crop: int | None) -> bool:
        """Whether it was used on this planting or crop; a picking that tells neither is held by anything."""
        if plot != self.plot:
            return False
        if self.planting is not None and planting is not None:
            return planting == self.planting
        if self.crop is not None and crop is not None:
            return crop == self.crop
        return True


def hold_on(
    treated: Iterable[Treated], *, plot: int, planting: int | None = None, crop: int | None = None, day: date
) -> Treated | None:
    """What forbids picking on `day`; of several, the one that lasts longest. Nothing used later counts."""
    holding = [
        one
        for one in treated
        if one.day <= day < one.until and one.reaches(plot=plot, planting=planting, crop=crop)
    ]
    return max(holding, key=lambda one: (one.until, one.day, one.product), default=None)
