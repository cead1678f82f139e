"""The weekly letter: to whoever asked for it, once, or printed where no email can be sent."""

from datetime import UTC, datetime
from io import StringIO

import pytest
import time_machine
from django.contrib.sessions.models import Session
from django.core.management import CommandError, call_command
from django.urls import reverse

from plots.models import Membership, User


@pytest.fixture
def reader(cast, as_user):
    User.objects.filter(pk=cast.holder.pk).update(email="hollis@example.org")
    User.objects.filter(pk=cast.member.pk).update(email="maren@example.org")
    as_user(cast.holder).post(reverse("schedules:letter", args=[cast.garden.slug]), {"wanted": "yes"})
    return cast


def letters(*options):
    out = StringIO()
    call_command("letters", *options, stdout=out, stderr=StringIO())
    return out.getvalue()


def test_it_goes_once_to_who_asked_for_it(reader, settings, mailoutbox):
    settings.EMAIL_FROM = "garden@example.org"
    reader.garden.workdays.create(name="Paths", day=reader.garden.today())
    Session.objects.update(expire_date=datetime(2020, 1, 1, tzinfo=UTC))
    assert "1 sent, 0 not sent" in letters("--now")
    assert "0 sent" in letters("--now")
    assert not Session.objects.exists()  # sign-ins that ran out are swept up along the way
    (mail,) = mailoutbox
    assert mail.to == ["hollis@example.org"]
    assert "Paths" in mail.body


def test_one_that_did_not_go_out_is_tried_again(reader, settings, monkeypatch):
    settings.EMAIL_FROM = "garden@example.org"
    monkeypatch.setattr("plots.service.post._sent", lambda message, connection: False)
    assert "0 sent, 1 not sent" in letters("--now")
    assert Membership.objects.get(user=reader.holder).letter_on is None


def test_without_a_mail_server_it_is_printed(reader, mailoutbox):
    assert "To: hollis@example.org" in letters("--now", "--garden", "linden-row")
    assert mailoutbox == []
    assert Membership.objects.get(user=reader.holder).letter_on is None


@pytest.mark.parametrize(
    ("moment", "said"),
    [
        ("2026-06-01T18:00Z", ""),
        ("2026-06-02T05:00Z", ""),  # still Monday at the garden
        ("2026-06-02T07:00Z", "linden-row: 1 sent, 0 not sent\n"),
        ("2026-06-03T07:00Z", ""),
        ("2026-06-07T18:00Z", "other-side: 0 sent, 0 not sent\n"),
    ],
)
def test_it_comes_on_the_day_of_the_garden_alone(reader, settings, mailoutbox, moment, said):
    settings.EMAIL_FROM = "garden@example.org"
    settings.STORAGES = {**settings.STORAGES}  # a storage of its own, where no other test left a file
    reader.garden.rules.letter_weekday = 1  # Tuesday; the other garden's stays Sunday
    reader.garden.rules.save()
    with time_machine.travel(moment):
        assert letters() == said
    assert len(mailoutbox) == said.count("1 sent")


def test_a_garden_that_is_not_there_is_said(reader):
    with pytest.raises(CommandError, match="no garden called nowhere"):
        letters("--garden", "nowhere")


def test_it_can_be_ended(reader, as_user, settings, mailoutbox):
    settings.EMAIL_FROM = "garden@example.org"
    as_user(reader.holder).post(reverse("schedules:letter", args=[reader.garden.slug]), {"wanted": "no"})
    assert "0 sent" in letters("--now")
    assert mailoutbox == []
