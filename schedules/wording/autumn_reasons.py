"""Why an autumn planting may begin when it may."""

from __future__ import annotations

from django.utils.translation import gettext as _

from plots.wording import number_text
from schedules.wording.phrases import (
    Sentence,
    Values,
    days,
    from_first_frost,
    month_day,
    temperature,
    to_harvest,
)


def _matures_after_heat(values: Values, units: str) -> str:
    return _("Started earlier it would ripen before %(day)s, in months warmer than %(celsius)s.") % {
        "day": month_day(values["heat"]),
        "celsius": temperature(values["celsius"], units),
    }


def _counted_back(values: Values, units: str, *, early: bool) -> str:
    by = _RIPE_BY[values["because"]](values, units)
    if early:
        back = _(
            "Counted back from %(by)s: %(days)s to maturity for a slow variety, and %(picking)s of picking."
        )
    else:
        back = _("Counted back from %(by)s: %(days)s to maturity for a quick variety.")
    return back % {"by": by, "days": to_harvest(values), "picking": days(values["picking_days"])}


def _by_margin(values: Values, units: str) -> str:
    margin = values["margin"]
    words = {
        "days": days(abs(margin)),
        "frost": month_day(values["frost"]),
        "day": month_day(values["ripe_by"]),
    }
    if margin > 0:
        return _("%(day)s, when it should be ripe, %(days)s before the mean first frost on %(frost)s") % words
    if margin < 0:
        return (
            _("%(day)s, as it may still ripen for %(days)s after the mean first frost on %(frost)s") % words
        )
    return _("the mean first frost on %(frost)s") % words


def _by_freeze(values: Values, units: str) -> str:
    if values.get("cover_c"):
        text = _(
            "%(day)s, by when the freeze of %(celsius)s that ends it even under its row cover has come in "
            "%(percent)s of 100 years"
        )
    else:
        text = _(
            "%(day)s, by when the freeze of %(celsius)s that ends it has come in %(percent)s of 100 years"
        )
    return text % {
        "day": month_day(values["freeze"]),
        "celsius": temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }


def _by_growth(values: Values, units: str) -> str:
    return _("%(day)s, when the months become too cold for it to grow (below %(celsius)s on average)") % {
        "day": month_day(values["ends"]),
        "celsius": temperature(values["celsius"], units),
    }


_RIPE_BY: dict[str, Sentence] = {
    "published-margin": _by_margin,
    "killing-freeze": _by_freeze,
    "growth-ends": _by_growth,
}


def _set_in_autumn(values: Values, *, early: bool) -> str:
    words = {"weeks": from_first_frost(values["weeks"]), "frost": month_day(values["frost"])}
    if early:
        return _("It is set from %(weeks)s (%(frost)s) on, once the heat is over.") % words
    return _("Roots must form before the ground freezes: set it by %(weeks)s (%(frost)s).") % words


SENTENCES: dict[str, Sentence] = {
    "not-planted-in-autumn": lambda v, u: _("It is not planted in autumn: no source gives a date."),
    "matures-after-heat": _matures_after_heat,
    "counted-back-earliest": lambda v, u: _counted_back(v, u, early=True),
    "counted-back-latest": lambda v, u: _counted_back(v, u, early=False),
    "after-spring-window": lambda v, u: (
        _("Until %(day)s it still counts as the spring planting.") % {"day": month_day(v["spring_latest"])}
    ),
    "autumn-needs-long-season": lambda v, u: (
        _(
            "A second planting for autumn is uncommon: it takes a season of at least %(days)s "
            "between the mean frosts."
        )
        % {"days": days(v["days"])}
    ),
    "set-around-first-frost": lambda v, u: _set_in_autumn(v, early=True),
    "set-before-ground-freezes": lambda v, u: _set_in_autumn(v, early=False),
}
