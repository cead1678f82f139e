"""Names of crops in templates, in the reader's language."""

from __future__ import annotations

from typing import Any

from django import template

from crops.botany import parts
from crops.models import Crop, GerminationLimit, Variety
from crops.wording import names
from plots.quantities import Quantity
from plots.wording import quantity_text, range_text

register = template.Library()


@register.filter
def crop_name(crop: Crop) -> str:
    """The crop's name in the reader's language."""
    return names.crop_name(crop.name)


@register.filter
def crop_label(crop: Crop, variety: Variety | None) -> str:
    """The name of a crop and its variety."""
    return names.crop_label(crop, variety)


@register.filter
def table_name(key: str) -> str:
    """The name under which a published table lists its seed."""
    return names.table_name(key)


@register.filter
def best_warmth(limits: GerminationLimit, units: str) -> str:
    """The best soil temperatures of one source: a range, a figure, or both as printed."""
    said = []
    if limits.optimum_low_c is not None and limits.optimum_high_c is not None:
        said.append(range_text(limits.optimum_low_c, limits.optimum_high_c, Quantity.TEMPERATURE, units))
    if limits.optimum_c is not None:
        said.append(quantity_text(limits.optimum_c, Quantity.TEMPERATURE, units))
    return "; ".join(said)


@register.inclusion_tag("crops/_botanical.html")
def botanical(name: str) -> dict[str, Any]:
    """A botanical name, its Latin in italics."""
    return {"parts": parts(name)}
