"""The season turn in words: what is proposed, and the rule behind it."""

from __future__ import annotations

from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from plots.dues import PartRule, Share
from plots.renewal import Advice, Reason, Value, Why
from plots.wording.quantities import number_text


def advice_text(advice: Advice) -> str:
    """What is proposed, in a word or two."""
    return {
        Advice.RENEW: _("renew"),
        Advice.FREE: _("free the plot"),
        Advice.TALK: _("talk first"),
        Advice.REMIND: _("ask again"),
        Advice.WAIT: _("wait"),
    }[advice]


def reason_text(reason: Reason) -> str:
    """The rule behind a proposal, as one sentence."""
    values = [_shown(value) for value in reason.values]
    return _SENTENCES[reason.why]() % dict(zip("ab", values, strict=False))


def share_text(share: Share, rule: PartRule) -> str:
    """Why a part of the dues is proposed."""
    words = {"part": share.part, "of": share.of}
    return {
        PartRule.WHOLE: lambda: _("The whole amount, by the garden's rules."),
        PartRule.DAYS: lambda: _("Held on %(part)d of the season's %(of)d days.") % words,
        PartRule.MONTHS: lambda: (
            _("Held on the first day of %(part)d of the season's %(of)d months.") % words
        ),
        PartRule.HALF: lambda: _("Begun in the second half of the season, so half."),
    }[rule]()


def reminder_subject(season: str) -> str:
    return _("Do you go on with your plot? %(season)s") % {"season": season}


def reminder_body(season: str, answer_by: date, last_call: date, link: str) -> str:
    """What is said to whoever has not answered; without a name, so that it may hang at the gate."""
    words = {"season": season, "day": date_format(answer_by), "last": date_format(last_call), "link": link}
    return "\n\n".join(
        (
            _("We asked until %(day)s who goes on with their plot: %(season)s.") % words,
            _("From you we have no answer yet. It still counts until %(last)s.") % words,
            _("Answer under “Your season” at %(link)s, or tell a coordinator: on paper is fine.") % words,
            _("Nobody loses a plot by silence alone, but a plot that nobody wants can go to who waits.")
            % words,
        )
    )


def _shown(value: Value) -> str:
    if isinstance(value, date):
        return date_format(value)
    return value if isinstance(value, str) else number_text(float(value))


_SENTENCES = {
    Why.WANTS_TO_KEEP: lambda: _("Wants to keep the plot, said on %(a)s."),
    Why.WANTS_TO_MOVE: lambda: _("Would like another plot, said on %(a)s; keeps this one until then."),
    Why.GIVES_UP: lambda: _("Gives the plot up, said on %(a)s."),
    Why.ANSWERED_LATE: lambda: _("The answer came after %(a)s, within the days of grace."),
    Why.ANSWERED_TOO_LATE: lambda: _("The answer came after %(a)s, the last day for late answers."),
    Why.NO_ANSWER_YET: lambda: _("No answer yet; there is time until %(a)s."),
    Why.NO_ANSWER_IN_TIME: lambda: _("No answer by %(a)s; late answers count until %(b)s."),
    Why.NO_ANSWER_AT_ALL: lambda: _("No answer, and %(a)s was the last day for late ones."),
    Why.HOURS_MISSING: lambda: _("Hours of work still owed: %(a)s."),
    Why.DUES_UNPAID: lambda: _("Dues are neither paid nor waived."),
    Why.MOVES_FIRST: lambda: _(
        "A member who asked for another plot on %(a)s; members come before the waiting list."
    ),
    Why.NEXT_IN_LINE: lambda: _("Number %(a)s of the waiting list, joined on %(b)s."),
    Why.NOBODY_WAITS: lambda: _("Nobody waits for it."),
}
