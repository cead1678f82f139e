"""Pages of the crops: found, read with their sources, and a garden's own kept by its coordinators."""

import pytest
from django.urls import reverse

from crops.models import Crop
from crops.service import update_catalogue
from tests.factories import CropFactory, GardenFactory, PlantingFactory, VarietyFactory
from tests.texts import plain

CROPS = "/g/linden-row/crops/"
NEW = f"{CROPS}new/"
OCA = {"name": "Oca", "hardiness": "tender", "method": "vegetative"}


@pytest.fixture
def catalogue(db):
    update_catalogue()


def text(response):
    return plain(response.content.decode())


def names(response):
    return [crop.name for crop in response.context["shown"].rows]


def test_a_member_reads_the_whole_list_and_looks_in_it(cast, catalogue, as_user):
    client = as_user(cast.member)
    response = client.get(CROPS)

    assert len(names(response)) == 56
    assert "<i>Eruca vesicaria</i> subsp. <i>sativa</i>" in text(response)
    assert "Add a crop of our own" not in text(response)

    asked = {
        "q=bean pole": ["Bean, snap, pole"],
        "q=PHASEOLUS vulgaris": ["Bean, snap, bush", "Bean, snap, pole"],
        "family=Amaranthaceae&hardiness=hardy": ["Spinach"],
        "method=vegetative&hardiness=very-tender": ["Sweet potato (slips)"],
        "q=dragonfruit": [],
        "method=magic&q=okra": ["Okra"],
    }
    assert {query: names(client.get(f"{CROPS}?{query}")) for query in asked} == asked
    assert "Look with fewer words" in text(client.get(f"{CROPS}?q=dragonfruit"))

    query = {"q": "pole", "sort": "-family", "as": "csv"}
    table = client.get(CROPS, query).content.decode("utf-8-sig").splitlines()
    assert table == [
        "Crop,Botanical name,Family,Hardiness,Started,This garden’s own,Our varieties",
        '"Bean, snap, pole",Phaseolus vulgaris,Fabaceae,tender,sown where it grows,0,',
    ]


def test_an_empty_catalogue_says_who_loads_it(cast, as_user):
    assert "manage.py catalogue" in text(as_user(cast.member).get(CROPS))


def test_a_crop_shows_every_fact_with_its_source_in_the_gardens_units(cast, catalogue, as_user):
    page = text(as_user(cast.member).get(f"{CROPS}tomato/"))

    assert "60–85 °F" in page
    assert "65–90 days, from transplanting" in page
    for words in ("seen", "partly from memory", "value from memory", "Oregon State University Extension"):
        assert words in page
    assert "Knott&#x27;s Handbook for Vegetable Growers" in page
    assert reverse("schedules:when_crop", args=["linden-row", "tomato"]) in page

    cast.garden.units = "metric"
    cast.garden.save()
    page = text(as_user(cast.member).get(f"{CROPS}tomato/"))

    assert "15.6–29.4 °C" in page
    assert "°F" not in page


def test_published_tables_stand_as_printed_rivals_apart_and_a_relatives_says_whose_it_is(
    cast, catalogue, as_user
):
    page = text(as_user(cast.member).get(f"{CROPS}bean-lima/"))

    assert "none came up" in page
    assert "not tested" in page
    assert "50 °F: High and Dry Farm prints 1 percent normal seedlings and no days" in page
    assert page.count("maximum equals the top of the optimum range: as printed") == 1
    assert page.index("UC Cooperative Extension Sacramento County</a>") < page.index("Grit magazine</a>")
    assert "as the table gives it for: Cabbage" in text(as_user(cast.member).get(f"{CROPS}kale/"))


def test_every_crop_of_the_catalogue_has_its_page(cast, catalogue, as_user):
    client = as_user(cast.member)
    for crop in Crop.objects.all():
        assert f"<h1>{crop.name}</h1>" in text(client.get(f"{CROPS}{crop.slug}/"))


@pytest.mark.parametrize("rows", [1, 3])
def test_pages_take_as_many_queries_with_three_rows_as_with_one(
    cast, as_user, rows, django_assert_num_queries
):
    for _ in range(rows):
        VarietyFactory(garden=cast.garden, crop=CropFactory(slug=f"crop-{_}"))
    VarietyFactory.create_batch(rows, garden=cast.garden, crop=Crop.objects.get(slug="crop-0"))
    client = as_user(cast.coordinator)

    with django_assert_num_queries(6):
        client.get(CROPS)
    with django_assert_num_queries(9):
        client.get(f"{CROPS}crop-0/")


def test_other_gardens_see_neither_the_page_nor_the_crop(cast, as_user):
    own = CropFactory(garden=cast.garden)
    assert as_user(cast.stranger).get(CROPS).status_code == 404
    assert as_user(cast.stranger).get(f"/g/other-side/crops/{own.slug}/").status_code == 404
    assert as_user(cast.member).get(f"{CROPS}{own.slug}/").status_code == 200


@pytest.mark.parametrize("path", ["new/", "own-oca/edit/", "own-oca/remove/"])
def test_only_coordinators_change_crops(cast, as_user, path):
    CropFactory(garden=cast.garden, slug="own-oca", name="Oca")
    for person, status in ((cast.holder, 403), (cast.helper, 403), (cast.other_coordinator, 404)):
        response = as_user(person).post(f"{CROPS}{path}", OCA)
        assert response.status_code == status
    assert Crop.objects.count() == 1


def test_a_crop_of_the_catalogue_is_not_a_garden_s_to_change(cast, as_user):
    CropFactory(slug="kale")
    client = as_user(cast.coordinator)

    assert client.post(f"{CROPS}kale/edit/", OCA).status_code == 404
    assert client.post(f"{CROPS}kale/remove/").status_code == 404


def test_a_coordinator_adds_a_crop_in_the_garden_units(cast, catalogue, as_user):
    typed = OCA | {"sow_depth_m": "2 1/2", "kill_c": "28", "maturity_days_low": "180",
                   "maturity_days_high": "200", "maturity_from": "sow", "perennial": "on"}  # fmt: skip
    response = as_user(cast.coordinator).post(NEW, typed, follow=True)

    crop = Crop.objects.get(garden=cast.garden)
    assert response.redirect_chain == [(f"{CROPS}own-oca/", 302)]
    assert "Oca is saved." in text(response)
    assert (crop.sow_depth_m, crop.kill_c, crop.maturity_days_low, crop.perennial) == (
        0.0635,
        -2.222222222,
        180,
        True,
    )
    assert "2 1/2 in" in text(response)
    assert "this garden’s own" in text(response)


def test_what_is_wrong_stands_beside_its_field_and_nothing_typed_is_lost(cast, as_user):
    typed = OCA | {"sow_depth_m": "deep", "kill_c": "500", "maturity_days_low": "90",
                   "maturity_days_high": "80", "maturity_from": "sow", "sow_weeks_early": "-2"}  # fmt: skip
    response = as_user(cast.coordinator).post(NEW, typed)
    form = response.context["form"]

    assert response.status_code == 422
    assert plain(form.errors["sow_depth_m"][0]) == "“deep” cannot be read. Write it like 1/4 or 1/4 in."
    assert plain(form.errors["kill_c"][0]) == "This is too much: at most 140 °F."
    assert plain(form.errors["maturity_days_low"][0]) == (
        "“Days to maturity, at least” (90 days) cannot be more than “Days to maturity, at most” (80 days)."
    )
    assert list(form.errors["sow_weeks_late"]) == [
        "“Sow outdoors, from” is given, so this must be given too; the same figure will do."
    ]
    for value in ("deep", "500", "90", "80", "-2", "Oca"):
        assert f'value="{value}"' in text(response)
    assert not Crop.objects.exists()


def test_days_to_maturity_need_the_day_they_count_from(cast, as_user):
    response = as_user(cast.coordinator).post(
        NEW, OCA | {"maturity_days_low": "9", "maturity_days_high": "9"}
    )

    assert list(response.context["form"].errors["maturity_from"]) == [
        "Say from which day the days to maturity are counted."
    ]


def test_a_garden_has_one_crop_of_a_name(cast, as_user):
    CropFactory(garden=cast.garden, name="Oca")
    CropFactory(garden=GardenFactory(), name="Ulluco")
    client = as_user(cast.coordinator)

    taken, free = client.post(NEW, OCA | {"name": "  oca "}), client.post(NEW, OCA | {"name": "Ulluco"})
    assert list(taken.context["form"].errors["name"]) == ["This garden already has a crop of this name."]
    assert free.status_code == 302


def test_a_crop_is_changed_with_what_was_there_in_the_fields(cast, as_user):
    CropFactory(garden=cast.garden, slug="own-oca", name="Oca", sow_depth_m=0.00635, soil_min_c=4.4)
    client = as_user(cast.coordinator)
    page = text(client.get(f"{CROPS}own-oca/edit/"))
    assert 'value="1/4"' in page
    assert 'value="40"' in page

    client.post(f"{CROPS}own-oca/edit/", OCA | {"sow_depth_m": "1/4"})

    crop = Crop.objects.get()
    assert (crop.sow_depth_m, crop.soil_min_c, crop.hardiness) == (0.00635, None, "tender")


def test_a_crop_is_removed_or_says_why_not(cast, as_user):
    planted, free = (
        CropFactory(garden=cast.garden, slug="own-a", name="Oca"),
        CropFactory(garden=cast.garden, slug="own-b"),
    )
    PlantingFactory(plot=cast.plot, crop=planted)
    client = as_user(cast.coordinator)

    refused = client.post(f"{CROPS}own-a/remove/", follow=True)
    client.post(f"{CROPS}own-b/remove/")

    assert "Oca cannot be removed: 1 planting is of it, and needs its figures." in text(refused)
    assert list(Crop.objects.values_list("slug", flat=True)) == [planted.slug]
    assert free.slug == "own-b"
