"""Signing in: one-time links, and the limits on trying."""

from __future__ import annotations

import secrets
from datetime import timedelta
from hashlib import sha256

from django.conf import settings
from django.db import transaction
from django.db.models import F
from django.http import HttpRequest
from django.urls import reverse
from django.utils import timezone

from plots.models import SignInFailure, SignInLink, User
from plots.spelling import folded
from plots.throttle import WINDOW, Counter, client_address, counters, guesses

LINK_LASTS = timedelta(days=7)
LINK_FORGOTTEN = timedelta(days=30)


def make_link(*, user: User, lasts: timedelta = LINK_LASTS) -> str:
    """The full address of a new one-time link; it cannot be read again later, only a digest is kept."""
    token = secrets.token_urlsafe(32)
    now = timezone.now()
    SignInLink.objects.filter(expires_at__lt=now - LINK_FORGOTTEN).delete()
    SignInLink.objects.create(user=user, token_hash=_digest(token), made_at=now, expires_at=now + lasts)
    return settings.SITE.origin + reverse("plots:link", args=[token])


def person_of_link(token: str) -> User | None:
    """Whom the link would sign in now, without using it up."""
    link = SignInLink.objects.select_related("user").filter(token_hash=_digest(token)).first()
    return link.user if link is not None and link.works_at(timezone.now()) else None


def use_link(*, token: str) -> User | None:
    """The person the link is for, once; `None` when it was used, is too old, or never was.

    A single conditional UPDATE decides, so of two presses at once only one signs in.
    """
    now = timezone.now()
    live = SignInLink.objects.filter(token_hash=_digest(token), used_at__isnull=True, expires_at__gt=now)
    with transaction.atomic():
        if not live.filter(user__is_active=True).exists() or not live.update(used_at=now):
            return None
        return SignInLink.objects.select_related("user").get(token_hash=_digest(token)).user


def count_attempt(*, request: HttpRequest, account: str) -> bool:
    """Counts an attempt before it is looked at, so that many at once cannot slip through."""
    SignInFailure.objects.filter(since__lt=timezone.now() - WINDOW).delete()
    counted = [_count(counter) for counter in _counters(request, account)]
    return all(counted)


def _count(counter: Counter) -> bool:
    with transaction.atomic():
        row, _made = SignInFailure.objects.get_or_create(key=counter.key, defaults={"since": timezone.now()})
        SignInFailure.objects.filter(pk=row.pk).update(failures=F("failures") + 1)
        return not SignInFailure.objects.filter(pk=row.pk, failures__gt=counter.limit).exists()


def forgive_attempt(*, request: HttpRequest, account: str) -> None:
    """Takes an attempt that succeeded off the counts again, and all earlier ones of the same pair."""
    pair, *wide = _counters(request, account)
    SignInFailure.objects.filter(key=pair.key).delete()
    keys = [counter.key for counter in wide]
    SignInFailure.objects.filter(key__in=keys, failures__gt=0).update(failures=F("failures") - 1)


def may_guess(*, request: HttpRequest, right: bool) -> bool:
    """Whether a code that was typed or scanned is looked at; a wrong one counts, a right one only reads."""
    counter = guesses(_address(request))
    since = timezone.now() - WINDOW
    if right:
        return not SignInFailure.objects.filter(
            key=counter.key, since__gte=since, failures__gt=counter.limit
        ).exists()
    SignInFailure.objects.filter(since__lt=since).delete()
    return _count(counter)


def _counters(request: HttpRequest, account: str) -> tuple[Counter, ...]:
    return counters(folded(account), _address(request))


def _address(request: HttpRequest) -> str:
    return client_address(
        request.META.get("REMOTE_ADDR", ""),
        request.META.get("HTTP_X_FORWARDED_FOR", ""),
        settings.TRUSTED_PROXIES,
    )


def _digest(token: str) -> str:
    return sha256(token.encode()).hexdigest()
