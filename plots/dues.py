"""What a plot costs for a season, by the garden's own rates."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

CENT = Decimal("0.01")
SQUARE_METRES = {"100sqft": 9.290304, "10m2": 10.0}


@dataclass(frozen=True, slots=True)
class Rates:
    """`per_plot` for every plot, and `per_area` for each stretch of ground of so many square metres."""

    per_plot: Decimal
    per_area: Decimal
    area_m2: float


def plot_dues(rates: Rates, *, area_m2: float | None) -> Decimal:
    """The amount for one plot, to the cent; ground that was never measured costs nothing by area.

    >>> rates = Rates(per_plot=Decimal(32), per_area=Decimal(15), area_m2=SQUARE_METRES["100sqft"])
    >>> plot_dues(rates, area_m2=18.580608)
    Decimal('62.00')
    >>> plot_dues(rates, area_m2=None)
    Decimal('32.00')
    """
    share = Decimal(area_m2 / rates.area_m2) if area_m2 else Decimal(0)
    return (rates.per_plot + rates.per_area * share).quantize(CENT, ROUND_HALF_UP)
