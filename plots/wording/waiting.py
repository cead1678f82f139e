"""The waiting list in words: a place and why, whose turn it is and why not, and the letters."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.utils import translation
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from plots.models import AfterDecline, Garden, InterestRound, Offer, WaitingEntry
from plots.waiting import Passed, Place, Proposal, Reason, Situation, Value, Why, against_counts


def ordinal(number: int) -> str:
    """1st, 2nd, 3rd, 4th. Languages with one form for all give it four times."""
    ends = 0 if number % 100 in (11, 12, 13) else number % 10
    form = {
        1: pgettext("number ending in 1", "%(number)dst"),
        2: pgettext("number ending in 2", "%(number)dnd"),
        3: pgettext("number ending in 3", "%(number)drd"),
    }.get(ends, pgettext("any other number", "%(number)dth"))
    return form % {"number": number}


def place_text(place: Place) -> str:
    """`3rd: joined May 2, 2024, asked for an accessible bed`."""
    return _("%(place)s: %(reasons)s") % {
        "place": ordinal(place.number),
        "reasons": reasons_text(place.reasons),
    }


def reasons_text(reasons: Iterable[Reason]) -> str:
    return ", ".join(reason_text(reason) for reason in reasons)


def reason_text(reason: Reason) -> str:
    """A reason, to stand after a colon or beside others."""
    if reason.why in (Why.CHOSE, Why.CHOSE_OTHERS):
        names = ", ".join(_shown(value) for value in reason.values)
        sentence = _("would take: %(a)s") if reason.why is Why.CHOSE else _("would take only: %(a)s")
        return sentence % {"a": names}
    if reason.why is Why.AT_CAP:
        count = int(reason.values[0])  # type: ignore[arg-type]
        sentence = ngettext(
            "the household has %(count)d plot already", "the household has %(count)d plots already", count
        )
        return sentence % {"count": count}
    values = [_shown(value) for value in reason.values]
    return _SENTENCES[reason.why]() % dict(zip("ab", values, strict=False))


def _shown(value: Value) -> str:
    return date_format(value) if isinstance(value, date) else str(value)


_SENTENCES = {
    Why.JOINED: lambda: _("joined %(a)s"),
    Why.MEMBER: lambda: _("is a member already"),
    Why.NO_PLOT: lambda: _("has no plot yet"),
    Why.NEAR: lambda: _("lives near"),
    Why.GROUP: lambda: _("said yes to the garden's own question"),
    Why.ASKED_ACCESSIBLE: lambda: _("asked for an accessible bed"),
    Why.DECLINED: lambda: _("declined an offer and moved back on %(a)s"),
    Why.UNANSWERED: lambda: _("did not answer an offer and moved back on %(a)s"),
    Why.BY_HAND: lambda: _("placed by hand as of %(a)s"),
    Why.NEEDS_ACCESSIBLE: lambda: _("needs an accessible bed"),
    Why.HAS_OFFER: lambda: _("has another offer until %(a)s"),
    Why.REFUSED: lambda: _("had this plot offered and did not take it"),
    Why.PROPOSED: lambda: _("is next for another plot"),
    Why.FOR_WHO_NEEDS_IT: lambda: _("does not need an accessible bed, and somebody does"),
}
_AHEAD = {
    Why.MEMBER: lambda n: ngettext(
        "%(n)d is a member already, and members come first",
        "%(n)d are members already, and members come first", n,
    ),
    Why.NO_PLOT: lambda n: ngettext(
        "%(n)d has no plot yet, and they come first", "%(n)d have no plot yet, and they come first", n
    ),
    Why.NEAR: lambda n: ngettext(
        "%(n)d lives near, and neighbours come first", "%(n)d live near, and neighbours come first", n
    ),
    Why.GROUP: lambda n: ngettext(
        "%(n)d said yes to the garden's own question, which comes first",
        "%(n)d said yes to the garden's own question, which comes first", n,
    ),
    Why.JOINED: lambda n: ngettext("%(n)d has the earlier date", "%(n)d have the earlier date", n),
}  # fmt: skip


def ahead_text(ahead: Counter[Why]) -> list[str]:
    """Who stands before a place, counted by the reason and without a name."""
    return [_AHEAD[why](ahead[why]) % {"n": ahead[why]} for why in _AHEAD if ahead[why]]


@dataclass(frozen=True)
class PassedText:
    number: int
    entry_pk: int
    reasons: str


def passed_texts(passed: Iterable[Passed]) -> list[PassedText]:
    return [PassedText(one.place.number, one.place.entry.pk, reasons_text(one.reasons)) for one in passed]


def nobody_text(proposal: Proposal) -> str:
    """Why nobody in line can have a plot."""
    if not proposal.passed:
        return _("Nobody is waiting.")
    counts = against_counts(proposal)
    parts = [
        _("%(count)d: %(reason)s") % {"count": count, "reason": _COUNTED[why]()}
        for why, count in sorted(counts.items(), key=lambda pair: (-pair[1], pair[0]))
    ]
    return _("Nobody who waits can have it (%(reasons)s).") % {"reasons": "; ".join(parts)}


@dataclass(frozen=True)
class StandText:
    """How it stands with a free plot: who is next and why, or why nobody is; `until` of its offer."""

    until: str = ""
    next_text: str = ""
    nobody: str = ""


def stand_text(situation: Situation, garden: Garden) -> StandText:
    until = moment_text(situation.ends_at, garden) if situation.ends_at else ""
    if situation.proposal is None:
        return StandText(until)
    place = situation.proposal.place
    if place is None:
        return StandText(until, nobody=nobody_text(situation.proposal))
    return StandText(until, next_text=place_text(place))


_COUNTED = {
    Why.NEEDS_ACCESSIBLE: lambda: _("need an accessible bed"),
    Why.CHOSE_OTHERS: lambda: _("would take only other plots"),
    Why.AT_CAP: lambda: _("household has its plots already"),
    Why.HAS_OFFER: lambda: _("have another offer"),
    Why.REFUSED: lambda: _("had this plot offered"),
    Why.PROPOSED: lambda: _("are next for another plot"),
    Why.FOR_WHO_NEEDS_IT: lambda: _("do not need an accessible bed"),
}


def after_text(rule: str) -> str:
    """What not taking an offer does to the place, for the person who may not take it."""
    return {
        AfterDecline.END: _("your place goes to the end of the list"),
        AfterDecline.KEEPS: _("you keep your place"),
        AfterDecline.LEAVES: _("your place on the list ends"),
    }[AfterDecline(rule)]


def moment_text(moment: datetime, garden: Garden) -> str:
    """Day and hour at the garden."""
    return date_format(moment.astimezone(garden.zone), "DATETIME_FORMAT")


# --- letters, in the language of who gets them ---


@dataclass(frozen=True)
class Letter:
    subject: str
    body: str


def offer_letter(offer: Offer, link: str, *, reminder: bool = False) -> Letter:
    """The offer as a text to send, print or read out."""
    garden, entry = offer.plot.garden, offer.entry
    with translation.override(entry.language or garden.language or translation.get_language()):
        words = {
            "name": entry.name,
            "garden": garden.name,
            "plot": offer.plot.label,
            "begins": date_format(offer.begins_on),
            "end": moment_text(offer.ends_at, garden),
            "declined": after_text(garden.rules.after_decline),
            "silence": after_text(garden.rules.after_silence),
            "link": link,
        }
        body = _(
            "Dear %(name)s,\n\n%(garden)s can offer you plot %(plot)s from %(begins)s.\n\n"
            "Please answer by %(end)s on this page, with yes or no:\n%(link)s\n\n"
            "You can also telephone or tell a coordinator; that counts just the same.\n\n"
            "If you say no, %(declined)s. Without an answer by then, %(silence)s."
        )
        subject = (
            _("%(garden)s: plot %(plot)s waits for your answer")
            if reminder
            else _("%(garden)s: plot %(plot)s is offered to you")
        )
        return Letter(subject % words, body % words)


def interest_letter(round: InterestRound, entry: WaitingEntry, link: str) -> Letter:
    """The yearly question as a text to send, print or read out."""
    garden = round.garden
    with translation.override(entry.language or garden.language or translation.get_language()):
        words = {
            "name": entry.name,
            "garden": garden.name,
            "end": date_format(round.answer_by),
            "link": link,
        }
        body = _(
            "Dear %(name)s,\n\nyou are on the waiting list of %(garden)s. "
            "Once a year we ask whether you still would like a plot.\n\n"
            "Please answer by %(end)s. On this page you can say yes or no, and see your place:\n%(link)s\n\n"
            "You can also telephone or tell a coordinator; that counts just the same."
        )
        return Letter(_("%(garden)s: are you still interested in a plot?") % words, body % words)
