"""Lime and wood ash: published tables as they are printed, each with its name; they disagree.

For one pH unit on a loam the two tables here differ by 60 percent. So neither is a recommendation: the
laboratory's own figure, from its own buffer test, always wins, and whoever shows one table names it and shows
the other beside it. Rates are kilograms to the square metre of ground limestone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from crops.feeding import KG_PER_POUND, KG_PER_TON, M2_PER_ACRE, M2_PER_SQUARE_FOOT

PER_100_SQUARE_FEET = KG_PER_POUND / (100 * M2_PER_SQUARE_FOOT)
PER_1000_SQUARE_FEET = PER_100_SQUARE_FEET / 10
PER_ACRE_TON = KG_PER_TON / M2_PER_ACRE


@dataclass(frozen=True, slots=True)
class UnitTable:
    """Pounds of lime to 1,000 square feet that raise the pH by one, by the table's own soil classes."""

    source: str
    pounds: Mapping[str, float]

    def kg_m2(self, soil: str, *, ph: float, target: float) -> float:
        """Raises `KeyError` for a soil that the table does not name; nothing where the pH is high enough.

        >>> round(PER_UNIT.kg_m2("medium loam", ph=5.5, target=6.5) / PER_100_SQUARE_FEET, 2)
        5.0
        """
        return self.pounds[soil] * PER_1000_SQUARE_FEET * max(0.0, target - ph)


@dataclass(frozen=True, slots=True)
class TargetTable:
    """Pounds of lime to 100 square feet that raise a printed pH to the target, by the table's own classes."""

    source: str
    target: float
    soils: tuple[str, ...]
    pounds: Mapping[float, tuple[float, ...]]

    def kg_m2(self, soil: str, *, ph: float) -> float | None:
        """The printed cell. `None` for a pH that has no row: between rows nothing is printed.

        >>> round(TO_TARGET.kg_m2("loam", ph=5.5) / PER_100_SQUARE_FEET, 2), TO_TARGET.kg_m2("loam", ph=5.4)
        (8.0, None)
        """
        row = self.pounds.get(ph)
        return None if row is None else row[self.soils.index(soil)] * PER_100_SQUARE_FEET


PER_UNIT = UnitTable(
    "garden-soil.com, Make the pH work for you",
    {"light sandy loam": 35, "medium loam": 50, "heavy clay loam": 70},
)
TO_TARGET = TargetTable(
    "AgroConection, Raising pH with limestone",
    6.5,
    ("sandy loam", "loam", "clay loam"),
    {
        4.0: (11.5, 16, 23),
        4.5: (9.5, 13.5, 19.5),
        5.0: (8, 10.5, 15),
        5.5: (6, 8, 10.5),
        6.0: (3, 4, 5.5),
    },
)

# Penn State Agricultural Analytical Services Laboratory: above 10 in two parts, above 20 in three.
_ONE_PART, _TWO_PARTS = 10 * PER_100_SQUARE_FEET, 20 * PER_100_SQUARE_FEET
MONTHS_BETWEEN_PARTS = 6


def parts(kg_m2: float) -> int:
    """In how many parts, six months apart, so much lime is spread (Penn State's notes to its reports).

    >>> [parts(pounds * PER_100_SQUARE_FEET) for pounds in (10, 11, 20, 21)]
    [1, 2, 2, 3]
    """
    # A rate that was typed in pounds comes back with the noise of conversion.
    return 1 + (kg_m2 > _ONE_PART * 1.001) + (kg_m2 > _TWO_PARTS * 1.001)


def of_material(kg: float, cce_percent: float) -> float:
    """How much of a liming material stands for so much pure lime, by its calcium carbonate equivalent.

    Penn State's notes, which round 7.1 to 7. Raises `ValueError` for no equivalent.

    >>> of_material(5, 50)
    10.0
    """
    if cce_percent <= 0:
        raise ValueError("no equivalent")
    return kg * 100 / cce_percent


def ncda_acidity(buffer_ph: float) -> float:
    """meq to 100 cm³ of soil from the Mehlich buffer of NCDA&CS's laboratory (its lime table 1), no other's.

    >>> round(ncda_acidity(6.3), 2)
    1.2
    """
    return max(0.0, (6.6 - buffer_ph) * 4)


def ncda_factor(*, ph: float, target: float) -> float:
    """The share of the acidity that is to be limed, by NCDA&CS's lime table 1."""
    return (target - ph) / (6.6 - ph) if ph < target else 0.0


def ncda_kg_m2(*, ph: float, target: float, acidity: float, credit_kg_m2: float = 0.0) -> float:
    """Lime by NCDA&CS's lime table 1: a ton an acre for each meq of the share, less what lime still works.

    >>> round(ncda_kg_m2(ph=5.0, target=6.0, acidity=1.2) / PER_ACRE_TON, 2)
    0.75
    """
    return max(0.0, acidity * ncda_factor(ph=ph, target=target) * PER_ACRE_TON - credit_kg_m2)


@dataclass(frozen=True, slots=True)
class AshCap:
    """The most wood ash in a year, kilograms to the square metre."""

    source: str
    kg_m2: float


# They differ by two and a half; the lower one is kept to.
ASH_CAPS = (
    AshCap("Mini Farming", 5 * PER_100_SQUARE_FEET),
    AshCap("Master Your Garden, Wood ashes as soil amendment", 20 * PER_1000_SQUARE_FEET),
)
NO_ASH_FROM_PH = 6.5
_ASH_FOR_LIME = 2.0  # twice the weight of lime (Mini Farming)


def ash_allowed(ph: float) -> float:
    """The most wood ash in a year, kg to the square metre, by the lower cap; none from pH 6.5 up.

    >>> round(ash_allowed(6.0) / PER_100_SQUARE_FEET, 2), ash_allowed(6.5)
    (2.0, 0.0)
    """
    return 0.0 if ph >= NO_ASH_FROM_PH else min(cap.kg_m2 for cap in ASH_CAPS)


def lime_left(lime_kg: float, ash_kg: float, *, ash_for_lime: float = _ASH_FOR_LIME) -> float:
    """Lime still to be spread where ash stands for some of it.

    >>> lime_left(5.5, 5.0)
    3.0
    """
    return max(0.0, lime_kg - ash_kg / ash_for_lime)
