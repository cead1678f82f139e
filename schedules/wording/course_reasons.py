"""Why what follows from a planting comes when it does."""

from __future__ import annotations

from django.utils.translation import gettext as _

from crops.wording.facts import thin_text
from plots.quantities import Quantity
from plots.wording import number_text, quantity_text, span_text
from schedules.windows.ripening import Counted
from schedules.wording.phrases import (
    Sentence,
    Values,
    days,
    month_day,
    temperature,
    under_cover,
    whole_temperature,
)


def _true_leaves(values: Values, units: str) -> str:
    words = {"leaves": days(values["leaf_days"]), "thinning": days(values["thinning_days"])}
    if values["emergence_days"] is None:  # it was seen to come up
        text = _(
            "Seedlings open their true leaves about %(leaves)s after they show; thin within the %(thinning)s "
            "that follow, before roots tangle."
        )
    else:
        words["emergence"] = days(values["emergence_days"])
        text = _(
            "Seedlings show about %(emergence)s after sowing and open their true leaves about %(leaves)s "
            "later; thin within the %(thinning)s that follow, before roots tangle."
        )
    parts = [text % words]
    if values["when"]:
        parts.append(_("The sign to go by: %(when)s.") % {"when": thin_text(values["when"], units)})
    if values["spacing_m"] is not None:
        spacing = quantity_text(values["spacing_m"], Quantity.SHORT_LENGTH, units)
        parts.append(_("Leave one plant every %(spacing)s.") % {"spacing": spacing})
    return " ".join(parts)


def _later_year(values: Values, units: str) -> str:
    if values["year"] is None:
        return _("No source gives the days to its first harvest.")
    text = _("It is first picked in year %(year)s, the year of planting being year 1.") % {
        "year": number_text(values["year"])
    }
    if not values["days"]:
        return text
    lasts = _("From then on it is picked for up to %(days)s a year.") % {"days": days(values["days"])}
    return f"{text} {lasts}"


def _ripens_in(values: Values, units: str) -> str:
    published = _("It takes %(days)s days to the first harvest, quick varieties to slow ones.") % {
        "days": span_text(values["days_low"], values["days_high"])
    }
    return f"{published} {_COUNTED[values['counted']](values, units)}"


_COUNTED: dict[Counted, Sentence] = {
    Counted.WARMTH: lambda v, u: (
        _(
            "They are days that average the %(best)s it grows best at. Begun on the best day, a middling "
            "variety takes %(days)s of this garden's to gather as much warmth above %(base)s."
        )
        % {
            "best": whole_temperature(v["best_c"], u),
            "days": number_text(v["takes"]),
            "base": whole_temperature(v["base_c"], u),
        }
    ),
    Counted.SHORTER_DAYS: lambda v, u: _(
        "The warmth of this garden is not known, so days are counted; one after the autumn equinox counts "
        "for three quarters, as growth slows."
    ),
    Counted.DAYS: lambda v, u: _("They are counted as days, not by this garden's warmth."),
}


def _killed_by_freeze(values: Values, units: str) -> str:
    text = _("The freeze of %(celsius)s that ends it has come by %(day)s in %(percent)s of 100 years.") % {
        "day": month_day(values["freeze"]),
        "celsius": temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }
    return under_cover(text, values, units)


SENTENCES: dict[str, Sentence] = {
    "succession": lambda v, u: (
        _("Begun anew every %(days)s, so that the harvest goes on.") % {"days": days(v["days"])}
    ),
    "weeks-under-cover": lambda v, u: (
        _("Seedlings stand %(weeks)s weeks under cover before they are set out.")
        % {"weeks": span_text(v["weeks_low"], v["weeks_high"])}
    ),
    "before-transplanting": lambda v, u: (
        _(
            "Seedlings get used to sun, wind and cool nights for the last %(days)s days before "
            "they are set out."
        )
        % {"days": span_text(v["days_low"], v["days_high"])}
    ),
    "true-leaves": _true_leaves,
    "days-to-maturity": _ripens_in,
    "ripens-next-summer": lambda v, u: (
        _(
            "Set in autumn it is ripe about %(days)s days after the best day for setting, whenever that was "
            "done: lengthening days ripen it."
        )
        % {"days": span_text(v["days_low"], v["days_high"])}
    ),
    "picking-period": lambda v, u: _("Picking goes on for up to %(days)s.") % {"days": days(v["days"])},
    "killed-by-freeze": _killed_by_freeze,
    "harvest-in-later-year": _later_year,
}
