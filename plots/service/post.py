"""Sending email, where the installation can: EMAIL_URL says how.

Callers send after their transaction; a message that cannot go out never undoes what was kept.
"""

from __future__ import annotations

import logging
import smtplib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from time import monotonic
from typing import Generic, TypeVar

from django.conf import settings
from django.core.mail import EmailMessage, get_connection

log = logging.getLogger("django.trugbook.post")
Key = TypeVar("Key")
_FAILURES = (smtplib.SMTPException, OSError, ValueError)


@dataclass(frozen=True, slots=True)
class Message(Generic[Key]):
    """One text for one address; `key` is what the caller knows it by."""

    key: Key
    to: str
    subject: str
    body: str


def can_send() -> bool:
    """Whether the installation can send email at all; without it, pages show texts to copy and print."""
    return bool(settings.EMAIL_FROM)


def send(*, to: str, subject: str, body: str) -> bool:
    """Sends one text to one address, and says whether the mail server took it."""
    return all(sent for _key, sent in send_all([Message(to, to, subject, body)])) and can_send()


def send_all(messages: Iterable[Message[Key]], *, seconds: float | None = None) -> Iterator[tuple[Key, bool]]:
    """Sends each to its own address over one connection; gives each key back with whether it went out.

    After so many seconds no more are begun: what is not given back waits to be sent another time. Nobody sees
    who else is written to.
    """
    if not can_send():
        return
    ends = None if seconds is None else monotonic() + seconds
    connection = get_connection()
    try:
        waiting = iter(messages)
        # The clock is asked before a message is taken: callers mark what they hand out.
        while ends is None or monotonic() <= ends:
            message = next(waiting, None)
            if message is None:
                return
            yield message.key, _sent(message, connection)
    finally:
        connection.close()


def _sent(message: Message[Key], connection: object) -> bool:
    mail = EmailMessage(
        subject=" ".join(message.subject.split()),  # a line break would end the header
        body=message.body,
        from_email=settings.EMAIL_FROM,
        to=[message.to],
        connection=connection,  # type: ignore[arg-type]
        headers={"Auto-Submitted": "auto-generated"},
    )
    try:
        return bool(mail.send())
    except _FAILURES as error:
        # The address itself stays out of the log.
        log.warning("an email could not be sent: %s", type(error).__name__)
        return False
