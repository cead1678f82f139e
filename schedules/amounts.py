"""Amounts as people have them, made into litres, grams and pieces: hose and can, depth, weights, bunches.

The US gallon is 231 cubic inches and the avoirdupois pound 453.59237 g, both exactly (NIST Handbook 44,
appendix C; value from memory). One millimetre over one square metre is one litre.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from plots.quantities import LITRES_PER_GALLON

MM_PER_INCH = 25.4
GRAMS = {"kg": 1000.0, "g": 1.0, "lb": 453.59237, "oz": 28.349523125}
CAN_LITRES = {"us": 2 * LITRES_PER_GALLON, "metric": 10.0}  # common practice, no source


class Unit(StrEnum):
    """What an amount is typed in."""

    MINUTES = "min"
    CANS = "cans"
    LITRES = "L"
    GALLONS = "gal"
    MILLIMETRES = "mm"
    INCHES = "in"
    KILOGRAMS = "kg"
    GRAMS = "g"
    POUNDS = "lb"
    OUNCES = "oz"
    PIECES = "pcs"
    BUNCHES = "bunches"


WATER_UNITS = (Unit.MINUTES, Unit.CANS, Unit.LITRES, Unit.GALLONS, Unit.MILLIMETRES, Unit.INCHES)
HARVEST_UNITS = (
    Unit.KILOGRAMS, Unit.GRAMS, Unit.POUNDS, Unit.OUNCES, Unit.PIECES, Unit.BUNCHES,
)  # fmt: skip


class AmountError(ValueError):
    """An amount cannot be worked out; `code` says what is missing: `no-area`, `part-of-a-piece`, `unit`."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True, slots=True)
class Measured:
    """What a garden knows about its measures; `None` where nobody measured."""

    can_litres: float
    flow_l_min: float | None = None
    bunch_grams: float | None = None
    area_m2: float | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount in plain units; `None` where it does not apply or nobody measured what it needs."""

    litres: float | None = None
    grams: float | None = None
    pieces: int | None = None


def worked_out(number: float, unit: str, measured: Measured) -> Amount:
    """Litres, grams and pieces of an amount as typed.

    Minutes at a hose and bunches that nobody measured stay without litres or grams: no guess is made.
    Raises `AmountError` for a depth over a plot of unknown size, part of a piece and an unknown unit.

    >>> worked_out(3, "cans", Measured(can_litres=10)).litres
    30.0
    >>> worked_out(1, "in", Measured(can_litres=10, area_m2=10)).litres
    254.0
    """
    match unit:
        case Unit.MINUTES:
            return Amount(litres=None if measured.flow_l_min is None else number * measured.flow_l_min)
        case Unit.CANS:
            return Amount(litres=float(number * measured.can_litres))
        case Unit.LITRES:
            return Amount(litres=float(number))
        case Unit.GALLONS:
            return Amount(litres=number * LITRES_PER_GALLON)
        case Unit.MILLIMETRES:
            return Amount(litres=litres_over(number, measured.area_m2))
        case Unit.INCHES:
            return Amount(litres=litres_over(number * MM_PER_INCH, measured.area_m2))
        case Unit.PIECES:
            return Amount(pieces=_whole(number))
        case Unit.BUNCHES:
            each = measured.bunch_grams
            return Amount(grams=None if each is None else number * each)
        case Unit.KILOGRAMS | Unit.GRAMS | Unit.POUNDS | Unit.OUNCES:
            return Amount(grams=number * GRAMS[unit])
        case _:
            raise AmountError("unit")


def litres_over(depth_mm: float, area_m2: float | None) -> float:
    """Litres that stand so deep over an area. Raises `AmountError` where its size is not known."""
    if area_m2 is None:
        raise AmountError("no-area")
    return depth_mm * area_m2


def depth_mm(litres: float, area_m2: float) -> float:
    """How deep so many litres stand over an area.

    >>> depth_mm(254, 10)
    25.4
    """
    return litres / area_m2


def _whole(number: float) -> int:
    if number != int(number):
        raise AmountError("part-of-a-piece")
    return int(number)
