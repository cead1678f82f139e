"""Units of measurement: what is kept in SI, what people read and type, and the way between the two.

Values are kept in metres, °C and litres. A garden reads and types them in US or in metric units. Nothing here
is translated; `plots.wording` turns the results into words.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

METRES_PER_INCH = 0.0254
METRES_PER_FOOT = 0.3048
LITRES_PER_GALLON = 3.785411784


class Units(StrEnum):
    """The system of measurement that a garden reads and writes."""

    US = "us"
    METRIC = "metric"


class Quantity(StrEnum):
    """What is measured; it decides which unit a garden uses for it."""

    SHORT_LENGTH = "short length"  # depths and spacings, kept in metres
    LENGTH = "length"  # plots, rows and elevations, kept in metres
    TEMPERATURE = "temperature"  # °C
    WARMTH = "warmth"  # a difference of temperatures, °C
    VOLUME = "volume"  # litres
    RAIN = "rain"  # depth of water, kept in millimetres


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit as typed: one of it is `scale` SI units, and its zero stands at `zero` SI units."""

    symbol: str
    scale: float
    zero: float = 0.0
    decimals: int = 1
    fractions: bool = False

    def to_si(self, number: float) -> float:
        """The SI value of a number of this unit, free of the noise of conversion."""
        return round(number * self.scale + self.zero, 9)

    def from_si(self, value: float) -> float:
        """The number of this unit in an SI value, free of the noise of conversion.

        >>> INCH.from_si(0.00635), FAHRENHEIT.from_si(-2.2)
        (0.25, 28.04)
        """
        return round((value - self.zero) / self.scale, 6)


INCH = Unit("in", METRES_PER_INCH, fractions=True)
FOOT = Unit("ft", METRES_PER_FOOT)
CENTIMETRE = Unit("cm", 0.01)
METRE = Unit("m", 1.0, decimals=2)
MILLIMETRE = Unit("mm", 0.001)
FAHRENHEIT = Unit("°F", 5 / 9, zero=-160 / 9)
CELSIUS = Unit("°C", 1.0)
FAHRENHEIT_DEGREE = Unit("°F", 5 / 9)
GALLON = Unit("gal", LITRES_PER_GALLON)
LITRE = Unit("L", 1.0)
RAIN_INCH = Unit("in", 25.4, decimals=2)
RAIN_MILLIMETRE = Unit("mm", 1.0)

_UNITS: dict[Quantity, tuple[Unit, Unit]] = {
    Quantity.SHORT_LENGTH: (INCH, CENTIMETRE),
    Quantity.LENGTH: (FOOT, METRE),
    Quantity.TEMPERATURE: (FAHRENHEIT, CELSIUS),
    Quantity.WARMTH: (FAHRENHEIT_DEGREE, CELSIUS),
    Quantity.VOLUME: (GALLON, LITRE),
    Quantity.RAIN: (RAIN_INCH, RAIN_MILLIMETRE),
}

_LENGTH_WORDS = {
    **dict.fromkeys(("in", "in.", "inch", "inches", '"', "′′", "''", "”"), INCH),
    **dict.fromkeys(("ft", "ft.", "foot", "feet", "'", "′", "’"), FOOT),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), CENTIMETRE),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), MILLIMETRE),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), METRE),
}
_WORDS: dict[Quantity, dict[str, Unit]] = {
    Quantity.SHORT_LENGTH: _LENGTH_WORDS,
    Quantity.LENGTH: _LENGTH_WORDS,
    Quantity.TEMPERATURE: {
        **dict.fromkeys(("°f", "f"), FAHRENHEIT),
        **dict.fromkeys(("°c", "c"), CELSIUS),
    },
    Quantity.WARMTH: {
        **dict.fromkeys(("°f", "f"), FAHRENHEIT_DEGREE),
        **dict.fromkeys(("°c", "c"), CELSIUS),
    },
    Quantity.VOLUME: {
        **dict.fromkeys(("gal", "gal.", "gallon", "gallons"), GALLON),
        **dict.fromkeys(("l", "litre", "litres", "liter", "liters"), LITRE),
    },
    Quantity.RAIN: {
        **dict.fromkeys(("in", "in.", "inch", "inches", '"', "″", "”"), RAIN_INCH),
        **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), RAIN_MILLIMETRE),
    },
}

_NUMBER = r"(?:\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+(?:[.,]\d+)?|[.,]\d+)"
_PART = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<word>[^\d\s.,/+-][^\d/+-]*?)?\s*(?=[\d.,]|$)")
_THOUSANDS = re.compile(r"(?<!\d)[1-9]\d{0,2},\d{3}(?!\d)")
_CENTIMETRES_SHOWN_WHOLE = 5  # inches made into centimetres are not that exact
_NEAR_WHOLE = 0.095  # a whole °F kept as a tenth of a °C comes back this close


class QuantityError(ValueError):
    """Typed text is no number, or names a unit that does not fit."""


class TwoWaysError(QuantityError):
    """A comma that may set off thousands or decimals: `4,000`."""


def unit_for(quantity: Quantity, units: str) -> Unit:
    """The unit in which a garden with `units` (`"us"` or `"metric"`) reads and types a quantity."""
    us, metric = _UNITS[quantity]
    return us if units == Units.US else metric


def fahrenheit_to_celsius(fahrenheit: float) -> float:
    """°C of a temperature in °F.

    >>> fahrenheit_to_celsius(50)
    10.0
    """
    return FAHRENHEIT.to_si(fahrenheit)


def parse_number(text: str) -> float:
    """A number as people type it: `0.25`, `0,25`, `1/4`, `1 1/2`, `1½`, `−3`.

    A comma is a decimal mark; `1,000`, which could be a thousand or one, is refused, not guessed.
    Raises `QuantityError` for anything else.

    >>> parse_number("1 1/2"), parse_number("¼"), parse_number("-2,5")
    (1.5, 0.25, -2.5)
    """
    plain = _plain(text)
    negative = plain.startswith("-")
    plain = plain.removeprefix("-").removeprefix("+").strip()
    if _THOUSANDS.search(plain):
        raise TwoWaysError(text)
    if not re.fullmatch(_NUMBER, plain):
        raise QuantityError(text)
    return -_number(plain) if negative else _number(plain)


def parse_quantity(text: str, quantity: Quantity, units: str) -> float:
    """The SI value of typed text; a number without a unit is in the garden's own.

    Feet and inches may be combined. Raises `QuantityError` for no number, or a unit that does not fit.

    >>> parse_quantity("1/4", Quantity.SHORT_LENGTH, "us")
    0.00635
    >>> parse_quantity("2 ft 6 in", Quantity.LENGTH, "metric")
    0.762
    """
    plain = _plain(text)
    negative = plain.startswith("-")
    rest = plain.removeprefix("-").removeprefix("+").strip()
    if _THOUSANDS.search(rest):
        raise TwoWaysError(text)
    parts: list[tuple[float, Unit]] = []
    while rest:
        match = _PART.match(rest)
        if not match:
            raise QuantityError(text)
        parts.append((_number(match["number"]), _unit(match["word"], quantity, units, text)))
        rest = rest[match.end() :]
    if not parts or (len(parts) > 1 and [unit for _, unit in parts] != [FOOT, INCH]):
        raise QuantityError(text)
    sign = -1 if negative else 1
    if len(parts) == 1:
        return parts[0][1].to_si(sign * parts[0][0])
    return round(sign * sum(unit.to_si(number) for number, unit in parts), 9)


def in_unit(value: float, unit: Unit) -> float | Fraction:
    """An SI value as a number to show: an exact fraction of an inch, else rounded to the unit's decimals.

    >>> in_unit(0.00635, INCH), in_unit(0.0254, INCH), in_unit(4.4, FAHRENHEIT), in_unit(0.4572, CENTIMETRE)
    (Fraction(1, 4), 1.0, 40.0, 46.0)
    """
    number = unit.from_si(value)
    if unit.fractions and number != int(number):
        eighths = Fraction(number).limit_denominator(8)
        if abs(eighths - Fraction(number)) < Fraction(1, 1000) and eighths.denominator in (2, 4, 8):
            return eighths
    if unit is CENTIMETRE and number >= _CENTIMETRES_SHOWN_WHOLE and number * 2 != int(number * 2):
        return float(round(number))
    if unit is FAHRENHEIT and abs(number - round(number)) < _NEAR_WHOLE:
        return float(round(number))
    return round(number, unit.decimals)


def as_typed(value: float, unit: Unit) -> str:
    """An SI value as someone would type it again in this unit, without losing what they typed.

    >>> as_typed(0.0381, INCH), as_typed(0.762, METRE), as_typed(4.7222, FAHRENHEIT)
    ('1 1/2', '0.762', '40.5')
    """
    shown = in_unit(value, unit)
    if isinstance(shown, Fraction):
        return mixed_number(shown)
    exact = round(unit.from_si(value), 3)
    return f"{shown if unit is FAHRENHEIT and shown == int(shown) else exact:.10g}"


def mixed_number(fraction: Fraction) -> str:
    """A fraction as a gardener writes it.

    >>> mixed_number(Fraction(3, 2))
    '1 1/2'
    """
    whole, rest = divmod(abs(fraction), 1)
    sign = "-" if fraction < 0 else ""
    return sign + " ".join(str(part) for part in (whole, rest) if part)


def _plain(text: str) -> str:
    spaced = re.sub(r"(?<=\d)(?=[¼½¾⅓⅔⅛⅜⅝⅞])", " ", text)
    plain = unicodedata.normalize("NFKC", spaced.replace("º", "°"))
    return plain.replace("⁄", "/").replace("−", "-").replace("–", "-").strip()


def _number(text: str) -> float:
    text = re.sub(r"\s*/\s*", "/", text).replace(",", ".")
    try:
        return float(sum((Fraction(part) for part in text.split()), Fraction(0)))
    except ZeroDivisionError as error:
        raise QuantityError(text) from error


def _unit(word: str | None, quantity: Quantity, units: str, text: str) -> Unit:
    if not word:
        return unit_for(quantity, units)
    try:
        return _WORDS[quantity][" ".join(word.casefold().split())]
    except KeyError as error:
        raise QuantityError(text) from error
