"""What several topics about the ground say: the bed that sums are for, depths and weights in whole steps."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from crops.lime import PER_100_SQUARE_FEET
from crops.volumes import layer_m3
from crops.wording.cautions import Hazard, caution
from crops.wording.volumes import bulk_text
from plots.quantities import METRES_PER_FOOT, METRES_PER_INCH, Quantity, Units
from plots.wording import NO_BREAK, number_text, quantity_text, range_text
from plots.wording.site import area_text, size_text
from schedules.place import Place
from schedules.reports.document import Page
from schedules.wording.logs import unit_short, weight_text

_NAMED = 12
_WHOLE_FROM = 10
_GRAMS_IN_KG = 1000


def is_us(place: Place) -> bool:
    return place.units == Units.US


def bed_text(place: Place) -> str:
    """The bed's sides and its area: `4 ft × 8 ft (32 sq ft)`."""
    small = not is_us(place) and place.bed.area_m2 < _WHOLE_FROM  # 2.9 m² are not 3
    area = f"{whole(place.bed.area_m2)}{NO_BREAK}{pgettext('unit', 'm²')}"
    return _("%(sides)s (%(area)s)") % {
        "sides": size_text(place.bed.width_m, place.bed.length_m, place.units),
        "area": area if small else area_text(place.bed.area_m2, place.units),
    }


def deep(place: Place, inches: float, centimetres: float) -> float:
    """Metres of a depth that is round in the reader's own units."""
    return inches * METRES_PER_INCH if is_us(place) else centimetres / 100


def deep_text(place: Place, inches: float, centimetres: float) -> str:
    """The same in words."""
    return quantity_text(deep(place, inches, centimetres), Quantity.SHORT_LENGTH, place.units)


def deep_range(place: Place, inches: tuple[float, float], centimetres: tuple[float, float]) -> str:
    """From one depth to another, in words."""
    low, high = (deep(place, *pair) for pair in zip(inches, centimetres, strict=True))
    return range_text(low, high, Quantity.SHORT_LENGTH, place.units)


def long_text(place: Place, feet: float, metres: float) -> str:
    """A length that is round in the reader's own units."""
    return quantity_text(feet * METRES_PER_FOOT if is_us(place) else metres, Quantity.LENGTH, place.units)


def warm_text(place: Place, fahrenheit: int, celsius: int) -> str:
    """A temperature that is round in the reader's own units."""
    shown = (fahrenheit - 32) / 1.8 if is_us(place) else float(celsius)
    return quantity_text(shown, Quantity.TEMPERATURE, place.units)


def layer_text(place: Place, depth_m: float) -> str:
    """The volume of a layer on the bed."""
    return bulk_text(layer_m3(place.bed.area_m2, depth_m), place.units)


def kilograms_text(place: Place, kilograms: float) -> str:
    """A weight that is weighed out: `6.4 oz`, `180 g`."""
    return weight_text(kilograms * _GRAMS_IN_KG, place.units)


def nitrogen_rate(place: Place, pounds: float, grams: float) -> float:
    """Kilograms to the square metre: pounds to 100 square feet, or grams to the square metre."""
    return pounds * PER_100_SQUARE_FEET if is_us(place) else grams / _GRAMS_IN_KG


def rate_text(place: Place, pounds: float, grams: float) -> str:
    """The same in words."""
    if is_us(place):
        weight = f"{number_text(pounds)}{NO_BREAK}{unit_short('lb')}"
        return _("%(weight)s per 100 sq ft") % {"weight": weight}
    return _("%(weight)s per m²") % {"weight": weight_text(grams, "metric")}


def whole(number: float) -> str:
    """A number as people carry it out: whole from ten on."""
    return number_text(round(number) if number >= _WHOLE_FROM else round(number, 1))


def named(names: Iterable[str], most: int = _NAMED) -> str:
    """Names in a row, the rest counted: `Beet; Pepper, hot and 4 more`. One more is named, too."""
    every = list(names)
    if len(every) <= most + 1:
        most = len(every)
    shown = pgettext("between names that may hold commas", "; ").join(every[:most])
    if len(every) == most:
        return shown
    rest = len(every) - most
    return ngettext("%(names)s and %(count)d more", "%(names)s and %(count)d more", rest) % {
        "names": shown,
        "count": rest,
    }


def warn(page: Page, hazards: Sequence[Hazard]) -> None:
    """The usual cautions about these, in one place."""
    page.caution("\n".join(caution(hazard).text for hazard in hazards))
