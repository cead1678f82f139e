"""From a station's file to the frost risk of one date, on a phone and at a desk."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE
from tests.browser.looking import check
from tests.schedules.records import CHAMPION

REFUSED = {"name": "own.csv", "mimeType": "text/csv", "buffer": b"date,tmin\n2024-01-01,3\n"}


def test_a_coordinator_imports_a_record_and_a_date_is_moved(page: Page, cast, enter):
    enter(page, cast.coordinator)
    page.goto("/g/linden-row/frost/")
    page.get_by_role("link", name="Say where the frost dates come from").click()
    check(page)
    page.get_by_role("link", name="Import a station's record").click()
    check(page)
    page.get_by_label("The station's file").set_input_files(files=[REFUSED])
    page.get_by_label("Name of the station").fill("Champion, Nebraska")
    page.get_by_role("button", name="Read and keep it").click()
    expect(page.get_by_text("Line 2: the units are not stated")).to_be_visible()
    expect(page.get_by_label("Name of the station")).to_have_value("Champion, Nebraska")
    check(page)

    page.get_by_label("The station's file").set_input_files(CHAMPION)
    page.get_by_role("button", name="Read and keep it").click()
    expect(page.get_by_text("kept up to Dec. 31, 2018")).to_be_visible()
    check(page)
    page.get_by_role("link", name="See the garden's frost risk").click()
    page.get_by_label("Date (any year)").fill("2026-05-10")
    answer = page.locator("main").get_by_role("status")
    expect(answer).to_contain_text("came in 18 of 37 years, 49 %")
    page.get_by_role("link", name="a week later").click()
    expect(answer).to_contain_text("on or after May 17 came in 7 of 37 years")
    expect(page.get_by_label("Date (any year)")).to_have_value("2026-05-17")
    page.get_by_label("Freeze at or below").select_option(label="28 °F")
    expect(answer).to_contain_text("28 °F or colder) on or after May 17")
    for summary in page.locator("summary").all():
        summary.click()
    check(page)
    page.goto("/g/linden-row/frost/source/")
    check(page)


@pytest.mark.parametrize(
    ("sheet", "choice"), [("table", "The chance of a freeze"), ("mean", None), ("offset", "colder")]
)
def test_the_typed_forms_fit_and_explain_themselves(page: Page, cast, enter, sheet, choice):
    enter(page, cast.coordinator)
    page.goto(f"/g/linden-row/frost/source/{sheet}/")
    check(page)
    if choice:
        page.get_by_label(choice).check()
    page.locator("main button.action").click()
    expect(page.locator("main .error").first).to_be_visible()
    check(page)


def test_the_date_moves_without_javascript(new_page, cast, enter):
    page = new_page(**PHONE, java_script_enabled=False)
    enter(page, cast.coordinator)
    page.goto("/g/linden-row/frost/source/mean/")
    page.get_by_label("Mean last freeze of spring").fill("9 May")
    page.get_by_role("button", name="Keep them and plan by them").click()
    page.get_by_label("Date (any year)").fill("2026-05-09")
    page.get_by_role("button", name="Show").click()
    expect(page.get_by_role("status").last).to_contain_text("May 9 comes in about 50 of 100 years")
    page.get_by_role("link", name="a week later").click()
    expect(page.get_by_role("status").last).to_contain_text("on or after May 16 comes in about")
