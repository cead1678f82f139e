"""Varieties: what differs is typed, what does not stays the crop's, and both are shown."""

import pytest

from crops.models import Crop, Variety
from crops.service import update_catalogue
from tests.factories import CropFactory, GardenFactory, PlantingFactory, VarietyFactory
from tests.texts import plain

KALE = "/g/linden-row/crops/kale/"
NEW = f"{KALE}varieties/new/"


@pytest.fixture
def kale(db):
    return CropFactory(
        slug="kale", name="Kale", sow_depth_m=0.00635, soil_min_c=4.4, soil_max_c=29.4, fall_crop=True,
        maturity_days_low=50, maturity_days_high=65, maturity_from="sow",
        sow_weeks_early=-6, sow_weeks_late=2,
    )  # fmt: skip


def text(response):
    return plain(response.content.decode())


def test_the_form_shows_the_crop_s_figure_beside_each_blank_field(cast, kale, as_user):
    page = text(as_user(cast.coordinator).get(NEW))

    for said in (
        "1/4 in",
        "40 °F",
        "50 days",
        "hardy",
        "yes",
        "6 weeks before the mean last frost",
        "not known",
    ):
        assert f"As the crop: {said}" in page


def test_a_blank_form_but_for_a_name_is_as_the_crop(cast, kale, as_user):
    response = as_user(cast.coordinator).post(NEW, {"name": "Lacinato"}, follow=True)

    variety = Variety.objects.get()
    assert response.redirect_chain == [(f"{KALE}varieties/{variety.pk}/", 302)]
    assert "Kale ‘Lacinato’ is saved." in text(response)
    assert variety.facts() == kale.facts()


def test_what_is_typed_overrides_any_fact(cast, kale, as_user):
    typed = {
        "name": "Lacinato", "note": "Packet", "sow_depth_m": "1 cm", "maturity_days_low": "60",
        "hardiness": "tender", "fall_crop": "false", "soil_min_c": "45.5", "thin_when": "they touch",
    }  # fmt: skip
    page = text(as_user(cast.coordinator).post(NEW, typed, follow=True))

    facts = Variety.objects.get().facts()
    assert (facts.sow_depth_m, facts.maturity_days_low, facts.maturity_days_high) == (0.01, 60, 65)
    assert (facts.hardiness, facts.fall_crop, facts.soil_min_c) == ("tender", False, 7.5)
    assert "the crop: 50–65 days, from sowing or setting" in page
    assert "this variety’s own" in page


def test_a_figure_must_agree_with_those_of_the_crop_that_stay(cast, kale, as_user):
    response = as_user(cast.coordinator).post(NEW, {"name": "Slow", "maturity_days_low": "70"})

    assert response.status_code == 422
    assert plain(response.context["form"].errors["maturity_days_low"][0]) == (
        "“Days to maturity, at least” (70 days) cannot be more than “Days to maturity, at most” (65 days)."
    )
    assert 'value="70"' in text(response)


def test_the_message_stands_where_something_was_typed(cast, kale, as_user):
    response = as_user(cast.coordinator).post(NEW, {"name": "Quick", "maturity_days_high": "40"})

    assert list(response.context["form"].errors) == ["maturity_days_high"]


def test_a_name_is_there_once_however_it_is_written(cast, kale, as_user):
    VarietyFactory(garden=cast.garden, crop=kale, name="Lacinato")
    VarietyFactory(garden=GardenFactory(), crop=kale, name="Redbor")
    client = as_user(cast.coordinator)

    taken, free = client.post(NEW, {"name": "LACINATO "}), client.post(NEW, {"name": "Redbor"})
    assert list(taken.context["form"].errors["name"]) == ["This garden already has a variety of this name."]
    assert free.status_code == 302


def test_editing_shows_what_was_typed_and_blank_gives_it_back_to_the_crop(cast, kale, as_user):
    variety = VarietyFactory(garden=cast.garden, crop=kale, name="Lacinato", soil_min_c=7.5, fall_crop=False)
    url, client = f"{KALE}varieties/{variety.pk}/edit/", as_user(cast.coordinator)

    page = text(client.get(url))
    assert 'value="45.5"' in page
    assert '<option value="false" selected>no</option>' in page

    client.post(url, {"name": "Lacinato"})
    variety.refresh_from_db()
    assert (variety.soil_min_c, variety.fall_crop) == (None, None)


def test_members_read_varieties_of_their_own_garden_only(cast, kale, as_user):
    variety = VarietyFactory(garden=cast.garden, crop=kale, name="Lacinato", maturity_days_low=60)
    page = as_user(cast.member).get(f"{KALE}varieties/{variety.pk}/")

    assert "60–65 days" in text(page)
    assert "Change this variety" not in text(page)
    assert as_user(cast.stranger).get(f"/g/other-side/crops/kale/varieties/{variety.pk}/").status_code == 404
    assert "Lacinato" not in text(as_user(cast.stranger).get("/g/other-side/crops/kale/"))


@pytest.mark.parametrize("path", ["new/", "{pk}/edit/", "{pk}/remove/"])
def test_only_coordinators_change_varieties(cast, kale, as_user, path):
    variety = VarietyFactory(garden=cast.garden, crop=kale, name="Lacinato")
    url = f"{KALE}varieties/{path.format(pk=variety.pk)}"

    for person, status in ((cast.holder, 403), (cast.helper, 403), (cast.other_coordinator, 404)):
        assert as_user(person).post(url, {"name": "Other"}).status_code == status
    assert list(Variety.objects.values_list("name", flat=True)) == ["Lacinato"]


def test_a_variety_is_removed_or_says_why_not(cast, kale, as_user):
    planted, free = (
        VarietyFactory(garden=cast.garden, crop=kale, name=name) for name in ("Lacinato", "Redbor")
    )
    PlantingFactory(plot=cast.plot, crop=kale, variety=planted)
    client = as_user(cast.coordinator)

    refused = client.post(f"{KALE}varieties/{planted.pk}/remove/", follow=True)
    removed = client.post(f"{KALE}varieties/{free.pk}/remove/", follow=True)

    assert "Kale ‘Lacinato’ cannot be removed: 1 planting is of it" in text(refused)
    assert "Kale ‘Redbor’ is removed." in text(removed)
    assert list(Variety.objects.all()) == [planted]


def test_every_fact_of_every_crop_can_be_overridden(cast, as_user):
    """A crop's facts, kept as a variety's and sent back from the form, stay what they are."""
    update_catalogue()
    client = as_user(cast.coordinator)
    for slug in ("tomato", "garlic", "asparagus", "carrot", "strawberry"):
        crop = Crop.objects.get(slug=slug)
        variety = VarietyFactory(garden=cast.garden, crop=crop, name="Same", **crop.stated())
        url = f"/g/linden-row/crops/{slug}/varieties/{variety.pk}/edit/"
        form = client.get(url).context["form"]
        typed = {field.html_name: field.value() for field in form if field.value() is not None}
        assert client.post(url, typed).status_code == 302
        variety.refresh_from_db()
        for name, value in crop.stated().items():
            kept = getattr(variety, name)
            assert kept == pytest.approx(value, abs=0.06) if isinstance(value, float) else kept == value
