"""The season turn as a coordinator and a member do it: asked on one screen, answered on another."""

from datetime import timedelta

from playwright.sync_api import expect

from plots.models import Assignment, Season
from tests.browser.looking import check


def test_a_season_is_turned(desktop, phone, cast, enter):
    today = cast.garden.today()
    first, last = today - timedelta(days=100), today + timedelta(days=100)
    Season.objects.filter(pk=cast.assignment.season_id).update(starts_on=first, ends_on=last)

    enter(desktop, cast.coordinator)
    desktop.goto("/g/linden-row/")
    desktop.get_by_role("link", name="Season turn").click()
    check(desktop)
    desktop.get_by_role("link", name="Give the next season its dates").click()
    desktop.get_by_role("button", name="Keep the season").click()
    desktop.goto("/g/linden-row/turn/")
    desktop.get_by_role("link", name="Ask everybody who holds a plot").click()
    check(desktop)
    desktop.get_by_role("button", name="Ask", exact=True).click()
    expect(desktop.get_by_text("Everybody who holds a plot finds the question")).to_be_visible()

    enter(phone, cast.holder)
    phone.goto("/g/linden-row/")
    phone.get_by_role("link", name="Your season").click()
    check(phone)
    phone.get_by_label("keep this plot", exact=True).check()
    phone.get_by_role("button", name="Answer for plot A1").click()
    expect(phone.get_by_text("Your answer for plot A1 is kept.")).to_be_visible()

    desktop.goto("/g/linden-row/turn/")
    desktop.get_by_role("link", name="1 plot proposed to renew").click()
    check(desktop)
    expect(desktop.get_by_role("checkbox", name="Plot A1")).to_be_checked()
    desktop.get_by_role("button", name="Renew the ticked plots").click()
    expect(desktop.get_by_text("1 plot is decided.")).to_be_visible()
    check(desktop)
    coming = Assignment.objects.get(season__starts_on__gt=last)
    assert (coming.plot, coming.holder) == (cast.plot, cast.holder)
    phone.reload()
    expect(phone.get_by_text("Plot A1 is yours from")).to_be_visible()


def test_an_agreement_is_written_and_signed(desktop, phone, cast, enter):
    enter(desktop, cast.coordinator)
    desktop.goto("/g/linden-row/agreement/versions/")
    desktop.get_by_role("button", name="Write the agreement").click()
    desktop.get_by_label("Language").select_option("es")
    desktop.get_by_label("Title").fill("Nuestro acuerdo")
    desktop.get_by_label("Text").fill("Regar a mano.")
    check(desktop)
    desktop.get_by_role("button", name="Keep the text").click()
    check(desktop)
    desktop.get_by_role("button", name="Put it in force today").click()

    enter(phone, cast.holder)
    phone.goto("/g/linden-row/agreement/")
    check(phone)
    phone.get_by_label("I have read this and agree to it.").check()
    phone.get_by_role("button", name="Sign", exact=True).click()
    expect(phone.get_by_text("You signed version 1")).to_be_visible()

    desktop.goto("/g/linden-row/agreement/signatures/?state=unsigned")
    check(desktop)
    desktop.get_by_role("link", name="Corin signed on paper").click()
    desktop.get_by_role("button", name="Mark as signed").click()
    expect(desktop.get_by_text("Corin is marked as having signed on paper.")).to_be_visible()


def test_dues_and_a_hand_over_can_be_used_by_everybody(page, cast, enter):
    enter(page, cast.coordinator)
    held = cast.assignment
    where = f"/g/linden-row/plots/{cast.plot.pk}/holder/{held.pk}/hand-over/"
    for address in ("/g/linden-row/dues/", "/g/linden-row/dues/new/", where):
        page.goto(address)
        check(page)
    page.get_by_label("Why").fill("moves away")
    page.get_by_role("button", name="Hand it over").click()
    expect(page.get_by_role("button", name="Hollis goes on after all")).to_be_visible()
    check(page)
