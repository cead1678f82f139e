import pytest
from django.http import HttpResponse
from django.test import Client, RequestFactory, override_settings

from plots.middleware import Language
from tests.factories import UserFactory

POLICY = (
    "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data:; object-src 'none'; "
    "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)


@pytest.mark.django_db
@pytest.mark.parametrize("address", ["/sign-in/", "/no/such/page", "/health/live"])
def test_every_answer_carries_the_policy(client, address):
    headers = client.get(address).headers
    assert headers["Content-Security-Policy"] == POLICY
    assert headers["X-Frame-Options"] == "DENY"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"


@pytest.mark.django_db
@override_settings(LANGUAGES=[("en", "English"), ("es", "Español")])
@pytest.mark.parametrize(
    ("chosen", "browser", "spoken"),
    [("es", "en", "es"), ("", "es", "es"), ("xx", "es", "es"), ("", "fr", "en")],
)
def test_a_persons_own_language_comes_before_the_browsers(chosen, browser, spoken):
    request = RequestFactory().get("/", headers={"Accept-Language": browser})
    request.user = UserFactory.build(language=chosen)
    answer = Language(lambda request: HttpResponse(request.LANGUAGE_CODE))(request)
    assert answer.content.decode() == spoken
    assert answer.headers["Content-Language"] == spoken


def test_a_wrong_host_is_refused_in_words(client):
    response = client.get("/sign-in/", headers={"Host": "evil.example"})
    assert response.status_code == 400
    assert "Trugbook answers only to its own address" in response.content.decode()


@pytest.mark.django_db
def test_a_form_without_its_proof_of_origin_names_the_setting():
    response = Client(enforce_csrf_checks=True).post("/sign-in/", {"account": "x"})
    assert response.status_code == 403
    assert "SITE_URL" in response.content.decode()


@pytest.mark.django_db
def test_a_fault_is_logged_and_said_in_words(client, monkeypatch, caplog):
    monkeypatch.setattr("plots.service.is_founded", lambda: 1 / 0)
    client.raise_request_exception = False
    with caplog.at_level("ERROR"):
        response = client.get("/")
    assert response.status_code == 500
    assert "Something went wrong here" in response.content.decode()


@pytest.mark.parametrize(("length", "status"), [("66000000", 302), ("66000001", 413), ("-1", 413)])
def test_what_is_far_too_large_is_refused_unread(length, status, db):
    answer = Client().post("/account/", CONTENT_LENGTH=length)
    assert answer.status_code == status
