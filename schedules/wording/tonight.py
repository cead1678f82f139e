"""A cold night in sentences, and the draft of a notice about it."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import pgettext

from plots.models import Garden, Units
from plots.quantities import Quantity
from plots.wording import number_text, quantity_text
from schedules.service.tonight import Tonight
from schedules.tonight import AtRisk, Danger
from schedules.wording.calendar import day_text

# Between them a low typed in °C most likely is one of a frosty night in °F.
_TOO_WARM_C, _NO_FORECAST_C = 20, 45


def lede_text(night: Tonight, units: str) -> str:
    """What the forecast comes to in this garden; and whether °F may have been typed for °C."""
    text = _expected_text(night, units)
    if units == Units.METRIC and _TOO_WARM_C <= night.forecast_c <= _NO_FORECAST_C:
        hint = _("If the forecast says %(number)s °F, type %(number)s °F.")
        return f"{text} {hint % {'number': number_text(night.forecast_c)}}"
    return text


def _expected_text(night: Tonight, units: str) -> str:
    words = {
        "forecast": _temperature(night.forecast_c, units),
        "low": _temperature(night.low_c, units),
        "offset": quantity_text(abs(night.offset_c or 0.0), Quantity.WARMTH, units),
    }
    if night.offset_c is None:
        return _("%(low)s forecast; whether this garden is colder than that is not known.") % words
    if night.offset_c < 0:
        return _("%(forecast)s forecast, and this garden is %(offset)s colder: expect %(low)s.") % words
    if night.offset_c > 0:
        return _("%(forecast)s forecast, and this garden is %(offset)s warmer: expect %(low)s.") % words
    return _("%(low)s forecast; this garden is taken to be as cold as its station.") % words


def danger_text(row: AtRisk, units: str) -> str:
    """What the night may do to a planting, and whether a cover is enough."""
    words = {"dies_at": _temperature(row.dies_at_c, units)}
    young = {
        (True, Danger.KILLED): _("young, dies at %(dies_at)s"),
        (False, Danger.KILLED): _("grown, dies at %(dies_at)s"),
        (True, Danger.CLOSE): _("young, dies at %(dies_at)s: close"),
        (False, Danger.CLOSE): _("grown, dies at %(dies_at)s: close"),
    }
    return young[row.young, row.danger] % words


def remedy_text(row: AtRisk) -> str:
    """What to do about it."""
    if row.growing.covered:
        return _("is under its cover already, and that is not enough: pick what is ripe, or add a layer")
    if row.saved:
        return _("a row cover is enough")
    if row.young:
        return _("a light row cover is not enough: lay two or a blanket over hoops, or bring pots in")
    return _("a light row cover is not enough: lay two or a blanket over hoops, or pick what is ripe")


def cover_source_text(garden: Garden) -> str:
    """What a row cover keeps off here, and who says so."""
    words = {
        "degrees": quantity_text(garden.row_cover_c, Quantity.WARMTH, garden.units),
        "source": garden.row_cover_source or _("the low end for light covers, harvesttotable.com"),
    }
    return _("A row cover keeps off %(degrees)s here (%(source)s).") % words


def notice_draft(night: Tonight, garden: Garden) -> tuple[str, str]:
    """Subject and text of a notice that names crops, but no plot and no person."""
    rows = [row for plot in night.plots for row in plot.rows]
    names = sorted({row.growing.name for row in rows})
    words = {
        "day": day_text(night.night, night.night.year),
        "low": _temperature(night.low_c, garden.units),
        "crops": pgettext("between the items of a list", ", ").join(names),
        "degrees": quantity_text(garden.row_cover_c, Quantity.WARMTH, garden.units),
    }
    subject = _("Frost tonight? About %(low)s in the garden") % words
    paragraphs = [
        _("For the night after %(day)s we expect about %(low)s in the garden. Something of yours may suffer.")
        % words,
        _("In danger: %(crops)s.") % words,
        _(
            "Before dusk: water dry ground, lay covers over hoops and down to the soil, and weigh their "
            "edges down. A light row cover keeps off about %(degrees)s; two layers, or blankets over it, "
            "more. Pick what is ripe. Carry pots and seedlings that are being hardened off indoors. In the "
            "morning take the covers off once it has thawed. (Common practice.)"
        )
        % words,
        _("Forecasts miss by a few degrees. If you cannot come, ask a neighbour."),
    ]
    return subject, "\n\n".join(paragraphs)


def _temperature(celsius: float, units: str) -> str:
    return quantity_text(celsius, Quantity.TEMPERATURE, units)
