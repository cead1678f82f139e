"""Offers: made and answered by people; every one of them keeps who would have been next and why not."""

from __future__ import annotations

from datetime import date, datetime

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from plots import queries
from plots.models import (
    Answer,
    Garden,
    LeftWhy,
    Offer,
    PlacedBy,
    Plot,
    Season,
    ToldHow,
    User,
    WaitingEntry,
)
from plots.service import post
from plots.service.history import record
from plots.service.waiting import after_refusal, end_place, locked_entry, name_unless, place_link
from plots.waiting import State
from plots.wording.waiting import moment_text, offer_letter


def make_offer(
    *,
    entry: WaitingEntry,
    plot: Plot,
    season: Season,
    begins_on: date,
    ends_at: datetime,
    by: User,
    why: str = "",
) -> Offer:
    """Offers the plot until `ends_at`; to anybody but the next in line only with a reason, which is kept."""
    try:
        with transaction.atomic():
            return _make_offer(entry, plot, season, begins_on, ends_at, by, why.strip())
    except IntegrityError:
        raise ValidationError(_("Somebody has just changed the list. Please look again.")) from None


def _make_offer(
    entry: WaitingEntry, plot: Plot, season: Season, begins_on: date, ends_at: datetime, by: User, why: str
) -> Offer:
    garden = Garden.objects.select_for_update().get(pk=plot.garden_id)
    now = timezone.now()
    if ends_at <= now:
        raise ValidationError({"ends_at": _("The time to answer has to lie ahead.")})
    if begins_on > season.ends_on:
        last = {"day": date_format(season.ends_on)}
        raise ValidationError({"begins_on": _("The season ends on %(day)s.") % last})
    list_now = queries.waiting_list(garden, now=now)
    stand = next((one for one in queries.stands(list_now, season) if one.plot.pk == plot.pk), None)
    if stand is None:
        raise ValidationError(
            _("Plot %(plot)s is not free in %(season)s.") % {"plot": plot, "season": season}
        )
    if stand.situation.state is State.OFFERED:
        raise ValidationError(
            _("Until %(end)s plot %(plot)s is offered to %(person)s.")
            % {"plot": plot, "person": stand.offer.entry, "end": moment_text(stand.offer.ends_at, garden)}
        )
    theirs = list_now.row_of(entry.pk)
    for run_out in {stand.offer, theirs.offer if theirs else None} - {None}:
        if not run_out.is_open_at(now):
            settle_offer(offer=run_out, by=by)
    current = WaitingEntry.objects.select_related("garden").get(pk=entry.pk, garden=garden)
    following = _following(list_now, stand, current)
    _check_turn(current, following, why)
    offer = Offer(
        entry=current, place=current, plot=plot, season=season, begins_on=begins_on, made_at=now,
        ends_at=ends_at, made_by=by, next_in_line=following, why=why if following != current else "",
    )  # fmt: skip
    offer.save()
    after = {"plot": plot, "season": season, "ends_at": ends_at.astimezone(garden.zone)}
    if following is not None and following != current:
        after["next_in_line"] = following
    record(garden=garden, by=by, about=current, what="offer-made", after=after, why=offer.why)
    return offer


def _following(
    list_now: queries.WaitingList, stand: queries.Stand, entry: WaitingEntry
) -> WaitingEntry | None:
    """Who is next; whoever is first in line may also have this plot instead of the one proposed to them."""
    first = list_now.in_turn(stand.situation.plot)
    if first is not None and first.entry == entry:
        return entry
    return stand.next_row.entry if stand.next_row else None


def _check_turn(entry: WaitingEntry, following: WaitingEntry | None, why: str) -> None:
    if not entry.waits:
        raise ValidationError(_("%(person)s is no longer on the list.") % {"person": entry})
    other = Offer.objects.filter(place=entry.place).select_related("plot").first()
    if other is not None:
        raise ValidationError(
            _("%(person)s has plot %(plot)s offered already.") % {"person": entry, "plot": other.plot}
        )
    if entry != following and not why:
        if following is None:
            sentence = _("By the garden's rules this is not %(person)s's turn. Say why they get the offer.")
        else:
            sentence = _("%(next)s is next in line. Say why %(person)s gets the offer before them.")
        raise ValidationError({"why": sentence % {"person": entry, "next": following}})


def locked_offer(offer: Offer) -> Offer:
    """The row as it is now; nobody else changes the garden's list until the transaction ends."""
    Garden.objects.select_for_update().get(pk=offer.plot.garden_id)
    rows = Offer.objects.select_related("entry__garden", "entry__member", "plot__garden", "season")
    return rows.get(pk=offer.pk)


def check_open(offer: Offer, *, by: User | None) -> None:
    """A link works until the deadline; a person who looks after the list may also take a late answer."""
    garden = offer.plot.garden
    if offer.place_id is None:
        raise ValidationError(_("This offer is over: %(answer)s.") % {"answer": offer.get_answer_display()})
    if by is None and not offer.is_open_at(timezone.now()):
        raise ValidationError(
            _("The time to answer was over on %(end)s; ask the garden whether the plot is still free.")
            % {"end": moment_text(offer.ends_at, garden)}
        )


def send_offer(*, offer: Offer, by: User) -> bool:
    """Emails an open offer to who has it, the second time as a reminder; says whether it went out."""
    if not offer.is_open_at(timezone.now()) or not offer.entry.email:
        return False
    link = place_link(offer.entry, emailed=True)
    letter = offer_letter(offer, link, reminder=offer.told_at is not None)
    sent = post.send(to=offer.entry.email, subject=letter.subject, body=letter.body)
    if sent:
        tell_offer(offer=offer, how=ToldHow.EMAIL, by=by)
    return sent


@transaction.atomic
def tell_offer(*, offer: Offer, how: ToldHow, by: User) -> None:
    """Keeps that the person was told of the offer; how they were told first stays with it."""
    current = locked_offer(offer)
    if not current.is_open_at(timezone.now()):
        raise ValidationError(_("The time to answer is over. Give more time first, then tell them."))
    if current.told_at is None:
        current.told_at, current.told_how = timezone.now(), how
        current.save(update_fields=["told_at", "told_how"])
    record(
        garden=current.plot.garden, by=by, about=current.entry, what="offer-told",
        after={"plot": current.plot, "told_how": str(ToldHow(how).label)},
    )  # fmt: skip


@transaction.atomic
def decline_offer(*, offer: Offer, by: User | None = None) -> Offer:
    """The person does not take the plot; the garden's rule says what becomes of the place."""
    offer = locked_offer(offer)
    check_open(offer, by=by)
    close_offer(offer, Answer.DECLINED, by)
    after_refusal(
        entry=offer.entry, rule=offer.plot.garden.rules.after_decline, left=LeftWhy.DECLINED,
        placed_by=PlacedBy.DECLINED, at=offer.answered_at, by=by,
    )  # fmt: skip
    return offer


@transaction.atomic
def settle_offer(*, offer: Offer, by: User) -> Offer:
    """Writes down that an offer ran out, with what the garden's rule makes of the place; once.

    An offer that nobody told them of is taken back instead, and the place stays where it is.
    """
    offer = locked_offer(offer)
    if offer.place_id is None:
        return offer
    if offer.is_open_at(timezone.now()):
        raise ValidationError(_("There is still time to answer this offer."))
    if offer.told_at is None:
        close_offer(offer, Answer.WITHDRAWN, by, why=_("They were not told of it while there was time."))
        return offer
    close_offer(offer, Answer.UNANSWERED, by)
    after_refusal(
        entry=offer.entry, rule=offer.plot.garden.rules.after_silence, left=LeftWhy.UNANSWERED,
        placed_by=PlacedBy.UNANSWERED, at=offer.ends_at, by=by,
    )  # fmt: skip
    return offer


@transaction.atomic
def withdraw_offer(*, offer: Offer, by: User, why: str) -> Offer:
    """Takes the offer back with a reason; the place stays where it is."""
    if not why.strip():
        raise ValidationError({"why": _("Say why; it is kept.")})
    offer = locked_offer(offer)
    if offer.place_id is not None:
        close_offer(offer, Answer.WITHDRAWN, by, why=why)
    return offer


@transaction.atomic
def extend_offer(*, offer: Offer, ends_at: datetime, by: User, why: str = "") -> Offer:
    """Gives more time to answer."""
    offer = locked_offer(offer)
    if offer.place_id is None:
        raise ValidationError(_("This offer is over: %(answer)s.") % {"answer": offer.get_answer_display()})
    if ends_at <= max(offer.ends_at, timezone.now()):
        raise ValidationError({"ends_at": _("The new time has to be later than the old one, and ahead.")})
    zone = offer.plot.garden.zone
    before = {"ends_at": offer.ends_at.astimezone(zone)}
    offer.ends_at = ends_at
    offer.save(update_fields=["ends_at"])
    record(
        garden=offer.plot.garden, by=by, about=offer.entry, what="offer-extended", before=before,
        after={"ends_at": ends_at.astimezone(zone), "plot": offer.plot}, why=why,
    )  # fmt: skip
    return offer


@transaction.atomic
def leave_list(*, entry: WaitingEntry, why: LeftWhy, by: User | None, reason: str = "") -> WaitingEntry:
    """Ends the place, and declines an open offer with it; leaving twice changes nothing."""
    current = locked_entry(entry)
    if not current.waits:
        return current
    offer = Offer.objects.select_related("plot__garden", "entry").filter(place=current.place).first()
    if offer is not None:
        close_offer(offer, Answer.DECLINED, by)
    end_place(entry=current, why=why, by=by, reason=reason)
    return current


def close_offer(offer: Offer, answer: Answer, by: User | None, *, why: str = "") -> None:
    """Writes the answer on an open offer that the caller holds locked; what the place becomes is theirs."""
    offer.place, offer.answer, offer.answered_at = None, answer, timezone.now()
    offer.save(update_fields=["place", "answer", "answered_at", "assignment"])
    record(
        garden=offer.plot.garden, by=by, by_name=name_unless(by, offer.entry), about=offer.entry,
        what=f"offer-{answer}", after={"plot": offer.plot}, why=why,
    )  # fmt: skip
