from datetime import timedelta

import pytest
from django.conf import settings
from django.urls import reverse
from django.utils import timezone

from plots import service
from plots.models import SignInFailure, SignInLink
from tests.factories import MembershipFactory, UserFactory

pytestmark = pytest.mark.django_db
PASSWORD = "seven wet trowels"
ADDRESS = "/sign-in/"


@pytest.fixture
def ann():
    user = UserFactory(name="Ann", sign_in_name="ann", email="ann@example.org")
    user.set_password(PASSWORD)
    user.save()
    MembershipFactory(user=user)
    return user


def signed_in(client) -> bool:
    return client.get("/account/").status_code == 200


def path_of(link: str) -> str:
    return link.removeprefix(settings.SITE.origin)


@pytest.mark.parametrize("account", ["ann", "ANN ", "Ann@Example.org"])
def test_a_name_or_an_email_and_a_password_sign_in(client, ann, account):
    response = client.post(ADDRESS, {"account": account, "password": PASSWORD})
    assert (response.status_code, response.headers["Location"]) == (302, "/")
    assert signed_in(client)
    assert client.session.get_expiry_age() > 200 * 86400


def test_on_a_shared_device_the_session_ends_with_the_browser(client, ann):
    client.post(ADDRESS, {"account": "ann", "password": PASSWORD, "shared": "on"})
    assert client.session.get_expire_at_browser_close()


@pytest.mark.parametrize(
    ("account", "password"), [("ann", "wrong"), ("nobody", PASSWORD), ("a@b.c", PASSWORD)]
)
def test_a_wrong_pair_says_the_same_whoever_exists(client, ann, account, password):
    response = client.post(ADDRESS, {"account": account, "password": password})
    assert response.status_code == 422
    assert response.context["form"].errors == {"password": ["The name and the password do not go together."]}
    assert f'value="{account}"' in response.content.decode()
    assert not signed_in(client)


def test_a_closed_account_does_not_sign_in_and_is_signed_out_elsewhere(client, ann):
    client.force_login(ann)
    ann.is_active = False
    ann.save()
    assert not signed_in(client)
    assert client.post(ADDRESS, {"account": "ann", "password": PASSWORD}).status_code == 422


def test_ten_wrong_passwords_stop_the_eleventh_attempt_even_a_right_one(client, ann, time_machine):
    time_machine.move_to("2024-05-01T12:00:00Z", tick=False)
    for _attempt in range(10):
        client.post(ADDRESS, {"account": "ann", "password": "wrong"})
    response = client.post(ADDRESS, {"account": "ann", "password": PASSWORD})
    assert response.context["form"].non_field_errors() == [
        "Too many attempts. Wait a quarter of an hour, or ask for a sign-in link."
    ]
    time_machine.move_to("2024-05-01T12:16:00Z", tick=False)
    assert client.post(ADDRESS, {"account": "ann", "password": PASSWORD}).status_code == 302


def test_ones_typing_errors_do_not_lock_a_neighbour_out(client, ann):
    for _attempt in range(10):
        client.post(ADDRESS, {"account": "bo", "password": "wrong"})
    assert client.post(ADDRESS, {"account": "ann", "password": PASSWORD}).status_code == 302


def test_a_claimed_forwarded_address_does_not_dodge_the_limit(client, ann):
    for n in range(10):
        client.post(
            ADDRESS, {"account": "ann", "password": "wrong"}, headers={"X-Forwarded-For": f"10.0.0.{n}"}
        )
    assert client.post(ADDRESS, {"account": "ann", "password": PASSWORD}).status_code == 422


def test_a_success_clears_its_own_count_and_leaves_no_trace_on_the_address(client, ann):
    for _attempt in range(9):
        client.post(ADDRESS, {"account": "ann", "password": "wrong"})
    client.post(ADDRESS, {"account": "ann", "password": PASSWORD})
    assert sorted(SignInFailure.objects.values_list("failures", flat=True)) == [9, 9]


@pytest.mark.parametrize(
    ("wanted", "goes"),
    [("/account/", "/account/"), ("https://evil.example/", "/"), ("//evil.example", "/"), ("", "/")],
)
def test_one_returns_to_the_page_asked_for_and_never_elsewhere(client, ann, wanted, goes):
    response = client.post(ADDRESS, {"account": "ann", "password": PASSWORD, "next": wanted})
    assert response.headers["Location"] == goes


def test_a_page_leads_to_the_sign_in_page_and_back(client, ann):
    assert client.get("/account/").headers["Location"] == "/sign-in/?next=/account/"


@pytest.mark.parametrize(
    ("before", "back"),
    [
        ("http://testserver/g/x/dues/?state=due", "/g/x/dues/%3Fstate%3Ddue"),
        ("http://evil.example/a", "/"),
        ("", "/"),
    ],
)
def test_what_was_pressed_after_the_session_ended_leads_back_to_its_page(client, ann, before, back):
    answer = client.post("/g/x/dues/draw-up/", headers={"Referer": before} if before else {})
    assert answer.headers["Location"] == f"/sign-in/?next={back}"


def test_a_part_asked_for_by_htmx_leaves_as_a_page(client, ann):
    response = client.get(
        "/account/", headers={"HX-Request": "true", "HX-Current-URL": "http://testserver/g/linden/week/"}
    )
    assert response.headers["HX-Redirect"] == "/sign-in/?next=%2Fg%2Flinden%2Fweek%2F"


def test_opening_a_link_uses_nothing_up_and_pressing_its_button_signs_in_once(client, ann, as_user):
    link = path_of(service.make_link(user=ann))
    for _look in range(3):
        response = client.get(link)
        assert response.status_code == 200
        assert "Come in" in response.content.decode()
        assert response.headers["Referrer-Policy"] == "same-origin"  # the link is told to no other site
        assert "no-store" in response.headers["Cache-Control"]
    assert not signed_in(client)
    assert client.post(link).headers["Location"] == "/"
    assert signed_in(client)
    other = as_user(None)
    assert "no longer works" in other.post(link).content.decode()
    assert "no longer works" in other.get(link).content.decode()
    assert not signed_in(other)


def test_a_link_is_kept_only_as_a_digest_and_names_the_site(ann):
    link = service.make_link(user=ann)
    assert link.startswith("http://127.0.0.1:8000/link/")
    assert SignInLink.objects.get().token_hash not in link


def test_a_link_expires(client, ann, time_machine):
    time_machine.move_to("2024-05-01T12:00:00Z", tick=False)
    link = path_of(service.make_link(user=ann, lasts=timedelta(hours=2)))
    time_machine.move_to("2024-05-01T14:00:00Z", tick=False)
    assert client.post(link).status_code == 422
    assert not signed_in(client)


def test_links_long_expired_are_forgotten(ann, time_machine):
    time_machine.move_to("2024-05-01T12:00:00Z", tick=False)
    service.make_link(user=ann)
    time_machine.move_to("2024-06-06T12:00:00Z", tick=False)
    service.make_link(user=ann)
    assert SignInLink.objects.count() == 2
    time_machine.move_to("2024-06-08T12:00:01Z", tick=False)
    service.make_link(user=ann)
    assert SignInLink.objects.count() == 2


def test_a_link_of_a_closed_account_does_not_work(client, ann):
    link = path_of(service.make_link(user=ann))
    ann.is_active = False
    ann.save()
    assert client.post(link).status_code == 422
    assert SignInLink.objects.get().used_at is None


def test_signing_in_changes_the_session_key(client, ann):
    client.get(ADDRESS)
    session = client.session
    session["before"] = 1
    session.save()
    before = session.session_key
    client.post(ADDRESS, {"account": "ann", "password": PASSWORD})
    assert client.session.session_key != before


def test_signing_out_ends_the_session_and_clears_what_the_browser_kept(client, ann):
    client.force_login(ann)
    response = client.post("/sign-out/")
    assert response.headers["Location"] == ADDRESS
    assert response.headers["Clear-Site-Data"] == '"cache"'
    assert not signed_in(client)
    assert client.get("/sign-out/").status_code == 405


def test_a_password_can_be_set_and_then_changed_by_who_knows_it(client, as_user):
    user = UserFactory()
    client.force_login(user)
    elsewhere = as_user(user)
    first = client.post("/account/", {"password": "yes", "new": PASSWORD})
    assert first.status_code == 302
    assert signed_in(client)
    assert not signed_in(elsewhere)
    wrong = client.post("/account/", {"password": "yes", "current": "no", "new": "eleven dry rakes"})
    assert wrong.context["password"].errors == {"current": ["This is not your present password."]}
    user.refresh_from_db()
    assert user.check_password(PASSWORD)


@pytest.mark.parametrize("new", ["short", "qwerty123456", "person name 12"])
def test_a_weak_password_is_refused_with_its_reason(client, new):
    user = UserFactory(name="Person Name 12")
    client.force_login(user)
    response = client.post("/account/", {"password": "yes", "new": new})
    assert response.status_code == 422
    assert list(response.context["password"].errors) == ["new"]


def test_one_may_change_ones_own_name_and_addresses(client):
    user = UserFactory()
    UserFactory(email="taken@example.org")
    client.force_login(user)
    data = {"name": "New Name", "sign_in_name": "newname", "email": "", "phone": "555 0100"}
    assert client.post("/account/", data).status_code == 302
    user.refresh_from_db()
    assert (user.name, user.sign_in_name, user.email, user.phone) == ("New Name", "newname", None, "555 0100")
    response = client.post("/account/", {**data, "email": "Taken@example.org", "sign_in_name": "a@b"})
    assert response.status_code == 422
    assert response.context["about"].errors == {
        "email": ["Somebody else already uses this email address."],
        "sign_in_name": ["Only an email address contains an @."],
    }
    assert client.get("/account/").context["request"].user.name == "New Name"


@pytest.mark.parametrize("gardens", [0, 1, 2])
def test_home_leads_to_the_one_garden_or_lets_one_choose(client, gardens):
    user = UserFactory()
    memberships = [MembershipFactory(user=user) for _n in range(gardens)]
    client.force_login(user)
    response = client.get("/")
    if gardens == 1:
        assert response.headers["Location"] == reverse("schedules:week", args=[memberships[0].garden.slug])
    else:
        assert list(response.context["gardens"]) == [m.garden for m in memberships]


def test_old_counts_are_forgotten(client, ann):
    client.post(ADDRESS, {"account": "ann", "password": "wrong"})
    SignInFailure.objects.update(since=timezone.now() - timedelta(hours=1))
    client.post(ADDRESS, {"account": "bo", "password": "wrong"})
    assert SignInFailure.objects.count() == 3
