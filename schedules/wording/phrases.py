"""The measures that sentences about windows are built from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from math import ceil
from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plots.quantities import Quantity
from plots.wording import number_text, quantity_text
from schedules.windows.ripening import Counted

Values = Mapping[str, Any]
Sentence = Callable[[Values, str], str]


def month_day(day: date) -> str:
    return date_format(day, "MONTH_DAY_FORMAT")


def temperature(celsius: float, units: str) -> str:
    return quantity_text(celsius, Quantity.TEMPERATURE, units)


def whole_temperature(celsius: float, units: str) -> str:
    """A temperature in whole degrees of the garden's scale; an estimate needs no tenths."""
    degrees = celsius * 1.8 + 32 if units == "us" else celsius
    name = _("%(degrees)s °F") if units == "us" else _("%(degrees)s °C")
    return name % {"degrees": number_text(round(degrees))}


def days(count: int) -> str:
    return ngettext("%(count)d day", "%(count)d days", count) % {"count": count}


def to_harvest(values: Values) -> str:
    """Days to the first harvest as published, and those of this garden that they take, if not as many."""
    published = days(values["days"])
    if values["takes"] == values["days"]:
        return published
    if values["counted"] == Counted.WARMTH:
        text = _("%(days)s (%(takes)s at the warmth of those months here)")
    else:
        text = _("%(days)s (%(takes)s, as a day after the autumn equinox counts for three quarters)")
    return text % {"days": published, "takes": number_text(values["takes"])}


def under_cover(sentence: str, values: Values, units: str) -> str:
    """A sentence about a freeze that has to reach plants through their row cover."""
    if not values.get("cover_c"):
        return sentence
    covered = _("Its row cover is counted as keeping off %(warmth)s.") % {
        "warmth": quantity_text(values["cover_c"], Quantity.WARMTH, units)
    }
    return f"{sentence} {covered}"


def from_last_frost(weeks: float) -> str:
    if weeks == 0:
        return _("at the mean last frost")
    text = (
        ngettext(
            "%(count)s week before the mean last frost",
            "%(count)s weeks before the mean last frost",
            ceil(abs(weeks)),
        )
        if weeks < 0
        else ngettext(
            "%(count)s week after the mean last frost",
            "%(count)s weeks after the mean last frost",
            ceil(weeks),
        )
    )
    return text % {"count": number_text(abs(weeks))}


def from_first_frost(weeks: float) -> str:
    if weeks == 0:
        return _("at the mean first frost")
    text = (
        ngettext(
            "%(count)s week before the mean first frost",
            "%(count)s weeks before the mean first frost",
            ceil(abs(weeks)),
        )
        if weeks < 0
        else ngettext(
            "%(count)s week after the mean first frost",
            "%(count)s weeks after the mean first frost",
            ceil(weeks),
        )
    )
    return text % {"count": number_text(abs(weeks))}
