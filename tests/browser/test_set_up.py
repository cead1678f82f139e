"""A garden of sixty plots, set up from nothing by its first visitor."""

from playwright.sync_api import expect

from plots.first_visit import start_code
from plots.models import Assignment, Garden
from tests.browser.looking import check
from tests.browser.setting_up import set_up
from tests.browser.steps import heading, press


def test_a_garden_of_sixty_plots_is_set_up_from_nothing(phone, live_server, settings):
    """On a phone; `test_year` does it at a desk."""
    set_up(phone, start_code(settings.SECRET_KEY))
    garden = Garden.objects.get()
    assert (garden.plots.count(), garden.rules.hours_owed, garden.paper) == (60, 6, "a4")
    assert not Assignment.objects.exists()
    phone.goto("/g/linnet-lane/history/")
    heading(phone, "History")
    expect(phone.get_by_role("cell", name="The garden was made")).to_be_visible()


def test_a_wrong_rule_is_undone_where_it_stands(phone, cast, enter):
    enter(phone, cast.coordinator)
    phone.goto("/g/linden-row/rules/hours/")
    phone.get_by_label("Hours of work owed in a season").fill("80")
    press(phone, "Keep these rules")
    press(phone, "Undo: Rules were changed")
    expect(phone.get_by_text("It is as it was before.")).to_be_visible()
    check(phone)
    assert Garden.objects.get(slug="linden-row").rules.hours_owed == 8
