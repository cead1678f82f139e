"""Filters and tags that say water in the garden's units."""

from __future__ import annotations

from datetime import date

from django import template

from plots.quantities import Quantity
from plots.wording import number_text, quantity_text
from schedules.service.water import PlotWater
from schedules.water import Basis, CropWater, WaterJob
from schedules.wording import water

register = template.Library()
_WHOLE_FROM = 10


@register.filter
def depth(millimetres: float, units: str) -> str:
    """As in “18 mm” or “0.7 in”."""
    return water.depth_text(millimetres, units)


@register.filter
def rain(millimetres: float, units: str) -> str:
    """Rain as it was read, to the hundredth of an inch or the tenth of a millimetre."""
    return quantity_text(millimetres, Quantity.RAIN, units)


@register.filter
def volume(litres: float, units: str) -> str:
    """As in “96 L” or “25 gal”."""
    return water.carried_text(litres, units)


@register.filter
def weekday(day: date) -> str:
    """As in “Thursday, July 9”."""
    return water.weekday_text(day)


@register.filter
def owed(one: PlotWater | WaterJob, units: str) -> str:
    """How much a plot is owed, by when."""
    return water.owed_text(one.owed_mm, one.litres, one.by, units)


@register.filter
def basis(value: Basis, units: str) -> str:
    """Which of the two ways was used."""
    return water.basis_text(value, units)


@register.filter
def crop_owed(one: CropWater, units: str) -> str:
    """What a planting is owed, or until when it has enough."""
    return water.crop_owed_text(one, units)


@register.filter
def why(one: CropWater, units: str) -> str:
    """What that rests on."""
    return f"{water.crop_text(one, units)} {water.reckoned_text(one)}"


@register.filter
def cans(litres: float, can_litres: float) -> str:
    """How many cans that is: whole ones from ten on, halves before."""
    count = litres / can_litres
    return number_text(round(count) if count >= _WHOLE_FROM else max(0.5, round(2 * count) / 2))


@register.filter
def minutes(litres: float, litres_per_minute: float) -> str:
    """How many minutes at the hose that is."""
    return number_text(max(1, round(litres / litres_per_minute)))
