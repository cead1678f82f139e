"""What is open in a garden and waits for a person, in a line each: for the hand-over, and for the desk."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Count, Q, QuerySet, Sum
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plots.models import Assignment, Due, Garden, Held, LinkRequest, Offer, Reached
from plots.queries.agreements import agreement_of, signers_of
from plots.queries.care import matters_of, pauses_running, round_due
from plots.queries.turn import held_in, open_dues, open_round_of
from plots.spelling import natural_key
from plots.wording.care import asked_text, reason_text

DAY, SOON = timedelta(days=1), timedelta(days=60)
NAMED = 12  # people of one line that are named


@dataclass(frozen=True, slots=True)
class OpenMatter:
    """One matter: the part of the work it belongs to, and what is open, with its day if it has one."""

    part: str
    text: str
    due: date | None = None


def open_matters(garden: Garden, *, today: date) -> list[OpenMatter]:
    """Everything that waits, part by part; names of people stand only where somebody must act for them."""
    return [
        *_people(garden),
        *_ground(garden, today),
        *_turn(garden, today),
        *_waiting(garden, today),
        *_workdays(garden, today),
        *_care(garden, today),
        *_notices(garden),
        *_things(garden, today),
    ]


def _people(garden: Garden) -> Iterator[OpenMatter]:
    part = _("People")
    asked = LinkRequest.objects.filter(user__memberships__garden=garden, settled_at=None)
    for request in asked.select_related("user"):
        yield OpenMatter(part, _("%(person)s asked for a sign-in link.") % {"person": request.user})
    never = garden.memberships.filter(user__is_active=True, user__last_login=None).count()
    if never:
        words = ngettext("%(n)d member never signed in.", "%(n)d members never signed in.", never)
        yield OpenMatter(part, words % {"n": never})
    for duty in garden.duties.filter(holder=None):
        yield OpenMatter(part, _("Nobody does this: %(duty)s.") % {"duty": duty})
    active = garden.memberships.filter(user__is_active=True).order_by("user__name")
    unknown = active.filter(Q(user__email="") | Q(user__email__isnull=True), user__phone="")
    if names := list(unknown.values_list("user__name", flat=True)):
        sentence = _("Neither email nor telephone is known: %(people)s.")
        yield OpenMatter(part, sentence % {"people": _some(names)})
    version = agreement_of(garden)
    unsigned = [signer for signer in signers_of(garden, version) if signer.state == "unsigned"]
    if version is not None and unsigned:
        words = ngettext(
            "%(n)d member has not signed the agreement: %(people)s.",
            "%(n)d members have not signed the agreement: %(people)s.",
            len(unsigned),
        )
        names = [signer.person.name for signer in unsigned]
        yield OpenMatter(part, words % {"n": len(unsigned), "people": _some(names)})


def _some(names: list[str]) -> str:
    """The first of the names, and how many more there are."""
    text, more = ", ".join(names[:NAMED]), len(names) - NAMED
    return text if more <= 0 else _("%(names)s and %(n)d more") % {"names": text, "n": more}


def _ground(garden: Garden, today: date) -> Iterator[OpenMatter]:
    held = Assignment.objects.standing(today).filter(plot__garden=garden)
    gardened = garden.plots.filter(retired_on=None, kind="personal")
    free = gardened.exclude(pk__in=held.values("plot"))
    labels = sorted((plot.label for plot in free), key=natural_key)
    if labels:
        yield OpenMatter(_("Plots"), _("Free: %(plots)s.") % {"plots": _some(labels)})
    for assignment in held.filter(ended_on__isnull=False).select_related("plot", "holder"):
        words = {"plot": assignment.plot, "person": assignment.holder}
        sentence = _("Plot %(plot)s becomes free: %(person)s gives it up.") % words
        yield OpenMatter(_("Plots"), sentence, assignment.ended_on)


def _turn(garden: Garden, today: date) -> Iterator[OpenMatter]:
    part = _("Season turn")
    round = open_round_of(garden)
    if round is not None:
        undecided = sum(not asked.decision for asked in held_in(round))
        words = ngettext(
            "%(n)d renewal is not decided yet.", "%(n)d renewals are not decided yet.", undecided
        )
        if undecided:
            yield OpenMatter(part, words % {"n": undecided}, round.last_call)
    unpaid = open_dues(garden).filter(amount__gt=0)
    late, coming = unpaid.filter(due_on__lt=today), unpaid.exclude(due_on__lt=today)
    if count := late.count():
        words = ngettext(
            "%(n)d payment is late, %(total)s in all.", "%(n)d payments are late, %(total)s in all.", count
        )
        yield OpenMatter(part, words % {"n": count, "total": _sum_of(late, garden)})
    if count := coming.count():
        words = ngettext(
            "%(n)d payment is still to come, %(total)s in all.",
            "%(n)d payments are still to come, %(total)s in all.", count,
        )  # fmt: skip
        yield OpenMatter(part, words % {"n": count, "total": _sum_of(coming, garden)})


def _sum_of(dues: QuerySet[Due], garden: Garden) -> str:
    """In the garden's currency."""
    return f"{garden.rules.currency}{dues.aggregate(total=Sum('amount'))['total']:.2f}"


def _waiting(garden: Garden, today: date) -> Iterator[OpenMatter]:
    part = _("Waiting list")
    waiting = garden.waiting.filter(left_at=None).count()
    if waiting:
        words = ngettext("%(n)d household waits.", "%(n)d households wait.", waiting)
        yield OpenMatter(part, words % {"n": waiting})
    now = timezone.now()
    for offer in Offer.objects.filter(plot__garden=garden, place__isnull=False).select_related("plot"):
        ends = timezone.localtime(offer.ends_at, garden.zone)
        words = {"plot": offer.plot, "when": date_format(ends, "DATETIME_FORMAT")}
        sentence = (
            _("Plot %(plot)s was offered until %(when)s, and nobody answered.")
            if offer.ends_at <= now
            else _("Plot %(plot)s is offered; until %(when)s there is time to answer.")
            if offer.told_at
            else _("Plot %(plot)s is offered until %(when)s, and they were not told yet.")
        )
        yield OpenMatter(part, sentence % words, ends.date())
    asked = garden.interest_rounds.filter(closed_on__isnull=True).first()
    if asked is not None:
        silent = asked.answers.filter(still__isnull=True, entry__place__isnull=False).count()
        words = ngettext(
            "Asked whether they still wait; %(n)d is silent.",
            "Asked whether they still wait; %(n)d are silent.", silent,
        )  # fmt: skip
        yield OpenMatter(part, words % {"n": silent}, asked.answer_by)


def _workdays(garden: Garden, today: date) -> Iterator[OpenMatter]:
    part = _("Workdays")
    lately = garden.workdays.filter(day__range=(today - SOON, today - DAY)).exclude(held=Held.OFF)
    for workday in lately.filter(hours_done__isnull=True):
        if workday.on < today:
            sentence = _("%(workday)s is over, and nobody's hours are typed in.")
            yield OpenMatter(part, sentence % {"workday": workday}, workday.on)
    for workday in garden.workdays.filter(day__range=(today, today + SOON)).exclude(held=Held.OFF):
        yield OpenMatter(part, str(workday), workday.day)


def _care(garden: Garden, today: date) -> Iterator[OpenMatter]:
    """Which plot, since when, and what is next; never what was found or said: the pack lies on a table."""
    part = _("Care")
    for row in matters_of(garden, today=today):
        if row.matter.closed_on is None:
            words = {
                "plot": row.assignment.plot,
                "since": date_format(row.matter.opened_on),
                "next": asked_text(row.proposal) or reason_text(row.proposal).rstrip("."),
            }
            sentence = _("Plot %(plot)s: a private matter since %(since)s. Next: %(next)s.")
            yield OpenMatter(part, sentence % words, row.proposal.from_on)
    for pause in pauses_running(garden, today):
        words = {"plot": pause.assignment.plot}
        yield OpenMatter(part, _("Plot %(plot)s: nobody is expected there.") % words, pause.until_on)
    due = round_due(garden, today)
    if due is not None and due <= today + SOON and garden.plots.filter(retired_on=None).exists():
        yield OpenMatter(part, _("The next care round is due."), due)


def _notices(garden: Garden) -> Iterator[OpenMatter]:
    missed = Q(deliveries__state__in=[Reached.WAITS, Reached.FAILED])
    lately = garden.notices.filter(given_at__gt=timezone.now() - SOON)
    for notice in lately.annotate(missed=Count("deliveries", missed)).filter(missed__gt=0):
        words = ngettext(
            "“%(notice)s” has not reached %(n)d person.", "“%(notice)s” has not reached %(n)d people.",
            notice.missed,
        )  # fmt: skip
        yield OpenMatter(_("Notices"), words % {"notice": notice, "n": notice.missed})
    drafts = garden.notices.filter(given_at=None).count()
    if drafts:
        words = ngettext("%(n)d notice is not given out.", "%(n)d notices are not given out.", drafts)
        yield OpenMatter(_("Notices"), words % {"n": drafts})


def _things(garden: Garden, today: date) -> Iterator[OpenMatter]:
    for thing in garden.whereabouts.filter(due_on__lte=today + SOON).order_by("due_on"):
        yield OpenMatter(_("Things"), _("%(thing)s is due.") % {"thing": thing}, thing.due_on)
