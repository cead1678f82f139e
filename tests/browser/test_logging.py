"""Writing down what was done, with a thumb and without a script; then with one, at a desk."""

from playwright.sync_api import expect

from schedules.models import HoseFlow, WorkLog
from tests.browser.conftest import PHONE
from tests.browser.looking import check
from tests.factories import PlantingFactory


def test_the_commonest_log_is_two_taps_and_undo_a_third_without_a_script(new_page, cast, enter):
    flow = {"name": "North tap", "litres": 10, "seconds": 40, "measured_on": cast.garden.today()}
    HoseFlow.objects.create(garden=cast.garden, **flow)
    page = new_page(**PHONE, java_script_enabled=False)
    enter(page, cast.holder)
    page.goto("/g/linden-row/week/")
    page.locator(".thumb").get_by_role("link", name="Watered").click()
    expect(page.get_by_label("Planting")).to_be_hidden()
    page.get_by_role("button", name="Keep").click()
    expect(page.get_by_text("Kept: Watered plot A1")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back: Watered plot A1")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    assert WorkLog.objects.get().removed_at is None


def test_the_form_asks_what_the_work_needs_and_says_what_is_wrong_beside_it(desktop, cast, enter):
    planting = PlantingFactory(plot=cast.plot, year=cast.garden.today().year)
    enter(desktop, cast.holder)
    desktop.goto("/g/linden-row/week/")
    check(desktop)
    desktop.goto("/g/linden-row/log/?work=water")
    check(desktop)
    desktop.get_by_label("What was done").select_option("harvest")
    expect(desktop.get_by_label("Counted in")).to_have_value("lb")
    expect(desktop.get_by_label("Hose or tap")).to_be_hidden()
    desktop.get_by_label("Planting", exact=True).select_option(str(planting.pk))
    desktop.get_by_label("How much").fill("2,5")
    desktop.get_by_label("To whom").fill("the food pantry")
    desktop.get_by_role("button", name="Keep").click()
    expect(desktop.get_by_text("given away to the food pantry")).to_be_visible()
    desktop.wait_for_function("() => document.querySelector('[data-sent]:not([hidden])')")
    log = WorkLog.objects.get()
    assert (log.amount, log.given_to) == (2.5, "the food pantry")
    desktop.goto(log.get_absolute_url())
    check(desktop)
    desktop.get_by_role("link", name="Change it").click()
    check(desktop)
    desktop.get_by_label("How much").fill("9999")
    desktop.get_by_role("button", name="Keep it so").click()
    expect(desktop.get_by_text("9999 lb from one plot in one picking cannot be")).to_be_visible()
    for path in ("measures/", "neighbours/"):
        desktop.goto(f"/g/linden-row/{path}")
        check(desktop)
