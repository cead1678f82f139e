"""Filters that show values in the garden's units: `{{ crop.height_m|short_length:garden.units }}`."""

from __future__ import annotations

from django import template

from plots.quantities import Quantity
from plots.wording import number_text, quantity_text

register = template.Library()


def _shown(value: float | None, quantity: Quantity, units: str) -> str:
    return "" if value is None else quantity_text(value, quantity, units)


@register.filter
def short_length(metres: float | None, units: str) -> str:
    """Metres as inches or centimetres."""
    return _shown(metres, Quantity.SHORT_LENGTH, units)


@register.filter
def length_of(metres: float | None, units: str) -> str:
    """Metres as feet or metres."""
    return _shown(metres, Quantity.LENGTH, units)


@register.filter
def temperature(celsius: float | None, units: str) -> str:
    """°C as °F or °C."""
    return _shown(celsius, Quantity.TEMPERATURE, units)


@register.filter
def warmth(celsius: float | None, units: str) -> str:
    """A difference of °C as °F or °C."""
    return _shown(celsius, Quantity.WARMTH, units)


@register.filter
def number(value: float | None) -> str:
    """A number without needless zeros and with a true minus sign."""
    return "" if value is None else number_text(value)
