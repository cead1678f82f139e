"""Numbers, dates and units as station files write them, turned into °C and mm."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from enum import StrEnum
from functools import lru_cache

_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)")
_DATE = re.compile(r"(\d{4})(?:-(\d\d?)-(\d\d?)|/(\d\d?)/(\d\d?)|(\d\d)(\d\d))(?:[T ]00:00(?::00)?)?")
_MISSING = {"", "na", "n/a", "nan", "null", "none", "m", "-", "-9999", "-9999.0", "-9999.00"}
_EARLIEST_YEAR = 1700  # the oldest daily series begin in the 18th century


class Element(StrEnum):
    """What is measured."""

    TMIN = "tmin"
    TMAX = "tmax"
    PRECIP = "precip"


class NotANumberError(ValueError):
    """A cell that holds neither a number nor one of the marks for a missing value."""


_TEMPERATURE_UNITS: dict[str, Callable[[float], float]] = {
    "c": lambda value: value,
    "f": lambda value: round((value - 32) / 1.8, 2),
    "k": lambda value: round(value - 273.15, 2),  # else 270.95 K would come out above -2.2
    "tenths c": lambda value: value / 10,
}
_DEPTH_UNITS: dict[str, Callable[[float], float]] = {
    "mm": lambda value: value,
    "cm": lambda value: round(value * 10, 2),
    "in": lambda value: round(value * 25.4, 2),
    "tenths mm": lambda value: value / 10,
}
_OTHER_SPELLINGS = {
    "celsius": "c",
    "degc": "c",
    "deg c": "c",
    "fahrenheit": "f",
    "degf": "f",
    "deg f": "f",
    "kelvin": "k",
    "0.1 c": "tenths c",
    "tenths of c": "tenths c",
    "0.1 mm": "tenths mm",
    "tenths of mm": "tenths mm",
    "inch": "in",
    "inches": "in",
}


def unit_of(text: str, element: Element) -> Callable[[float], float] | None:
    """The conversion to °C or mm that a unit row asks for, or `None` when the unit is not known.

    >>> unit_of("°F", Element.TMIN)(28)
    -2.22
    """
    plain = " ".join(text.casefold().replace("°", "").replace("º", "").split())
    plain = _OTHER_SPELLINGS.get(plain, plain)
    return (_DEPTH_UNITS if element is Element.PRECIP else _TEMPERATURE_UNITS).get(plain)


def number(text: str, *, decimal_comma: bool = False) -> float | None:
    """The number in a cell; `None` for a missing value, `NotANumberError` for anything else.

    >>> number("-2.2"), number(" 12,5 ", decimal_comma=True), number("-9999")
    (-2.2, 12.5, None)
    """
    plain = text.strip()
    if decimal_comma:
        plain = plain.replace(",", ".")
    if _NUMBER.fullmatch(plain) and not plain.startswith("-9999"):
        return float(plain)
    if plain.casefold() in _MISSING:
        return None
    if (typeset := plain.replace("−", "-")) != plain:
        return number(typeset)
    raise NotANumberError(text)


@lru_cache(maxsize=4096)
def calendar_day(text: str) -> date | None:
    """The day that `text` writes with the year first (2024-05-09, 2024/5/9, 20240509), or `None`.

    Day-first and month-first dates cannot be told apart, so neither is read.
    """
    match = _DATE.fullmatch(text.strip())
    if match is None:
        return None
    year, month, day = (int(part) for part in match.groups() if part is not None)
    try:
        return date(year, month, day) if year >= _EARLIEST_YEAR else None
    except ValueError:
        return None


def is_possible(element: Element, value: float) -> bool:
    """Whether a day on Earth can have had this value in °C or mm (records: -89.2 and 56.7 °C, 1825 mm)."""
    if element is Element.PRECIP:
        return 0 <= value <= 1900
    return -90 <= value <= 60
