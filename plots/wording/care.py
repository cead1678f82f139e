"""Care in words: what is next and why, and letters that are kind, plain and blame nobody."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils import translation
from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.care import Kind, Proposal, Reason
from plots.models import Garden, Matter

# What a person is asked to do.
ASKED: dict[Kind, Promise] = {
    Kind.CONTACT: gettext_lazy("Try to reach them"),
    Kind.NOTICE: gettext_lazy("Give a notice"),
    Kind.DEADLINE: gettext_lazy("Give more time"),
    Kind.RECHECK: gettext_lazy("Look at the plot again"),
    Kind.DECISION: gettext_lazy("Decide with the others"),
    Kind.APPEAL: gettext_lazy("Write down the appeal"),
    Kind.OUTCOME: gettext_lazy("Close the matter"),
}
_REASONS: dict[Reason, Promise] = {
    Reason.CLOSED: gettext_lazy("This matter is closed."),
    Reason.PAUSED: gettext_lazy("They have a pause; nothing is asked of them."),
    Reason.TRY: gettext_lazy(
        "A talk comes before any letter: %(count)d of %(of)d tries so far. "
        "Ask how they are and what would help."
    ),
    Reason.TRIED: gettext_lazy("They could not be reached in %(count)d tries; the garden asks for %(of)d."),
    Reason.TIME_RUNS: gettext_lazy("They have time until %(day)s."),
    Reason.TIME_IS_UP: gettext_lazy("The time they were given is over."),
    Reason.STILL: gettext_lazy(
        "The plot was not in order yet: %(count)d of %(of)d notices before the garden decides."
    ),
    Reason.ENOUGH_NOTICES: gettext_lazy(
        "%(count)d notices were given, as the rules ask. What follows is for people to decide."
    ),
    Reason.IN_ORDER: gettext_lazy("The plot was in order when somebody looked again."),
    Reason.MAY_APPEAL: gettext_lazy("They may appeal until %(day)s."),
    Reason.APPEALED: gettext_lazy("An appeal came in: hear it, then close the matter with its outcome."),
    Reason.NO_APPEAL: gettext_lazy("The time for an appeal is over."),
}


def asked_text(proposal: Proposal) -> str:
    """What is next, in a few words; empty where there is nothing to do."""
    return str(ASKED[proposal.step]) if proposal.step else ""


def reason_text(proposal: Proposal) -> str:
    day = date_format(proposal.time_until) if proposal.time_until else ""
    return str(_REASONS[proposal.reason]) % {"count": proposal.count, "of": proposal.of, "day": day}


@dataclass(frozen=True, slots=True)
class Draft:
    """A text to begin with; a person changes it and gives it out."""

    subject: str
    body: str


def notice_draft(garden: Garden, matter: Matter, *, until: date) -> Draft:
    """A notice in the holder's language: what was seen, what would help, until when, whom to talk to."""
    holder = matter.assignment.holder
    with translation.override(holder.language or garden.language or translation.get_language()):
        words = {
            "name": holder.name,
            "garden": garden.name,
            "plot": matter.assignment.plot.label,
            "until": date_format(until),
            "seen": _seen(matter),
        }
        body = _(
            "Dear %(name)s,\n\n%(seen)sWe would like to know how you are getting on with it.\n\n"
            "Would you see to it by %(until)s, or tell us what you need? "
            "Somebody can lend a hand, and if you are ill or away a word is enough: then it waits.\n\n"
            "If the plot has become too much, that is no shame; "
            "a smaller one or sharing it may be possible.\n\n"
            "Only those who look after the garden know of this letter.\n\n%(garden)s"
        )
        return Draft(_("Plot %(plot)s") % words, body % words)


def _seen(matter: Matter) -> str:
    words: dict[str, object] = {"plot": matter.assignment.plot.label}
    if matter.finding is None:
        return _("we are writing about plot %(plot)s. ") % words
    day = date_format(matter.finding.round.day)
    words |= {"day": day, "state": matter.finding.words}
    return _("on %(day)s we walked past plot %(plot)s and noted: %(state)s. ") % words


def decision_draft(garden: Garden, matter: Matter, *, until: date) -> Draft:
    """What was decided and how to appeal; the decision itself is left for a person to write."""
    holder = matter.assignment.holder
    with translation.override(holder.language or garden.language or translation.get_language()):
        words = {
            "name": holder.name,
            "garden": garden.name,
            "plot": matter.assignment.plot.label,
            "until": date_format(until),
        }
        body = _(
            "Dear %(name)s,\n\nthose who look after %(garden)s have talked about plot %(plot)s "
            "and decided:\n\n…\n\n"
            "If you see it differently, tell us by %(until)s, in writing or in person, "
            "and bring somebody along if you like. Others than those who decided will hear you.\n\n%(garden)s"
        )
        return Draft(_("Plot %(plot)s") % words, body % words)
