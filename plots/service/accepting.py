"""Accepting an offer: who becomes the holder, and what has to hold until the very moment."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from plots import queries
from plots.models import Answer, LeftWhy, Membership, Offer, Role, User, WaitingEntry
from plots.service.holding import assign_plot
from plots.service.offers import check_open, close_offer, locked_offer
from plots.service.people import add_member
from plots.service.waiting import end_place


@transaction.atomic
def accept_offer(*, offer: Offer, by: User | None = None, is_account: bool | None = None) -> Offer:
    """The person takes the plot: becomes a member where they are none, holds it, and leaves the list.

    `by` is who answers on their behalf, `None` for the person's own link. `is_account` says whether the
    account that has their email address is theirs; `None` where nobody knows.
    """
    offer = locked_offer(offer)
    check_open(offer, by=by)
    entry, garden = offer.entry, offer.plot.garden
    holder = _holder(entry, by, is_account)
    _keep_to_the_cap(offer, holder)
    _make_member(entry, holder, by)
    offer.assignment = assign_plot(
        plot=offer.plot,
        season=offer.season,
        holder=holder,
        began_on=max(offer.begins_on, queries.free_from(offer.plot, garden.today()) or offer.begins_on),
        by=by or holder,
        why=_("Offer from the waiting list, accepted."),
    )
    close_offer(offer, Answer.ACCEPTED, by)
    end_place(entry=entry, why=LeftWhy.ACCEPTED, by=by)
    entry.member = holder
    entry.save(update_fields=["member"])
    return offer


def _holder(entry: WaitingEntry, by: User | None, is_account: bool | None) -> User:
    """The account that will hold the plot: the member's own, the one with this email address, or a new one.

    Anybody can type anybody's email address into the public form. So an account is taken for its address
    only when that is proved: by the link that was emailed there, by being signed in to the account, or by
    whoever looks after the list, who knows the person. Nobody is given a plot they never asked for.
    """
    if entry.member is not None:
        return entry.member
    account = queries.account_of(entry)
    if account is not None and is_account is None:
        raise ValidationError(_whose_account(by) % {"email": entry.email})
    if account is not None and is_account:
        return account
    # Two accounts cannot share an address; the entry keeps it.
    person = User(name=entry.name, phone=entry.phone, address=entry.address, language=entry.language)
    person.email = None if account is not None else entry.email or None
    return person


def _whose_account(by: User | None) -> str:
    if by is not None:
        return _("An account here has the address %(email)s. Say whether it is this person's.")
    return _(
        "Somebody here has an account with the address %(email)s. If that is you, sign in and come back to "
        "this page, or open the link of the email you got. Or tell the garden: that counts just the same."
    )


def _keep_to_the_cap(offer: Offer, holder: User) -> None:
    """What the household took meanwhile counts; an offer made out of turn had its reason."""
    if offer.why:
        return
    garden = offer.plot.garden
    person_pk = holder.pk or offer.entry.household_of_id
    if queries.household_holds(garden, person_pk, but=offer) >= garden.rules.plots_per_household:
        raise ValidationError(_("The household holds as many plots as the garden's rules allow."))


def _make_member(entry: WaitingEntry, person: User, by: User | None) -> None:
    if person.pk is not None and Membership.objects.filter(garden=entry.garden, user=person).exists():
        return
    why = _("Accepted a plot from the waiting list.")
    add_member(garden=entry.garden, user=person, role=Role.MEMBER, by=by, why=why)
