"""What paired nights tell of a garden and its station, in words."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plots.quantities import Quantity
from plots.wording import quantity_text
from schedules.misreadings import Flaw
from schedules.offset import FEWEST_NIGHTS, Estimate, FlawedNight, Learned


def difference_text(celsius: float, units: str) -> str:
    """How much colder or warmer: "2.1 °F colder"."""
    warmth = _warmth(celsius, units)
    text = _("%(warmth)s colder") if celsius < 0 else _("%(warmth)s warmer")
    return text % {"warmth": warmth}


def estimate_text(estimate: Estimate, units: str) -> str:
    """The whole estimate: "2.1 °F colder, ± 0.6 °F, from 34 clear nights"."""
    if estimate.clear:
        nights = ngettext("%(count)s clear night", "%(count)s clear nights", estimate.nights)
    else:
        nights = ngettext("%(count)s night", "%(count)s nights", estimate.nights)
    return _("%(difference)s, ± %(half)s, from %(nights)s") % {
        "difference": difference_text(estimate.offset_c, units),
        "half": _warmth(estimate.half_width_c, units),
        "nights": nights % {"count": estimate.nights},
    }


def progress_text(learned: Learned) -> str:
    """How far a garden is that has no estimate yet."""
    values = {"count": learned.counted, "needed": FEWEST_NIGHTS}
    if not learned.paired:
        return _("No night was read in the garden that its station has, too.")
    if learned.by_clear_nights:
        text = ngettext(
            "%(count)s clear night was read both here and at the station; %(needed)s are needed.",
            "%(count)s clear nights were read both here and at the station; %(needed)s are needed.",
            learned.counted,
        )
    else:
        text = ngettext(
            "%(count)s night was read both here and at the station; %(needed)s are needed.",
            "%(count)s nights were read both here and at the station; %(needed)s are needed.",
            learned.counted,
        )
    return text % values


def doubts_of(learned: Learned, units: str) -> list[str]:
    """What looks wrong with the readings as a whole."""
    found = []
    if learned.shift_days:
        found.append(
            _("The readings fit the station's nights of the day before: they seem to be dated a day late.")
            if learned.shift_days < 0
            else _(
                "The readings fit the station's nights of the day after: they seem to be dated a day early."
            )
        )
    if learned.sunny_c is not None:
        found.append(
            _(
                "By day the thermometer shows %(warmth)s more than its nights explain: the sun may stand on"
                " it. Its nights are counted all the same."
            )
            % {"warmth": _warmth(learned.sunny_c, units)}
        )
    return found


def flaw_text(flawed: FlawedNight, units: str) -> str:
    """Why a night was set aside."""
    return _FLAWS[flawed.flaw]() % {
        "garden": quantity_text(flawed.garden_c, Quantity.TEMPERATURE, units),
        "station": quantity_text(flawed.station_c, Quantity.TEMPERATURE, units),
    }


_FLAWS = {
    Flaw.UNIT: lambda: _("%(garden)s beside the station's %(station)s: °F and °C may be mixed up."),
    Flaw.SIGN: lambda: _("%(garden)s beside the station's %(station)s: the minus sign may be wrong."),
    Flaw.BY_DAY: lambda: _(
        "%(garden)s beside the station's %(station)s: read by day, or with the sun on the thermometer."
    ),
    Flaw.POINT: lambda: _("%(garden)s beside the station's %(station)s: the decimal point may be wrong."),
    Flaw.OTHER_NIGHT: lambda: _(
        "%(garden)s beside the station's %(station)s: it would fit the night before or after."
    ),
    Flaw.FAR_OFF: lambda: _("%(garden)s beside the station's %(station)s: too far off to be right."),
}


def _warmth(celsius: float, units: str) -> str:
    return quantity_text(abs(celsius), Quantity.WARMTH, units)
