"""What is open in a garden and waits for a person, in a line each: for the hand-over, and for the desk."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Sum
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plots.models import Assignment, Garden, LinkRequest, Matter, Offer, Workday
from plots.queries.agreements import agreement_of, signers_of
from plots.queries.turn import held_in, open_dues, open_round_of

SOON = timedelta(days=60)


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
        *_waiting(garden),
        *_workdays(garden, today),
        *_care(garden),
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
    version = agreement_of(garden)
    unsigned = [signer for signer in signers_of(garden, version) if signer.state == "unsigned"]
    if version is not None and unsigned:
        words = ngettext(
            "%(n)d member has not signed the agreement.",
            "%(n)d members have not signed the agreement.",
            len(unsigned),
        )
        yield OpenMatter(part, words % {"n": len(unsigned)})


def _ground(garden: Garden, today: date) -> Iterator[OpenMatter]:
    held = Assignment.objects.standing(today).filter(plot__garden=garden)
    gardened = garden.plots.filter(retired_on=None, kind="personal")
    free = gardened.exclude(pk__in=held.values("plot"))
    labels = ", ".join(sorted(plot.label for plot in free))
    if labels:
        yield OpenMatter(_("Plots"), _("Free: %(plots)s.") % {"plots": labels})
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
    late = open_dues(garden).filter(due_on__lt=today)
    count = late.count()
    if count:
        total = late.aggregate(total=Sum("amount"))["total"]
        words = ngettext(
            "%(n)d payment is late, %(total)s in all.", "%(n)d payments are late, %(total)s in all.", count
        )
        yield OpenMatter(part, words % {"n": count, "total": total})


def _waiting(garden: Garden) -> Iterator[OpenMatter]:
    part = _("Waiting list")
    waiting = garden.waiting.filter(left_at=None).count()
    if waiting:
        words = ngettext("%(n)d household waits.", "%(n)d households wait.", waiting)
        yield OpenMatter(part, words % {"n": waiting})
    now = timezone.now()
    for offer in Offer.objects.filter(plot__garden=garden, place__isnull=False).select_related("plot"):
        ends = timezone.localtime(offer.ends_at, garden.zone)
        late = offer.ends_at <= now
        words = {"plot": offer.plot, "when": date_format(ends, "DATETIME_FORMAT")}
        sentence = (
            _("Plot %(plot)s was offered until %(when)s, and nobody answered.")
            if late
            else _("Plot %(plot)s is offered; until %(when)s there is time to answer.")
        )
        yield OpenMatter(part, sentence % words, ends.date())


def _workdays(garden: Garden, today: date) -> Iterator[OpenMatter]:
    for workday in Workday.objects.filter(garden=garden, day__range=(today, today + SOON)):
        yield OpenMatter(_("Workdays"), str(workday), workday.day)


def _care(garden: Garden) -> Iterator[OpenMatter]:
    """How many, never whose: the pack lies on a table, and the matters are private."""
    count = Matter.objects.filter(assignment__plot__garden=garden, closed_on=None).count()
    if count:
        words = ngettext("%(n)d matter is open.", "%(n)d matters are open.", count)
        yield OpenMatter(_("Care"), words % {"n": count})
    drafts = garden.notices.filter(given_at=None).count()
    if drafts:
        words = ngettext("%(n)d notice is not given out.", "%(n)d notices are not given out.", drafts)
        yield OpenMatter(_("Notices"), words % {"n": drafts})


def _things(garden: Garden, today: date) -> Iterator[OpenMatter]:
    for thing in garden.whereabouts.filter(due_on__lte=today + SOON).order_by("due_on"):
        yield OpenMatter(_("Things"), _("%(thing)s is due.") % {"thing": thing}, thing.due_on)
