"""Measured values in the units of the garden, translated and with the language's own decimal mark."""

from __future__ import annotations

from fractions import Fraction

from django.utils.formats import number_format
from django.utils.translation import pgettext, pgettext_lazy

from plots.quantities import Quantity, Unit, in_unit, mixed_number, unit_for

NO_BREAK = "\u00a0"
_UNITS = {
    "in": pgettext_lazy("unit", "in"),
    "ft": pgettext_lazy("unit", "ft"),
    "cm": pgettext_lazy("unit", "cm"),
    "mm": pgettext_lazy("unit", "mm"),
    "m": pgettext_lazy("unit", "m"),
    "°F": pgettext_lazy("unit", "°F"),
    "°C": pgettext_lazy("unit", "°C"),
    "gal": pgettext_lazy("unit", "gal"),
    "L": pgettext_lazy("unit", "L"),
}


def unit_text(unit: Unit) -> str:
    """The abbreviation of a unit, translated."""
    return str(_UNITS[unit.symbol])


def number_text(value: float | Fraction) -> str:
    """A number without needless zeros, and a true minus sign: `2.5`, `1/4`, `−6`."""
    if isinstance(value, Fraction):
        return mixed_number(value).replace("-", "−")
    shown = f"{value:.10g}"
    decimals = len(shown.partition(".")[2])
    return number_format(shown, decimal_pos=decimals).replace("-", "−")


def quantity_text(value: float, quantity: Quantity, units: str) -> str:
    """An SI value with its unit: `1/4 in`, `4.4 °C`; `units` are the garden's, `"us"` or `"metric"`."""
    unit = unit_for(quantity, units)
    return f"{number_text(in_unit(value, unit))}{NO_BREAK}{unit_text(unit)}"


def range_text(low: float, high: float, quantity: Quantity, units: str) -> str:
    """Two SI values as one range in the garden's unit: `60–85 °F`."""
    unit = unit_for(quantity, units)
    return f"{span_text(in_unit(low, unit), in_unit(high, unit))}{NO_BREAK}{unit_text(unit)}"


def span_text(low: float | Fraction, high: float | Fraction) -> str:
    """Two numbers as one range: `4–6`; `−6 to 2`, where a dash would confuse; `5` when they agree."""
    if low == high:
        return number_text(low)
    if low < 0 or high < 0:
        return pgettext("range of numbers", "%(low)s to %(high)s") % {
            "low": number_text(low),
            "high": number_text(high),
        }
    return f"{number_text(low)}–{number_text(high)}"
