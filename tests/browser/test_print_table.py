"""The print table as people use it: choosing shows a sheet, printing keeps it, everyone's in one file."""

from __future__ import annotations

from io import BytesIO

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from schedules.models import Printing
from schedules.service.print_table import keeping
from tests.browser.conftest import PHONE
from tests.browser.looking import check
from tests.cast import Cast
from tests.schedules.samples import carrot, planted, set_mean_frost

TABLE = "/g/linden-row/print/"


@pytest.fixture
def garden(cast: Cast) -> Cast:
    set_mean_frost(cast.garden)
    planted(cast.plot, carrot(), year=cast.garden.today().year)
    return cast


def test_what_is_chosen_is_shown_at_once_and_printed(garden, page: Page, enter):
    enter(page, garden.holder)
    page.goto("/g/linden-row/")
    page.get_by_role("link", name="Print table").click()
    page.wait_for_url(f"**{TABLE}")
    check(page)
    page.get_by_role("link", name="When to plant here, by crop").click()
    expect(page.get_by_role("region", name="The sheet")).to_contain_text("Linden Row")
    check(page)

    page.get_by_label("a guest's own garden").check()
    expect(page.get_by_text("Write one frost date or both")).to_be_visible()
    check(page)
    page.get_by_label("Name of the place").fill("Owl Hill")
    page.get_by_label("Last frost in spring").fill("Smarch 3")
    page.get_by_label("Last frost in spring").press("Enter")
    expect(page.get_by_text("“Smarch 3” is not a day of the year.")).to_be_visible()
    check(page)
    page.get_by_label("Last frost in spring").fill("April 20")
    page.get_by_label("Last frost in spring").press("Enter")
    expect(page.get_by_role("region", name="The sheet")).to_contain_text("Owl Hill")
    page.wait_for_url(lambda url: "Owl" in url)
    check(page)
    page.reload()
    expect(page.get_by_label("Name of the place")).to_have_value("Owl Hill")

    page.route("**/favicon.ico", lambda asked: asked.fulfill(status=204))  # by Chromium's own page of a PDF
    with page.expect_response(lambda answer: answer.url.endswith(".pdf")):
        page.get_by_role("button", name="Print", exact=True).click()
    page.goto(f"{TABLE}before/")
    page.get_by_role("link", name="When to plant here, by crop").click()
    page.wait_for_url(f"**{TABLE}before/*/")
    check(page)
    kept = page.request.get(page.get_by_role("link", name="Open the PDF").get_attribute("href"))
    assert "Owl Hill" in PdfReader(BytesIO(kept.body())).pages[0].extract_text()
    assert kept.body() == Printing.objects.get().file.open("rb").read()


def test_everyones_are_made_by_the_page_itself_and_by_hand_without_scripts(
    garden, desktop: Page, new_page, enter, monkeypatch
):
    monkeypatch.setattr(keeping, "TOGETHER", 1)
    monkeypatch.setattr(keeping, "ONE_BY_ONE", 2)
    enter(desktop, garden.coordinator)
    desktop.goto(f"{TABLE}calendar/")
    desktop.get_by_label("For whom").select_option("everyone")
    desktop.get_by_role("button", name="Make everyone's sheets").click()
    expect(desktop.get_by_role("link", name="Open the PDF")).to_be_visible()
    check(desktop)

    plain = new_page(**PHONE, java_script_enabled=False)
    enter(plain, garden.coordinator)
    plain.goto(f"{TABLE}your-year/?member=everyone")
    plain.get_by_role("button", name="Make everyone's sheets").click()
    count = garden.garden.memberships.count()
    for made in range(0, count, 2):
        expect(plain.get_by_text(f"Made: {made} of {count}")).to_be_visible()
        plain.get_by_role("button", name="Go on").click()
    plain.get_by_role("button", name="Go on").click()
    expect(plain.get_by_role("link", name="Open the PDF")).to_be_visible()
    assert [row.is_ready for row in Printing.objects.all()] == [True, True]
