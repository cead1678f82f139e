"""Feeding: what the three numbers of a bag bring, and how much of it meets what a soil test asks for.

The three numbers are percent by weight of nitrogen (N), phosphate (P2O5) and potash (K2O), in this order:
oxides for two of them, by custom, and not the elements (New Mexico State University Extension, Determining
Amounts of Fertilizer for Small Areas). Weights are kilograms, areas square metres, lengths metres. Nothing
here knows what a soil needs: the amounts asked for are a laboratory's, a label's or a published rate.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Self

from plots.quantities import METRES_PER_FOOT

KG_PER_POUND = 0.45359237  # exact
KG_PER_TON = 2000 * KG_PER_POUND
M2_PER_SQUARE_FOOT = METRES_PER_FOOT**2
M2_PER_ACRE = 43_560 * M2_PER_SQUARE_FOOT

# Rounded to 0.4364 and 0.8302, the divisors 2.29 and 1.2 that advisers print (LMI AB).
_ATOMIC_MASS = {"P": 30.974, "K": 39.098, "O": 15.999}
P_IN_P2O5 = 2 * _ATOMIC_MASS["P"] / (2 * _ATOMIC_MASS["P"] + 5 * _ATOMIC_MASS["O"])
K_IN_K2O = 2 * _ATOMIC_MASS["K"] / (2 * _ATOMIC_MASS["K"] + _ATOMIC_MASS["O"])

PLOUGH_LAYER_KG_M2 = 2_000_000 * KG_PER_POUND / M2_PER_ACRE
"""Soil in the top 15 to 18 cm: about two million pounds an acre (NOFA/Mass, Soil Test Math Made Simple)."""


@dataclass(frozen=True, slots=True)
class Nutrients:
    """Nitrogen, phosphate (P2O5) and potash (K2O), all in kilograms, or all in kilograms to an area."""

    n: float = 0.0
    p2o5: float = 0.0
    k2o: float = 0.0

    def __add__(self, other: Self) -> Nutrients:
        return Nutrients(self.n + other.n, self.p2o5 + other.p2o5, self.k2o + other.k2o)

    def __mul__(self, times: float) -> Nutrients:
        return Nutrients(self.n * times, self.p2o5 * times, self.k2o * times)


@dataclass(frozen=True, slots=True)
class Grade:
    """The three numbers of a label, percent. Raises `ValueError` for what cannot stand on a bag.

    >>> Grade(5, 10, 5).text
    '5-10-5'
    >>> Grade(60, 30, 20)
    Traceback (most recent call last):
    ...
    ValueError: percent of a bag
    """

    n: float
    p2o5: float = 0.0
    k2o: float = 0.0

    def __post_init__(self) -> None:
        if min(self.n, self.p2o5, self.k2o) < 0 or self.n + self.p2o5 + self.k2o > 100:
            raise ValueError("percent of a bag")

    @property
    def text(self) -> str:
        """As it stands on the bag."""
        return f"{self.n:g}-{self.p2o5:g}-{self.k2o:g}"

    def in_kg(self, kg: float) -> Nutrients:
        """What so many kilograms bring.

        >>> Grade(16, 4, 8).in_kg(100)
        Nutrients(n=16.0, p2o5=4.0, k2o=8.0)
        """
        return Nutrients(self.n * kg / 100, self.p2o5 * kg / 100, self.k2o * kg / 100)

    def rest_in_kg(self, kg: float) -> float:
        """How much of so many kilograms is neither of the three: what carries them."""
        return kg * (100 - self.n - self.p2o5 - self.k2o) / 100

    def kg_for_n(self, kg_of_n: float) -> float:
        """How much of it brings so much nitrogen. Raises `ValueError` where it has none.

        >>> Grade(10, 10, 10).kg_for_n(0.1)
        1.0
        """
        return _bringing(kg_of_n, self.n)

    def kg_for_p2o5(self, kg_of_p2o5: float) -> float:
        """How much of it brings so much phosphate. Raises `ValueError` where it has none."""
        return _bringing(kg_of_p2o5, self.p2o5)

    def kg_within(self, asked: Nutrients) -> float:
        """The most of it that brings no more of any of the three than is asked for.

        Too much of one harms: so a bag with phosphate is not spread at all where none is asked for.

        >>> Grade(5, 10, 5).kg_within(Nutrients(n=0.5, p2o5=0.4, k2o=0.5))
        4.0
        >>> Grade(5, 10, 5).kg_within(Nutrients(n=0.5))
        0.0
        """
        pairs = ((asked.n, self.n), (asked.p2o5, self.p2o5), (asked.k2o, self.k2o))
        return min((_bringing(kg, percent) for kg, percent in pairs if percent), default=0.0)


@dataclass(frozen=True, slots=True)
class Blend:
    """So much of two products, and what is asked for beyond what they bring (negative: more than asked)."""

    first_kg: float
    second_kg: float
    brought: Nutrients
    left: Nutrients


def brought(bags: Iterable[tuple[Grade, float]]) -> Nutrients:
    """What several products bring together, each with its kilograms."""
    return sum((grade.in_kg(kg) for grade, kg in bags), Nutrients())


def blend(first: Grade, second: Grade, asked: Nutrients) -> Blend:
    """Phosphate from the first product, then what nitrogen is still missing from the second.

    The nitrogen that comes along with the phosphate is counted (Backyard Gardener, How to replenish your
    soil). Where it would be more than asked, less of the first is taken. Raises `ValueError` where the first
    has no phosphate or the second no nitrogen.

    >>> made = blend(Grade(11, 55, 0), Grade(21, 0, 0), Nutrients(n=3.0, p2o5=1.0))
    >>> round(made.first_kg, 2), round(made.second_kg, 2), round(made.left.n, 9)
    (1.82, 13.33, 0.0)
    """
    first_kg = first.kg_for_p2o5(asked.p2o5)
    if first.n:
        first_kg = min(first_kg, first.kg_for_n(asked.n))
    second_kg = second.kg_for_n(max(0.0, asked.n - first.in_kg(first_kg).n))
    both = brought([(first, first_kg), (second, second_kg)])
    return Blend(first_kg, second_kg, both, asked + both * -1)


def over_area(per_m2: float, area_m2: float) -> float:
    """Kilograms for an area, of a rate to the square metre."""
    return per_m2 * area_m2


def along_row(kg_per_m: float, row_m: float) -> float:
    """Kilograms for a row, of a rate to the metre of row.

    >>> along_row(0.015, 10)
    0.15
    """
    return kg_per_m * row_m


def each_plant(kg: float, plants: int) -> float:
    """Kilograms for one of so many plants that share an amount. Raises `ValueError` for none.

    >>> each_plant(0.9, 6)
    0.15
    """
    if plants < 1:
        raise ValueError("no plants")
    return kg / plants


def p_of(p2o5: float) -> float:
    """Phosphorus in so much phosphate, in the same unit."""
    return p2o5 * P_IN_P2O5


def p2o5_of(p: float) -> float:
    """Phosphate with so much phosphorus, in the same unit."""
    return p / P_IN_P2O5


def k_of(k2o: float) -> float:
    """Potassium in so much potash, in the same unit."""
    return k2o * K_IN_K2O


def kg_m2_of_ppm(ppm: float) -> float:
    """Kilograms to the square metre of plough layer for parts per million of its soil.

    >>> round(kg_m2_of_ppm(100), 4)
    0.0224
    """
    return ppm / 1_000_000 * PLOUGH_LAYER_KG_M2


def _bringing(kg: float, percent: float) -> float:
    if not percent:
        raise ValueError("none of it in the bag")
    return kg * 100 / percent
