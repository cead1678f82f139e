"""Water in words and in the units of a garden: depths, volumes, and why so much."""

from __future__ import annotations

from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plots.quantities import LITRES_PER_GALLON, Quantity, Units
from plots.wording import number_text, quantity_text
from schedules.amounts import MM_PER_INCH
from schedules.water import Basis, CropWater
from schedules.water.need import WEEK_MM

_WHOLE_FROM = 10


def depth_text(millimetres: float, units: str) -> str:
    """A depth of water as advice: whole millimetres, or tenths of an inch."""
    step = MM_PER_INCH / 10 if units == Units.US else 1.0
    return quantity_text(round(millimetres / step) * step, Quantity.RAIN, units)


def carried_text(litres: float, units: str) -> str:
    """Litres or gallons as somebody carries them: whole ones from ten on."""
    scale = LITRES_PER_GALLON if units == Units.US else 1.0
    number = litres / scale
    whole = round(number) if number >= _WHOLE_FROM else round(number, 1)
    return quantity_text(whole * scale, Quantity.VOLUME, units)


def weekday_text(day: date) -> str:
    """As in "Thursday, July 9"."""
    return _("%(weekday)s, %(day)s") % {
        "weekday": date_format(day, "l"),
        "day": date_format(day, "MONTH_DAY_FORMAT"),
    }


def owed_text(owed_mm: float, litres: float | None, by: date | None, units: str) -> str:
    """How much by when: "18 mm, 96 L, by Thursday, July 9"."""
    words = {"depth": depth_text(owed_mm, units), "day": weekday_text(by) if by else ""}
    if litres is None:
        return _("%(depth)s by %(day)s") % words if by else words["depth"]
    words["volume"] = carried_text(litres, units)
    return _("%(depth)s, %(volume)s, by %(day)s") % words if by else _("%(depth)s, %(volume)s") % words


def basis_text(basis: Basis, units: str) -> str:
    """Which of the two ways it was worked out in."""
    if basis is Basis.WEATHER:
        return _(
            "By the weather: each day's warmth takes water out of the root zone, rain and watering put it"
            " back (FAO Irrigation and Drainage Paper 56, from the day's lowest and highest temperature)."
        )
    return _(
        "There is no recent weather in the garden's record, so this is common practice: %(depth)s a week,"
        " less the rain and the water of the last seven days. Weather and soil override it: feel the ground."
    ) % {"depth": depth_text(WEEK_MM, units)}


def crop_text(one: CropWater, units: str) -> str:
    """Why a planting is owed what it is owed."""
    words = {
        "root": quantity_text(round(one.root_m, 2), Quantity.SHORT_LENGTH, units),
        "total": depth_text(one.total, units),
        "ready": depth_text(one.ready, units),
        "missing": depth_text(one.missing, units),
        "use": quantity_text(round(one.use, 1), Quantity.RAIN, units),
        "kc": f"{one.kc:.2f}",
        "share": number_text(round(100 * one.grown.share)),
    }
    said = (
        _(
            "Roots %(root)s deep hold %(total)s, %(ready)s of it easily had; %(missing)s is missing now."
            " It uses %(use)s a day, %(kc)s times what grass would. It is counted"
            " for %(share)s %% of the plot."
        )
        % words
    )
    if one.stressed_days:
        said += " " + ngettext(
            "On %(n)d of the last seven days it found too little.",
            "On %(n)d of the last seven days it found too little.",
            one.stressed_days,
        ) % {"n": one.stressed_days}
    return said


def crop_owed_text(one: CropWater, units: str) -> str:
    """What the planting is owed, or until when it has enough."""
    if one.owed:
        return owed_text(one.owed, None, one.by, units)
    if one.by is None:
        return _("enough for now")
    return _("enough until about %(day)s") % {"day": weekday_text(one.by)}


def reckoned_text(one: CropWater) -> str:
    """From when on the balance was kept."""
    return _("Reckoned from %(day)s on, as from moist ground.") % {
        "day": date_format(one.since, "MONTH_DAY_FORMAT")
    }
