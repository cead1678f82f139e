"""Reading and keeping crops, as people do it on a phone and at a desk."""

import pytest
from playwright.sync_api import expect

from crops.models import Crop, Variety
from crops.service import update_catalogue
from tests.browser.conftest import DESKTOP, PHONE
from tests.browser.looking import check
from tests.factories import CropFactory, VarietyFactory

CROPS = "/g/linden-row/crops/"


@pytest.fixture
def garden(cast):
    update_catalogue()
    return cast


def test_every_page_of_crops_can_be_used_by_everybody(page, garden, enter):
    variety = VarietyFactory(garden=garden.garden, crop=Crop.objects.get(slug="tomato"), maturity_days_low=55)
    CropFactory(garden=garden.garden, slug="own-oca", name="Oca")
    enter(page, garden.coordinator)
    one = f"tomato/varieties/{variety.pk}/"
    for path in ("", "tomato/", "bean-lima/", "own-oca/", "own-oca/edit/", "new/", one, f"{one}edit/"):
        page.goto(f"{CROPS}{path}")
        check(page)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_crop_can_be_read_in_either_light(new_page, garden, enter, scheme):
    page = new_page(**PHONE, color_scheme=scheme)
    enter(page, garden.member)
    page.goto(f"{CROPS}garlic/")
    check(page)


def test_the_list_narrows_while_one_types_and_the_address_follows(page, garden, enter):
    enter(page, garden.member)
    page.goto(CROPS)
    page.get_by_label("Find").press_sequentially("pepper")
    expect(page.locator(".list-count [role=status]")).to_have_text("2 of 56")
    expect(page.get_by_role("link", name="Pepper, hot")).to_be_visible()
    expect(page.get_by_role("link", name="Kale")).to_have_count(0)

    page.get_by_label("Find").fill("")
    page.locator("summary", has_text="Filter").click()
    page.get_by_label("Started").select_option("vegetative")
    expect(page.locator(".list-count [role=status]")).to_have_text("6 of 56")
    page.reload()
    expect(page.locator(".list-count [role=status]")).to_have_text("6 of 56")


@pytest.mark.parametrize("device", [PHONE, DESKTOP])
def test_the_list_narrows_without_scripts_too(new_page, garden, enter, device):
    page = new_page(**device, java_script_enabled=False)
    enter(page, garden.member)
    page.goto(CROPS)
    page.get_by_label("Find").fill("pepper")
    page.get_by_role("button", name="Show").first.click()
    expect(page.locator(".list-count [role=status]")).to_have_text("2 of 56")


def test_a_number_leads_to_its_source(page, garden, enter):
    enter(page, garden.member)
    page.goto(f"{CROPS}tomato/")
    page.get_by_role("row", name="best soil temperature").get_by_role("link", name="source 2").click()
    expect(page.locator("#source-2")).to_be_in_viewport()
    expect(page.locator("#source-2")).to_contain_text("Oregon State University Extension")


def test_a_variety_is_made_mended_and_read(page, garden, enter):
    enter(page, garden.coordinator)
    page.goto(f"{CROPS}tomato/")
    page.get_by_role("link", name="Add a variety").click()
    page.get_by_label("Name of the variety").fill("Sungold")
    page.get_by_text("Ripening and picking").click()
    low, high = (
        page.get_by_label("Days to maturity, at least"),
        page.get_by_label("Days to maturity, at most"),
    )
    expect(low).to_have_accessible_description("As the crop: 65 days")
    low.fill("95")
    with page.expect_response(lambda response: response.status == 422):
        page.get_by_role("button", name="Save").click()

    expect(low).to_be_visible()
    expect(low).to_have_value("95")
    expect(low).to_have_accessible_description(
        "As the crop: 65 days “Days to maturity, at least” (95 days) cannot be more than "
        "“Days to maturity, at most” (90 days)."
    )
    check(page)

    low.fill("55")
    high.fill("60")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Tomato ‘Sungold’")
    expect(page.get_by_role("row", name="ripens in")).to_contain_text("55–60 days, from transplanting")
    expect(page.get_by_role("row", name="ripens in")).to_contain_text("the crop: 65–90 days")
    check(page)


def test_a_variety_goes_by_hand(phone, garden, enter):
    variety = VarietyFactory(garden=garden.garden, crop=Crop.objects.get(slug="kale"), name="Lacinato")
    enter(phone, garden.coordinator)
    phone.goto(f"{CROPS}kale/varieties/{variety.pk}/")
    phone.get_by_text("Remove this variety").click()
    phone.get_by_role("button", name="Remove it").click()
    expect(phone.get_by_text("Kale ‘Lacinato’ is removed.")).to_be_visible()
    assert not Variety.objects.exists()
