import pytest
from django.urls import reverse

from plots.models import Garden, Season
from tests.factories import GardenFactory, UserFactory

pytestmark = pytest.mark.django_db
SETTINGS = {
    "name": "Linden Row",
    "place": "Alder Crossing",
    "time_zone": "America/Denver",
    "latitude": "40.5",
    "longitude": "-101.6",
    "elevation_m": "3,300",
    "units": "us",
    "paper": "letter",
    "nerve": "",
    "row_cover_c": "2",
}


@pytest.fixture
def run(cast, as_user):
    return as_user(cast.coordinator)


def test_the_front_page_says_what_a_person_can_do_there(cast, as_user):
    pages = {
        name: as_user(getattr(cast, name)).get("/g/linden-row/").content.decode()
        for name in ("holder", "member", "coordinator")
    }
    assert ["Plot A1" in page for page in pages.values()] == [True, False, False]
    assert ["Running the garden" in page for page in pages.values()] == [False, False, True]
    assert "You hold no plot yet" in pages["member"]


def test_settings_are_kept_in_si(run, cast):
    data = {**SETTINGS, "elevation_m": "3300 ft", "nerve": "careful", "paper": "a4"}
    assert run.post("/g/linden-row/settings/", data).status_code == 302
    garden = Garden.objects.get(pk=cast.garden.pk)
    assert (round(garden.elevation_m, 2), garden.nerve, garden.paper) == (1005.84, "careful", "a4")


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"latitude": "-90.5"}, "latitude"),
        ({"latitude": "north"}, "latitude"),
        ({"longitude": "181"}, "longitude"),
        ({"elevation_m": "40000 ft"}, "elevation_m"),
        ({"time_zone": "Mars/Base"}, "time_zone"),
        ({"units": "cubits"}, "units"),
        ({"name": ""}, "name"),
    ],
)
def test_wrong_settings_change_nothing(run, cast, changes, field):
    response = run.post("/g/linden-row/settings/", {**SETTINGS, "elevation_m": "", **changes})
    assert response.status_code == 422
    assert list(response.context["form"].errors) == [field]
    assert response.context["garden"].name == "Linden Row"
    assert Garden.objects.get(pk=cast.garden.pk).place == ""


def test_a_season_is_added_and_changed(run, cast):
    data = {"name": "2025", "starts_on": "2025-03-01", "ends_on": "2025-11-30"}
    run.post("/g/linden-row/seasons/new/", data)
    season = Season.objects.get(garden=cast.garden, name="2025")
    address = reverse("plots:season_edit", args=["linden-row", season.pk])
    run.post(address, {**data, "ends_on": "2025-12-01"})
    season.refresh_from_db()
    assert season.ends_on.isoformat() == "2025-12-01"
    assert "2025" in run.get("/g/linden-row/settings/").content.decode()


@pytest.mark.parametrize(
    ("changes", "field", "sentence"),
    [
        ({"ends_on": "2025-03-01"}, "ends_on", "The last day must come after the first."),
        ({"name": "Old"}, "name", "This garden already has a season of this name."),
    ],
)
def test_a_wrong_season_is_explained(run, cast, changes, field, sentence):
    Season.objects.create(garden=cast.garden, name="Old", starts_on="2020-01-01", ends_on="2020-12-31")
    data = {"name": "2025", "starts_on": "2025-03-01", "ends_on": "2025-11-30", **changes}
    response = run.post("/g/linden-row/seasons/new/", data)
    assert response.status_code == 422
    assert response.context["form"].errors == {field: [sentence]}


def test_the_keeper_makes_another_garden_and_runs_it(client):
    client.force_login(UserFactory(is_staff=True))
    GardenFactory(slug="hill")
    data = {key: SETTINGS[key] for key in ("place", "time_zone", "latitude", "units", "paper")}
    response = client.post("/gardens/new/", {"name": "Hill", **data})
    assert response.headers["Location"] == "/g/hill-2/setup/"
    assert client.get("/g/hill-2/settings/").status_code == 200


@pytest.mark.parametrize(("name", "slug"), [("Ελιά", "garden"), ("Étang & Co", "etang-co")])
def test_every_name_gets_an_address(client, name, slug):
    client.force_login(UserFactory(is_staff=True))
    data = {key: SETTINGS[key] for key in ("time_zone", "latitude")}
    assert client.post("/gardens/new/", {"name": name, **data}).headers["Location"] == f"/g/{slug}/setup/"
