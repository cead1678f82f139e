import pytest

from plots.first_visit import code_matches, start_code
from plots.models import Garden, Installation, Membership, SignInFailure, User

ADDRESS = "/start/"


def answers(settings, **changes):
    return {
        "code": start_code(settings.SECRET_KEY).lower(),
        "person": "Thị Ánh",
        "name": "Linden Row",
        "time_zone": "America/Denver",
        "latitude": "40.5",
        **changes,
    }


def test_the_code_is_the_same_in_every_process_and_differs_by_installation():
    assert start_code("one secret") == start_code("one secret")
    assert start_code("one secret") != start_code("another")


@pytest.mark.parametrize("change", [str, str.lower, lambda code: code.replace("-", " ")])
def test_the_code_may_be_typed_as_people_type(change):
    assert code_matches(change(start_code("s")), "s")


@pytest.mark.parametrize("typed", ["", "é", start_code("other")])
def test_another_code_does_not_match(typed):
    assert not code_matches(typed, "s")


@pytest.mark.django_db
def test_a_fresh_installation_leads_to_the_first_visit(client):
    assert client.get("/", follow=True).redirect_chain == [(ADDRESS, 302)]


@pytest.mark.django_db
def test_the_first_visitor_makes_the_garden_and_runs_it(client, settings, time_machine):
    time_machine.move_to("2024-01-01T03:00:00Z", tick=False)
    response = client.post(ADDRESS, answers(settings))
    garden = Garden.objects.get()
    assert (response.status_code, response.headers["Location"]) == (302, "/g/linden-row/setup/")
    assert (garden.name, garden.latitude, garden.slug) == ("Linden Row", 40.5, "linden-row")
    person = User.objects.get()
    assert (person.name, person.sign_in_name, person.is_staff) == ("Thị Ánh", "thị.ánh", True)
    assert not person.has_usable_password()
    assert [m.role for m in Membership.objects.all()] == ["coordinator"]
    assert [season.name for season in garden.seasons.all()] == ["2023"]
    assert client.get("/g/linden-row/").status_code == 200


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("changes", "field"),
    [({"code": "WRONG"}, "code"), ({"latitude": "91"}, "latitude"), ({"name": ""}, "name")],
)
def test_mistakes_stand_beside_their_field_and_nothing_is_made(client, settings, changes, field):
    response = client.post(ADDRESS, answers(settings, **changes))
    assert response.status_code == 422
    assert list(response.context["form"].errors) == [field]
    assert "Thị Ánh" in response.content.decode()
    assert not User.objects.exists()


@pytest.mark.django_db
def test_guessing_the_code_is_stopped(client, settings):
    client.post(ADDRESS, answers(settings, code="WRONG"))
    assert set(SignInFailure.objects.values_list("failures", flat=True)) == {1}
    SignInFailure.objects.update(failures=10)  # as if nine more had been wrong; each page takes a while
    response = client.post(ADDRESS, answers(settings))
    assert response.status_code == 422
    assert "Too many attempts" in response.content.decode()
    assert not Garden.objects.exists()


@pytest.mark.django_db
def test_a_second_founder_is_refused(client, settings):
    Installation.objects.create()
    response = client.post(ADDRESS, answers(settings))
    assert response.status_code == 422
    assert "Somebody else has just set this installation up." in response.content.decode()
    assert not User.objects.exists()
