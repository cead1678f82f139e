"""Email: one message to one address, and nothing lost when the mail server refuses."""

import smtplib

import pytest
from django.core.mail.backends.locmem import EmailBackend

from plots.service import post

LETTER = {"to": "ha@example.org", "subject": "Water\nis on", "body": "Since today."}


@pytest.fixture(autouse=True)
def mail_server(settings):
    settings.EMAIL_FROM = "garden@example.org"


def test_a_message_goes_to_its_address_alone(mailoutbox):
    assert post.send(**LETTER)
    (mail,) = mailoutbox
    assert (mail.to, mail.subject, mail.from_email) == (
        ["ha@example.org"],
        "Water is on",
        "garden@example.org",
    )


def test_without_a_mail_server_nothing_is_sent(mailoutbox, settings):
    settings.EMAIL_FROM = ""
    assert not post.send(**LETTER)
    assert mailoutbox == []


def test_one_refused_address_does_not_stop_the_others(mailoutbox, monkeypatch):
    def refuse_first(self, messages, real=EmailBackend.send_messages):
        if messages[0].to == ["no@example.org"]:
            raise smtplib.SMTPRecipientsRefused({})
        return real(self, messages)

    monkeypatch.setattr(EmailBackend, "send_messages", refuse_first)
    asked = [
        post.Message(number, to, "S", "B") for number, to in enumerate(["no@example.org", "ha@example.org"])
    ]
    assert dict(post.send_all(asked)) == {0: False, 1: True}
    assert len(mailoutbox) == 1


def test_what_takes_too_long_waits_for_the_next_time(mailoutbox):
    assert list(post.send_all([post.Message(1, "ha@example.org", "S", "B")], seconds=-1)) == []
    assert mailoutbox == []
