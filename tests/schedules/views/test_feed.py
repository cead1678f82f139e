"""The page on which a member makes, copies, renews and stops the address of their calendar."""

from __future__ import annotations

from schedules.models import CalendarFeed
from tests.conftest import Cast

FEED = "/g/linden-row/feed/"


def text_of(response) -> str:
    assert response.status_code == 200
    return response.content.decode()


def test_an_address_is_made_shown_and_opened_on_the_device(cast: Cast, as_user) -> None:
    browser = as_user(cast.holder)
    assert "Make my address" in text_of(browser.get(FEED))
    page = text_of(browser.post(FEED + "make/", follow=True))
    feed = CalendarFeed.objects.get()
    assert (feed.user, feed.garden) == (cast.holder, cast.garden)
    assert f"<code>http://127.0.0.1:8000/feed/{feed.token}.ics</code>" in page
    assert f'href="webcal://127.0.0.1:8000/feed/{feed.token}.ics"' in page


def test_renewing_replaces_the_address(cast: Cast, as_user) -> None:
    browser = as_user(cast.holder)
    browser.post(FEED + "make/")
    old = CalendarFeed.objects.get()
    page = text_of(browser.post(FEED + "make/", follow=True))
    assert old.token not in page
    old.refresh_from_db()
    assert old.revoked_at is not None
    assert CalendarFeed.objects.filter(revoked_at__isnull=True).count() == 1


def test_stopping_leaves_no_address_and_twice_is_harmless(cast: Cast, as_user) -> None:
    browser = as_user(cast.holder)
    browser.post(FEED + "make/")
    for _ in range(2):
        page = text_of(browser.post(FEED + "revoke/", follow=True))
        assert "The address no longer works." in page
        assert "Make my address" in page
    assert CalendarFeed.objects.filter(revoked_at__isnull=True).count() == 0


def test_nobody_sees_or_stops_the_address_of_another(cast: Cast, as_user) -> None:
    as_user(cast.holder).post(FEED + "make/")
    feed = CalendarFeed.objects.get()
    browser = as_user(cast.coordinator)
    assert feed.token not in text_of(browser.get(FEED))
    browser.post(FEED + "revoke/")
    feed.refresh_from_db()
    assert feed.revoked_at is None


def test_a_member_without_a_plot_is_told_that_it_would_be_empty(cast: Cast, as_user) -> None:
    assert "would be empty for now" in text_of(as_user(cast.member).get(FEED))
    assert "would be empty for now" not in text_of(as_user(cast.holder).get(FEED))
