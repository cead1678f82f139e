"""Planning a plot and reading its calendar, on a phone in the garden and at a desk."""

from io import BytesIO

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from crops.models import Crop, Planting
from crops.service import update_catalogue
from tests.browser.conftest import PHONE
from tests.browser.looking import check
from tests.factories import VarietyFactory
from tests.schedules.samples import planted, set_mean_frost


@pytest.fixture
def garden(cast, time_machine):
    """A Wednesday in April 2026, in a garden with the whole catalogue and mean frost dates."""
    time_machine.move_to("2026-04-22T18:00Z")
    update_catalogue()
    set_mean_frost(cast.garden)
    return cast


def crop(slug: str) -> Crop:
    return Crop.objects.get(slug=slug)


def test_a_member_adds_a_crop_reads_why_and_takes_the_calendar_along(page: Page, garden, enter):
    enter(page, garden.holder)
    expect(page.get_by_role("heading", level=1)).to_have_text("This week")
    page.get_by_role("link", name="Plan of plot A1").click()
    page.get_by_role("link", name="Add a crop").click()
    page.wait_for_load_state()
    page.get_by_label("Crop or family").press_sequentially("carr")
    expect(page.get_by_role("link", name="Kale")).to_have_count(0)
    page.get_by_role("link", name="Carrot").click()
    page.get_by_label("How many sowings").fill("40")
    page.get_by_role("textbox", name="Note").fill("by the fence")
    page.get_by_role("button", name="Add to plot A1").click()
    expect(page.get_by_label("How many sowings")).to_have_value("40")
    expect(page.get_by_role("textbox", name="Note")).to_have_value("by the fence")
    page.get_by_label("How many sowings").fill("2")
    page.get_by_role("button", name="Add to plot A1").click()
    expect(page.get_by_text("Carrot is in the plan.")).to_be_visible()
    check(page)

    planting = Planting.objects.get()
    page.locator("summary", has_text="Carrot").click()
    expect(page.get_by_text("mean last frost").first).to_be_visible()
    check(page)
    sheet = page.request.get(f"/g/linden-row/print/calendar.pdf?plots={garden.plot.pk}")
    assert "Carrot" in PdfReader(BytesIO(sheet.body())).pages[0].extract_text()

    page.goto(f"/g/linden-row/plantings/{planting.pk}/")
    check(page)
    page.get_by_role("button", name="Remove it from the plan").click()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Carrot is back in the plan.")).to_be_visible()


def test_all_of_it_works_without_scripts(new_page, garden, enter):
    page = new_page(**PHONE, java_script_enabled=False)
    VarietyFactory(garden=garden.garden, crop=crop("carrot"), name="Quick", maturity_days_low=40)
    enter(page, garden.holder)
    page.goto(f"/g/linden-row/plots/{garden.plot.pk}/plan/add/")
    page.get_by_label("Crop or family").fill("carrot")
    page.get_by_role("button", name="Find").click()
    page.get_by_role("link", name="Carrot").click()
    page.get_by_label("Variety").select_option("Quick")
    page.get_by_role("button", name="Show its dates").click()
    page.get_by_label("Autumn").check()
    page.get_by_role("button", name="Add to plot A1").click()
    page.locator("summary", has_text="Carrot ‘Quick’").click()
    page.get_by_role("link", name="Its dates, and why").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Carrot ‘Quick’")
    page.get_by_role("button", name="Remove it from the plan").click()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Carrot ‘Quick’ is back in the plan.")).to_be_visible()


def test_every_page_of_the_calendar_can_be_used_by_everybody(page: Page, garden, enter):
    planted(garden.plot, crop("tomato"), start="transplant", row_length_m=3)
    for slug in ("carrot", "lettuce-head", "kale"):
        planted(garden.plot, crop(slug), start="sow")
    planted(garden.plot, crop("garlic"), start="sow", turn="autumn")
    planted(garden.plot, crop("garlic"), start="sow", turn="autumn", year=2025)
    planting = planted(garden.plot, crop("okra"), start="sow", turn="autumn", note="will it?")
    plan = f"plots/{garden.plot.pk}/plan/"
    enter(page, garden.holder)
    for path in (
        "week/",
        "week/?day=2026-12-31",
        plan,
        f"{plan}?year=2031",
        f"{plan}add/",
        f"{plan}add/tomato/",
        f"plantings/{planting.pk}/",
        f"plantings/{planting.pk}/edit/",
        "when/",
        "when/?by=month",
        "when/tomato/",
        "feed/",
    ):
        page.goto(f"/g/linden-row/{path}")
        check(page)
    page.get_by_role("button", name="Make my address").click()
    expect(page.get_by_role("link", name="Open in this device's calendar")).to_be_visible()
    check(page)


def test_a_coordinator_walks_through_the_gardens_weeks(page: Page, garden, enter):
    planted(garden.plot, crop("carrot"), start="sow")
    planted(garden.plot, crop("tomato"), start="transplant")
    enter(page, garden.coordinator)
    expect(page.get_by_role("heading", level=1)).to_have_text("April 20 to April 26")
    check(page)
    page.get_by_label("Plot or crop").press_sequentially("tom")
    expect(page.get_by_text("Carrot")).to_have_count(0)
    page.get_by_role("link", name="By plot").click()
    expect(page.get_by_role("link", name="Plot A1")).to_be_visible()
    expect(page.get_by_text("Carrot")).to_have_count(0)
    check(page)
    page.get_by_role("link", name="The week after").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("April 27 to May 3")
    page.go_back()
    expect(page.get_by_role("heading", level=1)).to_have_text("April 20 to April 26")


def test_a_garden_without_frost_dates_leads_to_them(page: Page, garden, enter):
    garden.garden.climate.delete()
    planted(garden.plot, crop("carrot"), start="sow")
    enter(page, garden.coordinator)
    for path in ("week/", "when/", f"plots/{garden.plot.pk}/plan/?year=2026"):
        page.goto(f"/g/linden-row/{path}")
        check(page)
        page.get_by_role("link", name="Say where the frost dates come from").click()
        page.wait_for_url("**/frost/source/")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_plan_can_be_read_in_either_light(new_page, garden, enter, scheme):
    page = new_page(**PHONE, color_scheme=scheme)
    planted(garden.plot, crop("tomato"), start="transplant")
    enter(page, garden.holder)
    page.goto(f"/g/linden-row/plots/{garden.plot.pk}/plan/")
    check(page)
