"""Why a planting may begin when it may, in spring or by warmth alone."""

from __future__ import annotations

from django.utils.translation import gettext as _

from plots.quantities import Quantity
from plots.wording import number_text, quantity_text
from schedules.wording.phrases import (
    Sentence,
    Values,
    days,
    from_last_frost,
    month_day,
    temperature,
    to_harvest,
    under_cover,
    whole_temperature,
)


def _published(values: Values, *, early: bool) -> str:
    text = (
        _("Published calendars begin %(weeks)s, which falls here on %(frost)s.")
        if early
        else _("Published calendars end %(weeks)s, which falls here on %(frost)s.")
    ) % {"weeks": from_last_frost(values["weeks"]), "frost": month_day(values["frost"])}
    shift = values["shift_days"]
    if not shift:
        return text
    moved = (
        _("Where winters are as mild as here, they do so %(days)s earlier.")
        if early
        else _("Calendars of places with such a last frost close cool-season crops %(days)s earlier.")
    ) % {"days": days(abs(shift))}
    return f"{text} {moved}"


def _published_delayed(values: Values, units: str) -> str:
    late = _("As planting begins %(days)s later here than published, it may end as much later.")
    return f"{_published(values, early=False)} " + late % {"days": days(values["delay_days"])}


def _published_covered(values: Values, units: str) -> str:
    return _(
        "Published calendars begin %(weeks)s. A row cover keeps off %(warmth)s, and the last frost that "
        "reaches through it comes here on %(frost)s, as often before as after."
    ) % {
        "weeks": from_last_frost(values["weeks"]),
        "warmth": quantity_text(values["cover_c"], Quantity.WARMTH, units),
        "frost": month_day(values["frost"]),
    }


def _frost_risk_transplant(values: Values, units: str) -> str:
    risk = _(
        "From %(day)s on, a freeze of %(celsius)s, which kills young plants of this kind, still comes in "
        "%(percent)s of 100 years: the risk accepted here."
    ) % _risk(values, units)
    return under_cover(risk, values, units)


def _frost_risk_emergence(values: Values, units: str) -> str:
    if values["days"] and values.get("set_in_place"):
        text = _(
            "Its shoots are exposed once they show, %(days)s after setting at the soonest. From %(day)s on, "
            "a freeze of %(celsius)s, which kills them, still comes in %(percent)s of 100 years: the risk "
            "accepted here."
        )
    elif values["days"]:
        text = _(
            "Seedlings are exposed once they show, %(days)s after sowing. From %(day)s on, a freeze "
            "of %(celsius)s, "
            "which kills them, still comes in %(percent)s of 100 years: the risk accepted here."
        )
    else:
        text = _(
            "It counts as exposed from the day it is set. From %(day)s on, a freeze of %(celsius)s, which "
            "kills its shoots, still comes in %(percent)s of 100 years: the risk accepted here."
        )
    risk = text % {**_risk(values, units), "days": days(values["days"])}
    return under_cover(risk, values, units)


def _risk(values: Values, units: str) -> dict[str, str]:
    return {
        "day": month_day(values["safe"]),
        "celsius": temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }


def _ripens_before_freeze(values: Values, units: str) -> str:
    text = _(
        "Even a quick variety needs %(days)s to the first harvest, and by %(day)s the freeze of "
        "%(celsius)s that "
        "ends it has come in %(percent)s of 100 years."
    ) % {
        "days": to_harvest(values),
        "day": month_day(values["freeze"]),
        "celsius": temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }
    return under_cover(text, values, units)


def _matures_before_heat(values: Values, units: str) -> str:
    return _(
        "Even a quick variety needs %(days)s to the first harvest, and from %(day)s the months are warmer "
        "than the %(celsius)s it grows well in: it would bolt, turn bitter or set little."
    ) % {
        "days": to_harvest(values),
        "day": month_day(values["heat"]),
        "celsius": temperature(values["celsius"], units),
    }


def _ripens_in_heat(values: Values, units: str) -> str:
    return _(
        "Begun on its first day, even a quick variety needs %(days)s to the first harvest, and from %(day)s "
        "the months are warmer than the %(celsius)s it grows well in: begin as soon as you can, and expect "
        "that some of it bolts, turns bitter or sets little."
    ) % {
        "days": to_harvest(values),
        "day": month_day(values["heat"]),
        "celsius": temperature(values["celsius"], units),
    }


def _season_too_short(values: Values, units: str) -> str:
    if values["season_days"] is None:
        return _("It needs %(days)s without frost, more than lie between the mean frost dates here.") % {
            "days": days(values["days"])
        }
    needs = _("It needs %(days)s without frost.") % {"days": days(values["days"])}
    has = _("This garden has %(days)s in %(percent)s of 100 years.") % {
        "days": days(values["season_days"]),
        "percent": number_text(values["percent"]),
    }
    return f"{needs} {has}"


def _right_warmth(values: Values, units: str) -> dict[str, str]:
    low, high = values["low"], values["high"]
    return {
        "low": "" if low is None else temperature(low, units),
        "high": "" if high is None else temperature(high, units),
    }


def _soil_read(values: Values) -> str:
    """Which reading of the soil thermometer the day rests on, if on one."""
    if "read" not in values:
        return ""
    return " " + _("The soil thermometer, read on %(day)s, tells.") % {"day": month_day(values["read"])}


SENTENCES: dict[str, Sentence] = {
    "published-earliest": lambda v, u: _published(v, early=True),
    "published-earliest-covered": _published_covered,
    "cover-not-counted": lambda v, u: _(
        "How often colder freezes come is not known here, so its row cover moves no date."
    ),
    "published-latest": lambda v, u: _published(v, early=False),
    "published-latest-delayed": _published_delayed,
    "frost-risk-transplant": _frost_risk_transplant,
    "frost-risk-emergence": _frost_risk_emergence,
    "soil-warm-enough": lambda v, u: (
        _("It comes up, or takes root, only in soil of at least %(celsius)s.")
        % {"celsius": temperature(v["celsius"], u)}
        + _soil_read(v)
    ),
    "ground-workable": lambda v, u: (
        _("The ground can usually be worked once the soil averages %(celsius)s (common practice).")
        % {"celsius": whole_temperature(v["celsius"], u)}
        + _soil_read(v)
    ),
    "air-warm-enough": lambda v, u: (
        _(
            "It grows well in months that average at least %(celsius)s; the month that begins on this day "
            "comes close enough to that."
        )
        % {"celsius": temperature(v["celsius"], u)}
    ),
    "no-day-left": lambda v, u: (
        _("It could begin on %(earliest)s at the earliest and would have to by %(latest)s: no day is left.")
        % {"earliest": month_day(v["earliest"]), "latest": month_day(v["latest"])}
    ),
    "ripens-before-freeze": _ripens_before_freeze,
    "matures-before-heat": _matures_before_heat,
    "ripens-in-heat": _ripens_in_heat,
    "season-too-short": _season_too_short,
    "first-frost-unknown": lambda v, u: _(
        "The first frost of autumn is not known here, so nothing was counted back from it."
    ),
    "last-frost-unknown": lambda v, u: _(
        "The last frost of spring is not known here, so there is nothing to count from."
    ),
    "frost-too-rare": lambda v, u: _("Frost is too rare here to count from."),
    "not-planted-in-spring": lambda v, u: _("It is not planted in spring: no source gives a date."),
    "never-warm-enough": lambda v, u: (
        _("No month here averages near the %(celsius)s it needs to grow well.")
        % {"celsius": temperature(v["celsius"], u)}
    ),
    "soil-never-warm-enough": lambda v, u: (
        _("It comes up, or takes root, only in soil of at least %(celsius)s. It never is so warm here.")
        % {"celsius": temperature(v["celsius"], u)}
    ),
    "too-little-warmth": lambda v, u: (
        _(
            "Even a quick variety needs the warmth of %(days)s as it likes them best, more than a whole year "
            "has here."
        )
        % {"days": days(v["days"])}
    ),
    "never-right-warmth": lambda v, u: (
        _(
            "At no time in this half of the year do the months stay between the %(low)s and "
            "%(high)s it grows well in."
        )
        % _right_warmth(v, u)
    ),
    "right-warmth-begins": lambda v, u: (
        _(
            "A freeze that ends it is too rare here to count from, so warmth decides: it grows well in "
            "months of %(low)s to %(high)s."
        )
        % _right_warmth(v, u)
    ),
    "right-warmth-ends": lambda v, u: (
        _(
            "Started later it would ripen outside the %(low)s to %(high)s it grows well in, or "
            "in the other half of the year."
        )
        % _right_warmth(v, u)
    ),
    "soil-best-range": lambda v, u: (
        _("Soil comes into the seed's best range, from %(celsius)s.")
        % {"celsius": temperature(v["celsius"], u)}
    ),
    "a-third-in": lambda v, u: _(
        "A third of the way into the window: early enough to try again, late enough for the "
        "ground to settle "
        "(common practice)."
    ),
}
