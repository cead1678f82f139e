"""The sentence a member reads for each reason of a window.

Every code that a rule in `schedules.windows` may give has a sentence here, held by a test. It names the fact,
the number and the rule; temperatures and lengths come in the garden's units.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from math import ceil
from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from crops.wording.facts import thin_text
from plots.quantities import Quantity
from plots.wording import number_text, quantity_text, span_text
from schedules.windows.types import Reason
from schedules.wording.operations import edge_name

Values = Mapping[str, Any]


def reason_sentence(reason: Reason, units: str) -> str:
    """The reason in words; `units` are the garden's, `"us"` or `"metric"`."""
    return _SENTENCES[reason.code](reason.values, units)


@dataclass(frozen=True, slots=True)
class Told:
    """One sentence for all the edges that it explains; `decisive` where it set them."""

    edges: tuple[str, ...]
    sentence: str
    decisive: bool

    @property
    def heading(self) -> str:
        """The edges in words: "Not before and not after"."""
        return ", ".join([self.edges[0], *(edge.lower() for edge in self.edges[1:])])


def tell(reasons: Iterable[Reason], units: str) -> list[Told]:
    """The reasons in words, each told once; those that set an edge before those only weighed."""
    edges: dict[tuple[str, bool], list[str]] = {}
    for reason in reasons:
        names = edges.setdefault((reason_sentence(reason, units), reason.decisive), [])
        name = edge_name(reason.edge)
        if name not in names:
            names.append(name)
    told = [Told(tuple(names), sentence, decisive) for (sentence, decisive), names in edges.items()]
    return sorted(told, key=lambda one: not one.decisive)


def known_codes() -> frozenset[str]:
    """The codes that have a sentence."""
    return frozenset(_SENTENCES)


def _day(day: date) -> str:
    return date_format(day, "MONTH_DAY_FORMAT")


def _temperature(celsius: float, units: str) -> str:
    return quantity_text(celsius, Quantity.TEMPERATURE, units)


def _days(count: int) -> str:
    return ngettext("%(count)d day", "%(count)d days", count) % {"count": count}


def _from_last_frost(weeks: float) -> str:
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


def _from_first_frost(weeks: float) -> str:
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


def _published(values: Values, *, early: bool) -> str:
    text = (
        _("Published calendars begin %(weeks)s, which falls here on %(frost)s.")
        if early
        else _("Published calendars end %(weeks)s, which falls here on %(frost)s.")
    ) % {"weeks": _from_last_frost(values["weeks"]), "frost": _day(values["frost"])}
    shift = values["shift_days"]
    if not shift:
        return text
    moved = (
        _("Where winters are as mild as here, they do so %(days)s earlier.")
        if early
        else _("Calendars of places with such a last frost close cool-season crops %(days)s earlier.")
    ) % {"days": _days(abs(shift))}
    return f"{text} {moved}"


def _published_delayed(values: Values, units: str) -> str:
    late = _("As planting begins %(days)s later here than published, it may end as much later.")
    return f"{_published(values, early=False)} " + late % {"days": _days(values["delay_days"])}


def _frost_risk_transplant(values: Values, units: str) -> str:
    return _(
        "From %(day)s on, a freeze of %(celsius)s, which kills young plants of this kind, still comes in "
        "%(percent)s of 100 years: the risk accepted here."
    ) % _risk(values, units)


def _frost_risk_emergence(values: Values, units: str) -> str:
    return _(
        "Seedlings are exposed once they show, %(days)s after sowing. From %(day)s on, a freeze "
        "of %(celsius)s, "
        "which kills them, still comes in %(percent)s of 100 years: the risk accepted here."
    ) % {**_risk(values, units), "days": _days(values["days"])}


def _risk(values: Values, units: str) -> dict[str, str]:
    return {
        "day": _day(values["safe"]),
        "celsius": _temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }


def _ripens_before_freeze(values: Values, units: str) -> str:
    return _(
        "Even a quick variety needs %(days)s to the first harvest, and by %(day)s the freeze of "
        "%(celsius)s that "
        "ends it has come in %(percent)s of 100 years."
    ) % {
        "days": _days(values["days"]),
        "day": _day(values["freeze"]),
        "celsius": _temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }


def _matures_before_heat(values: Values, units: str) -> str:
    return _(
        "It needs %(days)s to the first harvest, and from %(day)s the months are warmer than the "
        "%(celsius)s it "
        "grows well in: it would bolt or turn bitter."
    ) % {
        "days": _days(values["days"]),
        "day": _day(values["heat"]),
        "celsius": _temperature(values["celsius"], units),
    }


def _matures_after_heat(values: Values, units: str) -> str:
    return _("Started earlier it would ripen before %(day)s, in months warmer than %(celsius)s.") % {
        "day": _day(values["heat"]),
        "celsius": _temperature(values["celsius"], units),
    }


def _season_too_short(values: Values, units: str) -> str:
    needs = _("It needs %(days)s without frost.") % {"days": _days(values["days"])}
    if values["season_days"] is None:
        return needs
    has = _("This garden has %(days)s in %(percent)s of 100 years.") % {
        "days": _days(values["season_days"]),
        "percent": number_text(values["percent"]),
    }
    return f"{needs} {has}"


def _counted_back(values: Values, units: str, *, early: bool) -> str:
    by = _RIPE_BY[values["because"]](values, units)
    if early:
        back = _(
            "Counted back from %(by)s: %(days)s to maturity for a slow variety, %(slow)s because "
            "growth slows as "
            "the days shorten, and %(picking)s of picking."
        )
    else:
        back = _(
            "Counted back from %(by)s: %(days)s to maturity for a quick variety, and %(slow)s "
            "because growth "
            "slows as the days shorten."
        )
    return back % {
        "by": by,
        "days": _days(values["days"]),
        "slow": _days(values["slow_days"]),
        "picking": _days(values["picking_days"]),
    }


def _by_margin(values: Values, units: str) -> str:
    margin = values["margin"]
    words = {"days": _days(abs(margin)), "frost": _day(values["frost"]), "day": _day(values["ripe_by"])}
    if margin > 0:
        return _("%(day)s, when it should be ripe, %(days)s before the mean first frost on %(frost)s") % words
    if margin < 0:
        return (
            _("%(day)s, as it may still ripen for %(days)s after the mean first frost on %(frost)s") % words
        )
    return _("the mean first frost on %(frost)s") % words


def _by_freeze(values: Values, units: str) -> str:
    return _(
        "%(day)s, by when the freeze of %(celsius)s that ends it has come in %(percent)s of 100 years"
    ) % {
        "day": _day(values["freeze"]),
        "celsius": _temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }


def _by_growth(values: Values, units: str) -> str:
    return _("%(day)s, when the months become too cold for it to grow (below %(celsius)s on average)") % {
        "day": _day(values["ends"]),
        "celsius": _temperature(values["celsius"], units),
    }


def _by_midwinter(values: Values, units: str) -> str:
    return _("midwinter, %(day)s") % {"day": _day(values["ends"])}


_RIPE_BY: dict[str, Callable[[Values, str], str]] = {
    "published-margin": _by_margin,
    "killing-freeze": _by_freeze,
    "growth-ends": _by_growth,
    "midwinter": _by_midwinter,
}


def _right_warmth(values: Values, units: str) -> dict[str, str]:
    low, high = values["low"], values["high"]
    return {
        "low": "" if low is None else _temperature(low, units),
        "high": "" if high is None else _temperature(high, units),
    }


def _set_in_autumn(values: Values, *, early: bool) -> str:
    words = {"weeks": _from_first_frost(values["weeks"]), "frost": _day(values["frost"])}
    if early:
        return _("It is set from %(weeks)s (%(frost)s) on, once the heat is over.") % words
    return _("Roots must form before the ground freezes: set it by %(weeks)s (%(frost)s).") % words


def _true_leaves(values: Values, units: str) -> str:
    parts = [
        _(
            "Seedlings show about %(emergence)s after sowing and open their true leaves about %(leaves)s "
            "later; thin within the %(thinning)s that follow, before roots tangle."
        )
        % {
            "emergence": _days(values["emergence_days"]),
            "leaves": _days(values["leaf_days"]),
            "thinning": _days(values["thinning_days"]),
        }
    ]
    if values["when"]:
        parts.append(_("The sign to go by: %(when)s.") % {"when": thin_text(values["when"], units)})
    if values["spacing_m"] is not None:
        spacing = quantity_text(values["spacing_m"], Quantity.SHORT_LENGTH, units)
        parts.append(_("Leave one plant every %(spacing)s.") % {"spacing": spacing})
    return " ".join(parts)


def _later_year(values: Values, units: str) -> str:
    if values["year"] is None:
        return _("No source gives the days to its first harvest.")
    text = _("A harvest is first taken in year %(year)s after planting.") % {
        "year": number_text(values["year"])
    }
    if not values["days"]:
        return text
    return f"{text} " + _("It then lasts up to %(days)s.") % {"days": _days(values["days"])}


def _killed_by_freeze(values: Values, units: str) -> str:
    return _("The freeze of %(celsius)s that ends it has come by %(day)s in %(percent)s of 100 years.") % {
        "day": _day(values["freeze"]),
        "celsius": _temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }


_SENTENCES: dict[str, Callable[[Values, str], str]] = {
    "published-earliest": lambda v, u: _published(v, early=True),
    "published-latest": lambda v, u: _published(v, early=False),
    "published-latest-delayed": _published_delayed,
    "frost-risk-transplant": _frost_risk_transplant,
    "frost-risk-emergence": _frost_risk_emergence,
    "soil-warm-enough": lambda v, u: (
        _("Seed of this crop comes up from a soil temperature of %(celsius)s.")
        % {"celsius": _temperature(v["celsius"], u)}
    ),
    "ground-workable": lambda v, u: (
        _("The ground can usually be worked once the soil averages %(celsius)s.")
        % {"celsius": _temperature(v["celsius"], u)}
    ),
    "air-warm-enough": lambda v, u: (
        _(
            "It grows well in months that average at least %(celsius)s; the month that begins "
            "then comes close enough."
        )
        % {"celsius": _temperature(v["celsius"], u)}
    ),
    "ripens-before-freeze": _ripens_before_freeze,
    "matures-before-heat": _matures_before_heat,
    "matures-after-heat": _matures_after_heat,
    "season-too-short": _season_too_short,
    "first-frost-unknown": lambda v, u: _(
        "The first frost of autumn is not known here, so nothing was counted back from it."
    ),
    "last-frost-unknown": lambda v, u: _(
        "The last frost of spring is not known here, so there is nothing to count from."
    ),
    "frost-too-rare": lambda v, u: _("Frost is too rare here to count from."),
    "not-planted-in-spring": lambda v, u: _("It is not planted in spring: no source gives a date."),
    "not-planted-in-autumn": lambda v, u: _("It is not planted in autumn: no source gives a date."),
    "never-warm-enough": lambda v, u: (
        _("No month here averages near the %(celsius)s it needs to grow well.")
        % {"celsius": _temperature(v["celsius"], u)}
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
            "Frost is too rare here to count from, so warmth decides: it grows well in months of "
            "%(low)s to %(high)s."
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
        % {"celsius": _temperature(v["celsius"], u)}
    ),
    "a-third-in": lambda v, u: _(
        "A third of the way into the window: early enough to try again, late enough for the "
        "ground to settle "
        "(common practice)."
    ),
    "counted-back-earliest": lambda v, u: _counted_back(v, u, early=True),
    "counted-back-latest": lambda v, u: _counted_back(v, u, early=False),
    "after-spring-window": lambda v, u: (
        _("Until %(day)s it still counts as the spring planting.") % {"day": _day(v["spring_latest"])}
    ),
    "autumn-needs-long-season": lambda v, u: (
        _(
            "A second planting for autumn is uncommon: it takes a season of at least %(days)s "
            "between the mean frosts."
        )
        % {"days": _days(v["days"])}
    ),
    "set-around-first-frost": lambda v, u: _set_in_autumn(v, early=True),
    "set-before-ground-freezes": lambda v, u: _set_in_autumn(v, early=False),
    "succession": lambda v, u: (
        _("Sown again every %(days)s, the harvest goes on.") % {"days": _days(v["days"])}
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
    "days-to-maturity": lambda v, u: (
        _("It takes %(days)s days to the first harvest, quick varieties to slow ones.")
        % {"days": span_text(v["days_low"], v["days_high"])}
    ),
    "ripens-next-summer": lambda v, u: (
        _(
            "Set in autumn it is ripe about %(days)s days after the best day for setting, whenever that was "
            "done: lengthening days ripen it."
        )
        % {"days": span_text(v["days_low"], v["days_high"])}
    ),
    "picking-period": lambda v, u: _("Picking goes on for up to %(days)s.") % {"days": _days(v["days"])},
    "killed-by-freeze": _killed_by_freeze,
    "harvest-in-later-year": _later_year,
}
