"""Volumes of compost, mulch and soil in the units of a garden."""

from __future__ import annotations

from django.utils.translation import pgettext

from crops.volumes import LITRES_PER_M3, M3_PER_CUBIC_FOOT, M3_PER_CUBIC_YARD
from plots.quantities import Units
from plots.wording import NO_BREAK, number_text

_WHOLE_FROM = 10


def bulk_text(volume_m3: float, units: str) -> str:
    """As it is ordered: `8 cu ft` or, from a cubic yard up, `1.2 cu yd`; `120 L` or `1.2 m³`."""
    if units == Units.US:
        big, small = M3_PER_CUBIC_YARD, M3_PER_CUBIC_FOOT
        unit = pgettext("unit", "cu yd") if volume_m3 >= big else pgettext("unit", "cu ft")
    else:
        big, small = 1.0, 1 / LITRES_PER_M3
        unit = pgettext("unit", "m³") if volume_m3 >= big else pgettext("unit", "L")
    number = volume_m3 / (big if volume_m3 >= big else small)
    return f"{number_text(round(number) if number >= _WHOLE_FROM else round(number, 1))}{NO_BREAK}{unit}"
