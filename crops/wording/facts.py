"""Facts about a crop as a gardener reads them: labels, values with units, and the sections of the sheet."""

from __future__ import annotations

import re
from collections.abc import Callable

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext, pgettext_lazy

from crops.facts import CropFacts
from crops.models import Crop
from crops.sheet import LINES, Line, Measure
from plots.quantities import METRES_PER_INCH, Quantity
from plots.wording import quantity_text, range_text, span_text

_QUANTITIES = {
    Measure.SHORT_LENGTH: Quantity.SHORT_LENGTH,
    Measure.TEMPERATURE: Quantity.TEMPERATURE,
    Measure.VOLUME: Quantity.VOLUME,
}

SECTION_TITLES = {
    "kind": gettext_lazy("What it is"),
    "sowing": gettext_lazy("Sowing and coming up"),
    "spacing": gettext_lazy("Distances"),
    "calendar": gettext_lazy("When, by the published rules"),
    "harvest": gettext_lazy("Ripening and picking"),
    "fall": gettext_lazy("In autumn"),
    "warmth": gettext_lazy("Warmth and cold"),
    "habit": gettext_lazy("The grown plant"),
}

# A range is one line of the page; single facts are called as in the forms.
_RANGE_LABELS = {
    "soil_optimum_low_c": gettext_lazy("best soil temperature"),
    "indoor_weeks_low": gettext_lazy("under cover before transplanting"),
    "sow_weeks_early": gettext_lazy("sown outdoors"),
    "transplant_weeks_early": gettext_lazy("transplanted"),
    "autumn_weeks_early": gettext_lazy("set in autumn"),
    "harvest_days_low": gettext_lazy("days of picking"),
    "growth_optimum_low_c": gettext_lazy("grows best at a monthly mean of"),
    "fall_margin_days": gettext_lazy("should be ripe"),
    "maturity_days_low": gettext_lazy("ripens in"),
}

_THIN_LEAVES = pgettext_lazy("thin when", "%(count)s true leaves")
_THIN_FIRST = pgettext_lazy("thin when", "the first true leaves show")
_THIN_TALL = pgettext_lazy("thin when", "%(height)s tall")


def line_label(line: Line) -> str:
    """What a line of the sheet is called."""
    first = line.fields[0]
    return str(_RANGE_LABELS.get(first) or Crop._meta.get_field(first).verbose_name)


def line_text(facts: CropFacts, line: Line, units: str) -> str:
    """A line's value with its unit, empty when it is not known; `units` are the garden's."""
    values = [getattr(facts, name) for name in line.fields]
    if any(value is None or value == "" for value in values):
        return ""
    if line.fields == ("maturity_days_low", "maturity_days_high") and facts.maturity_from:
        counted = fact_text(facts, "maturity_from", units)
        return f"{_plain_text(line.fields[0], line.measure, values, units)}, {counted}"
    if line.measure in _QUANTITIES:
        quantity = _QUANTITIES[line.measure]
        if len(values) == 2:
            return range_text(values[0], values[1], quantity, units)
        return quantity_text(values[0], quantity, units)
    name = line.fields[0]
    if name in _PHRASES:
        return _PHRASES[name](values)
    return _plain_text(name, line.measure, values, units)


def fact_text(facts: CropFacts, name: str, units: str) -> str:
    """One fact by its name, with its unit; of a range only the end that is asked for."""
    line = LINES[name]
    return line_text(facts, Line((name,), line.measure), units)


def thin_text(thin_when: str, units: str) -> str:
    """When to thin, in the reader's language and units; words of a garden's own stay as they are.

    The catalogue writes `2-3 true leaves`, `first true leaves` and `1-2 in tall`.
    """
    if thin_when == "first true leaves":
        return str(_THIN_FIRST)
    if leaves := re.fullmatch(r"(\d+)(?:-(\d+))? true leaves", thin_when):
        low, high = int(leaves[1]), int(leaves[2] or leaves[1])
        return _THIN_LEAVES % {"count": span_text(low, high)}
    if tall := re.fullmatch(r"(\d+)(?:-(\d+))? in tall", thin_when):
        low_m, high_m = (int(inches) * METRES_PER_INCH for inches in (tall[1], tall[2] or tall[1]))
        return _THIN_TALL % {"height": range_text(low_m, high_m, Quantity.SHORT_LENGTH, units)}
    return thin_when


def yes_or_no(value: bool) -> str:
    return _("yes") if value else _("no")


def from_frost(values: list[float], frost: str) -> str:
    """Weeks counted from a frost in words: `6 weeks before to 2 weeks after the mean last frost`."""
    early, late = values[0], values[-1]
    if early == late:
        return _("%(weeks)s the %(frost)s") % {"weeks": _weeks_side(early), "frost": frost}
    if late <= 0 or early >= 0:
        near, far = sorted((abs(early), abs(late)))
        span = {"span": span_text(near, far), "frost": frost}
        return (
            _("%(span)s weeks before the %(frost)s") % span
            if early < 0
            else _("%(span)s weeks after the %(frost)s") % span
        )
    return _("from %(early)s to %(late)s the %(frost)s") % {
        "early": _weeks_side(early),
        "late": _weeks_side(late),
        "frost": frost,
    }


def _weeks_side(weeks: float) -> str:
    count = span_text(abs(weeks), abs(weeks))
    plural = 1 if abs(weeks) == 1 else 2
    if weeks < 0:
        return ngettext("%(count)s week before", "%(count)s weeks before", plural) % {"count": count}
    return ngettext("%(count)s week after", "%(count)s weeks after", plural) % {"count": count}


def _margin(values: list[int]) -> str:
    days = values[0]
    if days < 0:
        return ngettext(
            "by %(days)s day after the mean first frost", "by %(days)s days after the mean first frost", -days
        ) % {"days": -days}
    return ngettext(
        "%(days)s day before the mean first frost", "%(days)s days before the mean first frost", days
    ) % {"days": days}


def _years(values: list[int]) -> str:
    return _("year %(year)s") % {"year": values[0]}


_PHRASES: dict[str, Callable[[list], str]] = {
    "sow_weeks_early": lambda values: from_frost(values, _("mean last frost")),
    "sow_weeks_late": lambda values: from_frost(values, _("mean last frost")),
    "transplant_weeks_early": lambda values: from_frost(values, _("mean last frost")),
    "transplant_weeks_late": lambda values: from_frost(values, _("mean last frost")),
    "autumn_weeks_early": lambda values: from_frost(values, _("mean first frost")),
    "autumn_weeks_late": lambda values: from_frost(values, _("mean first frost")),
    "fall_margin_days": _margin,
    "first_harvest_year": _years,
}


def _plain_text(name: str, measure: Measure, values: list, units: str) -> str:
    if measure == Measure.CHOICE:
        return str(dict(Crop._meta.get_field(name).flatchoices)[values[0]])
    if measure == Measure.YES_NO:
        return yes_or_no(values[0])
    if measure == Measure.TEXT:
        return thin_text(values[0], units)
    span = {"span": span_text(values[0], values[-1])}
    plural = 1 if values[0] == values[-1] == 1 else 2
    if measure == Measure.WEEKS:
        return ngettext("%(span)s week", "%(span)s weeks", plural) % span
    if measure == Measure.HOURS:
        return ngettext("%(span)s hour", "%(span)s hours", plural) % span
    return ngettext("%(span)s day", "%(span)s days", plural) % span
