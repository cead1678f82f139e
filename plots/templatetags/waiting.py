"""Places of the waiting list in words."""

from __future__ import annotations

from django import template

from plots.waiting import Place
from plots.wording.waiting import reasons_text

register = template.Library()


@register.filter
def place_reasons(place: Place) -> str:
    """Why a place is where it is."""
    return reasons_text(place.reasons)
