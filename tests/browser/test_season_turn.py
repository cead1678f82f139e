"""The season turn as a coordinator and a member do it: asked on one screen, answered on another."""

from datetime import timedelta

from playwright.sync_api import expect

from plots.models import Assignment, GardenRules, Season
from tests.browser.conftest import PHONE
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


def test_part_dues_filters_and_papers_are_used_on_a_phone(new_page, cast, enter):
    """Dues of whoever began today are proposed; a wrong amount stays where it was typed."""
    garden, today = cast.garden, cast.garden.today()
    GardenRules.objects.filter(garden=garden).update(dues_per_plot=60, dues_part="half")
    Season.objects.filter(pk=cast.assignment.season_id).update(
        starts_on=today - timedelta(days=200), ends_on=today + timedelta(days=100)
    )
    Assignment.objects.filter(pk=cast.assignment.pk).update(began_on=today)
    page = new_page(**PHONE)
    enter(page, cast.coordinator)
    page.goto("/g/linden-row/dues/")
    page.get_by_role("link", name="1 plot is held for a part of the season").click()
    check(page)
    filters = page.locator("summary", has_text="Filter")
    expect(page.get_by_label("So far")).to_be_hidden()
    filters.click()
    page.get_by_label("So far").select_option("whole")
    page.locator(".list-filters button").click()
    expect(page.get_by_text("Filter: So far the whole is due")).to_be_visible()
    expect(page.get_by_label("So far")).to_be_visible()  # what narrows the list stands open
    check(page)
    page.get_by_role("link", name="Show all").click()
    page.get_by_role("link", name="Another amount for plot A1, Hollis").click()
    page.get_by_label("Amount").fill("12.345")
    page.locator("form").evaluate_all("forms => forms.forEach(form => { form.noValidate = true })")
    page.get_by_role("button", name="This is due").click()
    expect(page.get_by_label("Amount")).to_have_value("12.345")
    check(page)
    page.get_by_label("Amount").fill("30")
    page.get_by_role("button", name="This is due").click()
    expect(page.get_by_text("Hollis, plot A1: $30.00 due.")).to_be_visible()
