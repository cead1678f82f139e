"""What logs say of a planting: what was done, what counts from it, what lies behind it."""

from __future__ import annotations

from datetime import date

from django.utils.translation import gettext as _

from plots.wording import number_text
from schedules.wording.phrases import Sentence, Values, days, month_day, temperature


def fact_text(work: str, day: date) -> str:
    """A work and its day, as the beginning of a sentence: "It was sown on May 4"."""
    facts = {
        "start-indoors": _("It was started indoors on %(day)s"),
        "harden-off": _("It has been hardened off since %(day)s"),
        "sow": _("It was sown on %(day)s"),
        "set": _("It was set on %(day)s"),
        "came-up": _("It came up on %(day)s"),
        "transplant": _("It was transplanted on %(day)s"),
        "thin": _("It was thinned on %(day)s"),
        "harvest": _("It was first picked on %(day)s"),
        "killed": _("It was lost to frost on %(day)s"),
        "clear": _("It was cleared on %(day)s"),
    }
    return facts[work] % {"day": month_day(day)}


def _fact(values: Values) -> str:
    return fact_text(values["work"], values["day"])


def _logged(values: Values, units: str) -> str:
    if values["best"] is None:
        return _("%(fact)s, as logged.") % {"fact": _fact(values)}
    return _("%(fact)s, as logged; planned was %(earliest)s to %(latest)s, best on %(best)s.") % {
        "fact": _fact(values),
        **{edge: month_day(values[edge]) for edge in ("earliest", "best", "latest")},
    }


def _ripe_after_freeze(values: Values, units: str) -> str:
    return _(
        "The freeze of %(celsius)s that ends it has come by %(day)s in %(percent)s of 100 years, and it is "
        "not ripe before: cover it, or pick sooner what there is."
    ) % {
        "day": month_day(values["freeze"]),
        "celsius": temperature(values["celsius"], units),
        "percent": number_text(values["percent"]),
    }


SENTENCES: dict[str, Sentence] = {
    "logged": _logged,
    "counted-from": lambda v, u: _("%(fact)s; this is counted from that day.") % {"fact": _fact(v)},
    "counted-from-earlier": lambda v, u: (
        _("An earlier sowing was logged for %(day)s; this is counted from that day.")
        % {"day": month_day(v["day"])}
    ),
    "after-logged": lambda v, u: _("%(fact)s, and this comes after it.") % {"fact": _fact(v)},
    "passed-by": lambda v, u: _("%(fact)s, so that this lies behind it.") % {"fact": _fact(v)},
    "cleared": lambda v, u: _("%(fact)s: nothing more is to be done.") % {"fact": _fact(v)},
    "picked-since": lambda v, u: _("It was picked on %(day)s, as logged.") % {"day": month_day(v["day"])},
    "seedlings-late": lambda v, u: (
        _(
            "%(latest)s was the last day for setting out; these seedlings are not ready before, and may not "
            "ripen in time."
        )
        % {"latest": month_day(v["latest"])}
    ),
    "plot-cleared": lambda v, u: (
        _("The whole plot was cleared on %(day)s: what had not begun begins after that.")
        % {"day": month_day(v["day"])}
    ),
    "against-plan": lambda v, u: _(
        "No window was found for it here: its dates follow from the logs alone, and it may not ripen."
    ),
    "too-late-for-another": lambda v, u: (
        _("The sowing before it was so late that %(days)s after it the time for sowing is over.")
        % {"days": days(v["days"])}
    ),
    "ripe-after-freeze": _ripe_after_freeze,
}
