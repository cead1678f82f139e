"""The site in words: what a plot on the map is, where it lies, and what does not fit."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.formats import number_format
from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import pgettext

from plots.quantities import METRES_PER_FOOT, Quantity, Units
from plots.wording.quantities import NO_BREAK, number_text, quantity_text

NAMED = 8  # things that one sentence names
SQUARE_FOOT = METRES_PER_FOOT**2


def size_text(width: float | None, length: float | None, units: str) -> str:
    """`10 ft × 20 ft`; empty without both sides."""
    if width is None or length is None:
        return ""
    sides = [quantity_text(side, Quantity.LENGTH, units) for side in (width, length)]
    return " × ".join(sides)


def area_text(square_metres: float, units: str) -> str:
    """An area in square feet or square metres, whole."""
    if units == Units.US:
        number, unit = square_metres / SQUARE_FOOT, pgettext("unit", "sq ft")
    else:
        number, unit = square_metres, pgettext("unit", "m²")
    return f"{number_format(round(number), use_l10n=True, force_grouping=True)}{NO_BREAK}{unit}"


def place_text(left: float, top: float, units: str) -> str:
    """Where the corner of a thing lies."""
    sides = {
        "left": quantity_text(left, Quantity.LENGTH, units),
        "top": quantity_text(top, Quantity.LENGTH, units),
    }
    return _("%(left)s from the left, %(top)s from the top") % sides


def corner_text(left: float, top: float, units: str) -> str:
    """The same for a column that says which is which: `4 ft, 5 ft`."""
    return ", ".join(quantity_text(side, Quantity.LENGTH, units) for side in (left, top))


def water_text(label: str, metres: float, units: str) -> str:
    """A water point and the way to it: `shed tap, 11 ft`."""
    distance = distance_text(metres, units)
    return f"{label}, {distance}" if label else distance


def row_text(row: int, place: int) -> str:
    """Where a plot stands among its neighbours, counted from the top left of the map."""
    return _("row %(row)d, number %(place)d") % {"row": row, "place": place}


def name_text(what: str, *facts: str) -> str:
    """What a thing on the map is called to those who do not see it: `Plot A1, 10 ft × 20 ft, free`."""
    return ", ".join([what, *(fact for fact in facts if fact)])


def overlap_text(one: str, other: str) -> str:
    return _("%(one)s and %(other)s lie on the same ground.") % {"one": one, "other": other}


def outside_text(things: Sequence[str]) -> str:
    """One sentence for all; of many it names the first few."""
    if len(things) == 1:
        return _("%(thing)s reaches beyond the edge of the site.") % {"thing": things[0]}
    named = list(things) if len(things) <= NAMED else [*things[: NAMED - 2], "…", things[-1]]
    listed = get_text_list(named, _("and"))
    return _("Beyond the edge of the site (%(count)d): %(things)s.") % {
        "count": len(things), "things": listed
    }  # fmt: skip


def distance_text(metres: float, units: str) -> str:
    """A distance to walk, to the whole foot, or metre from ten on: `33 ft`, `4.5 m`."""
    if units == Units.US:
        return f"{number_text(float(round(metres / METRES_PER_FOOT)))}{NO_BREAK}{pgettext('unit', 'ft')}"
    rounded = round(metres) if metres >= 10 else round(metres * 2) / 2
    return f"{number_text(float(rounded))}{NO_BREAK}{pgettext('unit', 'm')}"


def scale_text(metres: float, units: str) -> str:
    """What is written on the scale bar."""
    return quantity_text(metres, Quantity.LENGTH, units)


def north_letter() -> str:
    return pgettext("north on a map", "N")
