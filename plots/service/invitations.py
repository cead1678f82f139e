"""Sign-in links as invitations: made for a member, asked for by one, settled by a person."""

from __future__ import annotations

from datetime import timedelta

from django.db import IntegrityError, transaction
from django.db.models import Q
from django.utils import timezone

from plots.models import Garden, LinkRequest, User
from plots.service.sign_in import make_link
from plots.spelling import folded, tidy

BETWEEN_LETTERS = timedelta(minutes=10)


@transaction.atomic
def invite(*, garden: Garden, person: User, on_card: bool = False) -> str:
    """The address of a new link that works as long as the garden's rules say; an open request is settled."""
    settle_request(person=person)
    days = garden.rules.card_days if on_card else garden.rules.link_days
    return make_link(user=person, lasts=timedelta(days=days))


def settle_request(*, person: User) -> None:
    LinkRequest.objects.filter(user=person, settled_at__isnull=True).update(settled_at=timezone.now())


def ask_for_link(*, account: str) -> User | None:
    """Keeps that somebody asks for a link; `None` when nobody, or more than one, is called so.

    Whoever asks must not learn which: the page says the same either way.
    """
    person = _the_one(account)
    if person is None:
        return None
    try:
        with transaction.atomic():
            LinkRequest.objects.create(user=person)
    except IntegrityError:  # they asked before; the first time counts
        pass
    return person


def letter_is_on_its_way(person: User) -> bool:
    """Whether what they asked for was settled so lately that another letter would only fill the mailbox.

    A link handed over without their asking is no letter: who then asks for one gets it.
    """
    return person.link_requests.filter(settled_at__gt=timezone.now() - BETWEEN_LETTERS).exists()


def _the_one(account: str) -> User | None:
    known = Q(sign_in_name=folded(account)) | Q(email=folded(account))
    active = User.objects.filter(is_active=True, memberships__isnull=False).distinct()
    found = list(active.filter(known)[:2]) or list(active.filter(name__iexact=tidy(account))[:2])
    return found[0] if len(found) == 1 else None
