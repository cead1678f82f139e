"""Names of crops in templates, in the reader's language."""

from __future__ import annotations

from typing import Any

from django import template

from crops.botany import parts
from crops.models import Crop, Variety
from crops.wording import names

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


@register.inclusion_tag("crops/_botanical.html")
def botanical(name: str) -> dict[str, Any]:
    """A botanical name, its Latin in italics."""
    return {"parts": parts(name)}
