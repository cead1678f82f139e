"""Signing in by link, and running a garden, as people do it."""

from datetime import date

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import PHONE
from tests.browser.looking import check
from tests.factories import UserFactory

PAGES = [
    "/g/linden-row/",
    "/g/linden-row/plots/",
    "/g/linden-row/plots/new/",
    "/g/linden-row/members/",
    "/g/linden-row/members/new/",
    "/g/linden-row/settings/",
    "/g/linden-row/seasons/new/",
    "/account/",
]


def test_a_link_signs_in_and_out_again(page, cast, enter):
    enter(page, cast.holder)
    expect(page).to_have_url("/g/linden-row/week/")
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("heading", name="Sign in")).to_be_visible()
    check(page)


def test_a_wrong_password_is_said_beside_its_field_and_the_name_stays(phone, cast):
    phone.goto("/sign-in/")
    phone.get_by_label("Sign-in name or email").fill("hollis")
    phone.get_by_label("Password").fill("not the one")
    with phone.expect_response(lambda response: response.status == 422):
        phone.get_by_role("button", name="Sign in").click()
    expect(phone.get_by_label("Sign-in name or email")).to_have_value("hollis")
    expect(phone.get_by_label("Password")).to_have_accessible_description(
        "The name and the password do not go together."
    )
    check(phone)


def test_every_page_of_the_coordinator_can_be_used_by_everybody(page, cast, enter):
    enter(page, cast.coordinator)
    for address in [
        *PAGES,
        f"/g/linden-row/plots/{cast.plot.pk}/",
        f"/g/linden-row/plots/{cast.plot.pk}/holder/",
    ]:
        page.goto(address)
        check(page)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_garden_can_be_read_in_either_light(new_page, cast, enter, scheme):
    page = new_page(**PHONE, color_scheme=scheme)
    enter(page, cast.coordinator)
    page.goto("/g/linden-row/")
    check(page)


def test_a_member_is_added_and_comes_in_by_the_link_shown(page, new_page, cast, enter):
    enter(page, cast.coordinator)
    page.goto("/g/linden-row/members/")
    page.get_by_role("link", name="Add a member").click()
    page.get_by_label("Name", exact=True).fill("Ελένη Παππά")
    page.get_by_role("button", name="Add the member").click()
    link = page.get_by_label("To copy").input_value()
    check(page)
    theirs = new_page(**PHONE)
    theirs.goto("/" + link.split("/", 3)[3])
    check(theirs)
    theirs.get_by_role("button", name="Sign in").click()
    expect(theirs.get_by_text("Signed in as Ελένη Παππά.")).to_be_visible()


def test_without_scripts_a_plot_is_added_and_given_out(new_page, cast, enter):
    year = cast.garden.today().year
    cast.garden.seasons.update(starts_on=date(year, 1, 1), ends_on=date(year, 12, 31))
    page = new_page(**PHONE, java_script_enabled=False)
    enter(page, cast.coordinator)
    page.goto("/g/linden-row/plots/")
    page.get_by_role("link", name="Add a plot").click()
    page.get_by_label("Label").fill("B2")
    page.get_by_role("button", name="Keep the plot").click()
    page.get_by_role("link", name="Give it to a member").click()
    page.get_by_label("Held by").select_option("Maren")
    page.get_by_role("button", name="Give the plot").click()
    expect(page.get_by_text("Maren now holds plot B2.")).to_be_visible()


def test_a_page_that_is_not_there_is_said_in_words(new_page, browser, live_server, cast, as_user):
    user = UserFactory()
    context = browser.new_context(base_url=live_server.url)
    try:
        context.add_cookies(
            [{"name": "session", "value": as_user(user).cookies["session"].value, "url": live_server.url}]
        )
        page = context.new_page()  # not `new_page`: the browser itself reports a 404 as an error
        page.goto("/g/linden-row/")
        expect(page.get_by_role("heading", name="Nothing here")).to_be_visible()
        check(page)
    finally:
        context.close()
