"""Sentences about where a garden's frost dates come from."""

from __future__ import annotations

from django.utils.translation import gettext as _

from plots.models import Garden
from plots.quantities import Quantity
from plots.wording import number_text, quantity_text
from schedules.models import BasisChoice, GardenClimate
from schedules.service.climate import chosen_climate


def climate_source_text(garden: Garden) -> str:
    """Where the garden's dates come from, in one line for a margin or the foot of a sheet."""
    return source_text(garden, chosen_climate(garden))


def source_text(garden: Garden, chosen: GardenClimate | None) -> str:
    """The same where the choice is at hand already."""
    if chosen is None:
        return _("No frost dates yet")
    if chosen.basis == BasisChoice.RECORD:
        return _record_text(garden, chosen)
    if chosen.basis == BasisChoice.TABLE:
        if chosen.table_source:
            return _("Frost dates from a published table: %(source)s") % {"source": chosen.table_source}
        return _("Frost dates from a published table")
    mean = garden.mean_frost
    values = {"source": mean.source, "days": number_text(mean.spread_days)}
    if mean.source:
        return _("Mean frost dates (%(source)s), assumed to spread by %(days)s days") % values
    return _("Mean frost dates, assumed to spread by %(days)s days") % values


def offset_text(garden: Garden, offset_c: float) -> str:
    """How the garden is taken to differ from its station, or nothing."""
    if not offset_c:
        return ""
    warmth = quantity_text(abs(offset_c), Quantity.WARMTH, garden.units)
    text = _("garden taken as %(warmth)s warmer") if offset_c > 0 else _("garden taken as %(warmth)s colder")
    return text % {"warmth": warmth}


def threshold_text(celsius: float, units: str) -> str:
    """A temperature in the garden's unit: "28 °F", "−2.2 °C"."""
    return quantity_text(celsius, Quantity.TEMPERATURE, units)


def _record_text(garden: Garden, chosen: GardenClimate) -> str:
    record = chosen.record
    values = {"station": record.name, "first": record.first_day.year, "last": record.last_day.year}
    if chosen.weighted:
        text = _("Frost dates counted in the records of several stations, %(station)s among them") % values
    else:
        text = _("Frost dates counted in the record of %(station)s, %(first)s to %(last)s") % values
    if chosen.recent_only:
        text = _("%(source)s, the last fifteen years alone") % {"source": text}
    offset = offset_text(garden, chosen.offset_c)
    return f"{text}; {offset}" if offset else text
