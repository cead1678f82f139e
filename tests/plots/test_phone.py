"""What the garden gives a phone so that it works without signal; what it makes of it: tests/browser."""

import re

import pytest
from django.urls import reverse
from PIL import Image

from plots.phone import FILES, KEPT_PAGES, WORKER_FILES
from tests.factories import MembershipFactory
from tests.project.source import ROOT

pytestmark = pytest.mark.django_db
STATIC = ROOT / "static"


def test_a_phone_is_told_who_is_signed_in_and_never_from_what_it_kept(client, cast, as_user):
    nobody = client.get("/who/")
    assert {name: nobody.json()[name] for name in ("person", "name")} == {"person": None, "name": ""}
    somebody = as_user(cast.holder).get("/who/")
    assert (somebody.json()["person"], somebody.json()["name"]) == (cast.holder.pk, "Hollis")
    assert len(somebody.json()["csrf"]) == 64
    assert "no-store" in somebody.headers["Cache-Control"]


def test_the_proof_of_origin_opens_what_a_page_kept_long_ago_could_not(cast):
    from django.test import Client

    phone = Client(enforce_csrf_checks=True)
    phone.force_login(cast.holder)
    proof = phone.get("/who/").json()["csrf"]
    assert phone.post("/sign-out/").status_code == 403
    assert phone.post("/sign-out/", headers={"X-CSRFToken": proof}).status_code == 302


def test_the_worker_keeps_all_that_a_page_is_drawn_with(client, cast, as_user):
    answer = client.get("/sw.js")
    assert answer.headers["Content-Type"] == "text/javascript; charset=utf-8"
    assert answer.headers["Cache-Control"] == "no-cache"
    script = answer.content.decode()
    form = as_user(cast.holder).get("/g/linden-row/log/")
    page = client.get("/phone/").content.decode() + form.content.decode()
    drawn = set(re.findall(r'(?:href|src)="/static/([^"]+)"', page))
    assert drawn - {"icons/trug-touch-180.png"} == set(FILES) - {
        "trug.svg"
    }  # the icon is the system's to fetch
    assert [name for name in (*FILES, *WORKER_FILES) if f"/static/{name}" not in script] == []
    assert all((STATIC / name).exists() for name in FILES if not name.startswith("django_htmx/"))


@pytest.mark.parametrize(
    ("name", "arguments", "kept"),
    [
        ("plots:home", [], True),
        ("schedules:week", ["linden-row"], True),
        ("plots:plot", ["linden-row", 4], True),
        ("schedules:plan", ["linden-row", 4], True),
        ("schedules:planting", ["linden-row", 4], True),
        ("schedules:when_crop", ["linden-row", "chard"], True),
        ("plots:plot_edit", ["linden-row", 4], False),
        ("plots:plots", ["linden-row"], False),
        ("plots:members", ["linden-row"], False),
        ("plots:matters", ["linden-row"], False),
        ("plots:waiting", ["linden-row"], False),
        ("plots:account", [], False),
        ("plots:sign_in", [], False),
    ],
)
def test_pages_of_the_plot_are_kept_and_those_about_people_are_not(name, arguments, kept):
    path = reverse(name, args=arguments).removeprefix("/")
    assert any(re.search(pattern, path) for pattern in KEPT_PAGES) is kept


def test_the_app_is_installed_with_shortcuts_to_the_logs_of_ones_own_gardens(client, cast, as_user):
    nobody = client.get("/manifest.webmanifest")
    assert nobody.headers["Content-Type"] == "application/manifest+json"
    about = nobody.json()
    assert (about["start_url"], about["scope"], about["display"]) == ("/", "/", "standalone")
    assert about["shortcuts"] == []
    for icon in about["icons"]:
        with Image.open(STATIC / icon["src"].removeprefix("/static/")) as drawn:
            assert f"{drawn.width}x{drawn.height}" == icon["sizes"]
    assert [icon["purpose"] for icon in about["icons"]] == ["any", "any", "maskable"]
    own = as_user(cast.holder)
    assert [(one["name"], one["url"]) for one in own.get("/manifest.webmanifest").json()["shortcuts"]] == [
        ("Watered", "/g/linden-row/log/?work=water"),
        ("Picked", "/g/linden-row/log/?work=harvest"),
        ("Weeded", "/g/linden-row/log/?work=weed"),
        ("A note", "/g/linden-row/log/?work=note"),
    ]
    MembershipFactory(user=cast.holder, garden=cast.other_coordinator.memberships.get().garden)
    assert [(one["name"], one["url"]) for one in own.get("/manifest.webmanifest").json()["shortcuts"]] == [
        ("Linden Row", "/g/linden-row/log/"),
        ("Other Side", "/g/other-side/log/"),
    ]


def test_a_page_says_whose_it_is_so_that_it_is_kept_for_them_alone(client, cast, as_user):
    assert '<body data-person=""' in client.get("/sign-in/").content.decode()
    page = as_user(cast.holder).get("/g/linden-row/week/")
    assert f'<body data-person="{cast.holder.pk}"' in page.content.decode()
    assert page.headers["Cache-Control"] == "private, no-cache"


def test_texts_travel_compressed_and_nothing_else(client, cast, as_user):
    asked = {"Accept-Encoding": "gzip"}
    assert client.get("/sign-in/", headers=asked).headers["Content-Encoding"] == "gzip"
    paper = as_user(cast.holder).get(f"/g/linden-row/print/calendar.pdf?plots={cast.plot.pk}", headers=asked)
    assert (paper.status_code, paper.headers["Content-Type"]) == (200, "application/pdf")
    assert "Content-Encoding" not in paper.headers


def test_a_phone_whose_session_has_ended_is_told_so_in_a_way_it_understands(client, cast):
    answer = client.post("/g/linden-row/plots/1/plan/", headers={"Accept": "application/json"})
    assert (answer.status_code, answer.json()) == (401, {"sign_in": "/sign-in/"})
    assert client.get("/account/", headers={"Accept": "text/html, */*"}).status_code == 302
