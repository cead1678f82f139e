"""Notices: written once, sent where there is an email, called where there is a telephone, and who is left."""

import pytest
from django.urls import reverse

from plots.models import Delivery, Notice, User
from plots.queries import named_in, people_of_notice
from tests.texts import text_of

TEXT = {"subject": "Water is on", "body": "From today.", "audience": "all"}


def to(name, garden, *rest):
    return reverse(f"plots:{name}", args=[garden.slug, *rest])


@pytest.fixture
def reachable(cast):
    User.objects.filter(pk=cast.holder.pk).update(email="hollis@example.org")
    User.objects.filter(pk=cast.member.pk).update(phone="555 0100")
    return cast


def written(cast, **values):
    return cast.garden.notices.create(subject="Water is on", body="From today.", **values)


@pytest.mark.parametrize(
    ("audience", "names"),
    [
        ("all", ["Cora", "Corin", "Dario", "Hilde", "Hollis", "Maren"]),
        ("plots", ["Corin", "Hollis"]),
        ("running", ["Cora", "Dario", "Hilde"]),
        ("picked", ["Maren"]),
    ],
)
def test_for_whom_it_is(audience, names, cast):
    notice = written(cast, audience=audience)
    notice.picked.add(cast.member, cast.stranger)
    assert [person.name for person in people_of_notice(notice)] == names


def test_it_is_sent_once_to_each_address_and_the_rest_is_called(reachable, as_user, settings, mailoutbox):
    settings.EMAIL_FROM = "garden@example.org"
    cast, browser = reachable, as_user(reachable.coordinator)
    made = browser.post(to("notice_new", cast.garden), TEXT)
    notice = Notice.objects.get()
    assert made.url == to("notice", cast.garden, notice.pk)
    assert mailoutbox == []
    for _time in range(2):
        browser.post(to("notice_give", cast.garden, notice.pk))
    assert [mail.to for mail in mailoutbox] == [["hollis@example.org"]]
    page = text_of(browser.get(made.url))
    assert "Maren 555 0100" in page
    assert "Who could not be reached" in page
    row = Delivery.objects.get(person=cast.member)
    browser.post(to("delivery_mark", cast.garden, notice.pk, row.pk), {"state": "reached"})
    calls = browser.get(f"{made.url}?as=csv").content.decode()
    assert "Maren" not in calls
    assert "Hilde" in calls


def test_an_address_that_is_refused_is_to_be_called(reachable, as_user, settings, monkeypatch):
    settings.EMAIL_FROM = "garden@example.org"
    monkeypatch.setattr("plots.service.post._sent", lambda message, connection: False)
    notice, browser = written(reachable), as_user(reachable.coordinator)
    browser.post(to("notice_give", reachable.garden, notice.pk))
    assert Delivery.objects.get(person=reachable.holder).state == "failed"
    assert "the email did not go out" in text_of(browser.get(to("notice", reachable.garden, notice.pk)))


def test_without_a_mail_server_everybody_is_called(reachable, as_user, mailoutbox):
    notice = written(reachable)
    User.objects.filter(pk=reachable.holder.pk).update(phone="555 0101")
    as_user(reachable.coordinator).post(to("notice_give", reachable.garden, notice.pk))
    assert mailoutbox == []
    assert set(Delivery.objects.values_list("way", flat=True)) == {"phone", "none"}


def test_what_was_given_out_is_not_changed(cast, as_user):
    notice, browser = written(cast), as_user(cast.coordinator)
    browser.post(to("notice_give", cast.garden, notice.pk))
    answer = browser.post(to("notice_edit", cast.garden, notice.pk), {**TEXT, "subject": "Other"})
    assert answer.status_code == 422
    notice.refresh_from_db()
    assert notice.subject == "Water is on"


def test_names_and_plots_in_a_text_are_pointed_out(cast):
    notice = cast.garden.notices.create(subject="Weeds", body="Plot A1, and Maren, please weed.")
    assert sorted(named_in(notice)) == ["A1", "Maren"]


def test_a_draft_names_everybody_who_will_get_it_and_how(reachable, as_user):
    cast, browser = reachable, as_user(reachable.coordinator)
    notice = written(cast, audience="picked")
    address = to("notice", cast.garden, notice.pk)
    assert "Nobody." in text_of(browser.get(address))
    notice.picked.add(cast.member, cast.holder)
    page = text_of(browser.get(address))
    assert "For some people, by name" in page
    assert "1 person to be called: Maren" in page
    assert "Neither email nor telephone is known: Hollis" in page


def test_the_list_counts_who_cannot_be_reached_until_somebody_tells_them(reachable, as_user):
    cast, browser = reachable, as_user(reachable.coordinator)
    notice = written(cast, audience="plots")
    browser.post(to("notice_give", cast.garden, notice.pk))
    row = Delivery.objects.get(person__name="Corin")
    counts = []
    for state in ("waits", "reached"):
        Delivery.objects.filter(pk=row.pk).update(state=state)
        shown = browser.get(to("notices", cast.garden)).context["shown"].rows[0]
        counts.append((shown.people, shown.reached, shown.missed))
    assert counts == [(2, 0, 2), (2, 1, 1)]
