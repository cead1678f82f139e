"""Places on the waiting list: joining, changing, leaving, and being given back."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.signing import BadSignature, Signer
from django.db import IntegrityError, transaction
from django.urls import reverse
from django.utils import timezone
from django.utils.crypto import constant_time_compare, salted_hmac
from django.utils.translation import gettext as _

from plots.models import (
    FINAL,
    AfterDecline,
    Garden,
    LeftWhy,
    PlacedBy,
    Plot,
    PlotChoice,
    User,
    WaitingEntry,
)
from plots.models.waiting import new_place
from plots.service.history import fields_of, record
from plots.waiting import may_return

_SIGNER = Signer(salt="plots.waiting")
KEPT_FIELDS = [
    "name", "email", "phone", "address", "member", "household_of", "near", "in_group", "needs_accessible",
    "note", "joined_at", "placed_at",
]  # fmt: skip


def join_list(
    *, entry: WaitingEntry, choices: Iterable[PlotChoice] = (), by: User | None = None, why: str = ""
) -> WaitingEntry:
    """Puts somebody on the list; a member waits once."""
    try:
        with transaction.atomic():
            entry.save()
            entry.choices.set(choices)
            joined = {
                name: value
                for name, value in _values(entry).items()
                if name in ("joined_at", "choices") and value
            }
            record(
                garden=entry.garden, by=by, by_name=name_unless(by, entry), about=entry,
                what="waiting-joined", after=joined, why=why,
            )  # fmt: skip
            return entry
    except IntegrityError:
        raise ValidationError(_("This member is on the list already.")) from None


@transaction.atomic
def change_entry(
    *, entry: WaitingEntry, choices: Iterable[PlotChoice], by: User | None, why: str = ""
) -> WaitingEntry:
    """Keeps what was changed about somebody who waits; a new date of joining moves the place with it."""
    former = locked_entry(entry)
    before = _values(former)
    if entry.joined_at != former.joined_at:
        entry.placed_at, entry.placed_by = entry.joined_at, PlacedBy.BY_HAND
    entry.place, entry.left_at, entry.left_why = former.place, former.left_at, former.left_why
    entry.save()
    entry.choices.set(choices)
    after = _values(entry)
    changed = [name for name in after if after[name] != before[name]]
    if changed:
        record(
            garden=entry.garden, by=by, by_name=name_unless(by, entry), about=entry,
            what="waiting-changed", why=why,
            before={name: before[name] for name in changed}, after={name: after[name] for name in changed},
        )  # fmt: skip
    return entry


def name_unless(by: User | None, entry: WaitingEntry) -> str:
    """Who changed something where it was the person themselves, by their own link."""
    return entry.name if by is None else ""


def _values(entry: WaitingEntry) -> dict[str, object]:
    """What is kept of an entry, with its moments as the garden's clock shows them."""
    values = fields_of(entry, KEPT_FIELDS) | {"choices": list(entry.choices.all())}
    zone = entry.garden.zone
    return values | {
        "joined_at": entry.joined_at.astimezone(zone), "placed_at": entry.placed_at.astimezone(zone),
    }  # fmt: skip


def place_link(entry: WaitingEntry, *, emailed: bool = False) -> str:
    """The full address of the person's own page: their place, offers and questions. It stays the same.

    `emailed` is for letters to the email address of the entry and nothing else: whoever comes by that link
    has read mail sent there, so it proves that the address is theirs. The other link proves no such thing.
    """
    return settings.SITE.origin + place_path(entry, emailed=emailed)


def place_path(entry: WaitingEntry, *, emailed: bool = False) -> str:
    """As `place_link`, without the name of the site: for somebody who is there already."""
    word = f"{entry.pk}.{_mark(entry.email)}" if emailed else str(entry.pk)
    return reverse("plots:place", args=[_SIGNER.sign(word)])


def proves_email(*, token: str, entry: WaitingEntry) -> bool:
    """Whether the link was sent to the email address that the entry has now."""
    try:
        mark = _SIGNER.unsign(token).partition(".")[2]
    except BadSignature:
        return False
    return bool(entry.email) and constant_time_compare(mark, _mark(entry.email))


def _mark(email: str) -> str:
    return salted_hmac("plots.waiting.email", email).hexdigest()[:16]


def entry_of_token(token: str) -> WaitingEntry | None:
    """Whose page it is; `None` for an address that we did not make."""
    try:
        pk = int(_SIGNER.unsign(token).partition(".")[0])
    except (BadSignature, ValueError):
        return None
    return WaitingEntry.objects.select_related("garden", "member").filter(pk=pk).first()


def locked_entry(entry: WaitingEntry) -> WaitingEntry:
    """The row as it is now; nobody else changes the garden's list until the transaction ends."""
    Garden.objects.select_for_update().get(pk=entry.garden_id)
    return WaitingEntry.objects.select_related("garden").get(pk=entry.pk)


def end_place(*, entry: WaitingEntry, why: LeftWhy, by: User | None, reason: str = "") -> None:
    """Takes the person off the list; an open offer has to be closed before."""
    entry.place, entry.left_at, entry.left_why = None, timezone.now(), why
    entry.save(update_fields=["place", "left_at", "left_why"])
    record(
        garden=entry.garden, by=by, by_name=name_unless(by, entry), about=entry, what="waiting-left",
        after={"left_why": str(why)}, why=reason,
    )  # fmt: skip


@transaction.atomic
def reinstate(*, entry: WaitingEntry, by: User, reason: str) -> WaitingEntry:
    """Gives a lost place back with its date; never to who cancelled or has a plot from it."""
    current = locked_entry(entry)
    if current.waits:
        return current
    if current.left_why in FINAL:
        raise ValidationError(
            _("%(person)s %(why)s. That ended the place; they can join anew.")
            % {"person": current, "why": current.get_left_why_display()}
        )
    if not reason.strip():
        raise ValidationError({"reason": _("Say why; it is kept.")})
    zone, days = current.garden.zone, current.garden.rules.reinstate_days
    left_on = current.left_at.astimezone(zone).date()
    if not may_return(left_on=left_on, today=current.garden.today(), days=days):
        raise ValidationError(
            _("By this garden's rules a place is given back within %(days)d days.") % {"days": days}
        )
    before = {"left_why": current.left_why}
    current.place, current.left_at, current.left_why = new_place(), None, ""
    try:
        with transaction.atomic():
            current.save(update_fields=["place", "left_at", "left_why"])
    except IntegrityError:
        raise ValidationError(_("This member is on the list already.")) from None
    record(garden=current.garden, by=by, about=current, what="waiting-returned", before=before, why=reason)
    return current


def after_refusal(
    *, entry: WaitingEntry, rule: str, left: LeftWhy, placed_by: PlacedBy, at: datetime, by: User | None
) -> None:
    """What the garden's rule makes of the place when an offer was not taken."""
    if rule == AfterDecline.LEAVES:
        end_place(entry=entry, why=left, by=by)
    elif rule == AfterDecline.END:
        zone = entry.garden.zone
        before = {"placed_at": entry.placed_at.astimezone(zone)}
        entry.placed_at, entry.placed_by = at, placed_by
        entry.save(update_fields=["placed_at", "placed_by"])
        record(
            garden=entry.garden, by=by, by_name=name_unless(by, entry), about=entry,
            what="waiting-moved-back", before=before, after={"placed_at": at.astimezone(zone)},
        )  # fmt: skip


@transaction.atomic
def keep_choice(*, choice: PlotChoice, plots: Iterable[Plot], by: User | None) -> PlotChoice:
    """Keeps what people may choose when they join, with the plots it covers."""
    is_new = choice.pk is None
    former = None if is_new else PlotChoice.objects.get(pk=choice.pk)
    before = {"name": former.name, "plots": list(former.plots.all())} if former else {}
    choice.save()
    choice.plots.set(plots)
    after = {"name": choice.name, "plots": list(choice.plots.all())}
    if before != after:
        record(garden=choice.garden, by=by, about=choice, what="choice-kept", before=before, after=after)
    return choice
