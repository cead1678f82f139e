"""Cards, the emergency sheet, the hand-over pack, and a person's own data."""

import zipfile
from datetime import timedelta
from io import BytesIO

import pytest
from django.utils import timezone
from pypdf import PdfReader

from plots.models import Change, Delivery, MatterStep, Membership, Offer, SignInLink, User
from plots.service import open_matter, pause, take_step
from schedules.service.own_data import ways_to_a_person
from tests.factories import AssignmentFactory, MembershipFactory, PlotFactory, WaitingFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def run(cast, as_user):
    return as_user(cast.coordinator)


def text_of_pdf(response) -> str:
    assert (response.status_code, response.headers["Content-Type"]) == (200, "application/pdf")
    assert response.headers["Cache-Control"] == "private, no-store"
    return " ".join("\n".join(p.extract_text() for p in PdfReader(BytesIO(response.content)).pages).split())


def test_a_card_is_made_by_pressing_and_works_once(run, cast, as_user):
    pk = Membership.objects.get(user=cast.member, garden=cast.garden).pk
    address = f"/g/linden-row/members/{pk}/card.pdf"
    assert run.get(address).status_code == 405
    text = text_of_pdf(run.post(address))
    assert "Maren" in text
    link = SignInLink.objects.get()
    assert (link.user, (link.expires_at - link.made_at).days) == (cast.member, 30)
    token = text.replace(" ", "").split("/link/")[1].split("/")[0]
    assert as_user(None).post(f"/link/{token}/").headers["Location"] == "/"


def test_cards_for_all_leave_out_whoever_came_in_or_reaches_further(run, cast):
    MembershipFactory(user=cast.member)  # belongs to a third garden, too
    User.objects.filter(pk=cast.holder.pk).update(last_login="2026-01-01T00:00Z")
    text = text_of_pdf(run.post("/g/linden-row/print/invitation-cards/", {"paper": "a4"}))
    assert [name in text for name in ("Corin", "Hollis", "Maren")] == [True, False, False]


def test_the_emergency_sheet_names_who_is_to_be_called(run, cast):
    Membership.objects.filter(user=cast.holder).update(emergency_name="Hanna", emergency_phone="555 0111")
    text = text_of_pdf(run.get("/g/linden-row/print/emergency.pdf"))
    assert all(words in text for words in ("Hollis", "A1", "Hanna", "555 0111"))
    assert f"This garden is at: {cast.garden.place}" in text


def test_without_an_agreement_nobody_is_said_to_have_signed(run, cast):
    text = text_of_pdf(run.get("/g/linden-row/print/agreements-to-sign.pdf"))
    assert ("no agreement in force" in text, "Everybody has signed" in text) == (True, False)


def test_the_pack_holds_people_plots_things_and_what_is_open(run, cast):
    User.objects.filter(pk=cast.holder.pk).update(phone="555 0100")
    cast.garden.duties.create(name="Compost bays")
    cast.garden.whereabouts.create(thing="Water shut-off", place="Left of the gate", note="Turn hard.")
    text = text_of_pdf(run.get("/g/linden-row/print/hand-over.pdf"))
    for words in (
        "Nobody does this: Compost bays.",
        "Cora coordinator",
        "Water shut-off",
        "Left of the gate",
        "A1",
        "Hollis, Corin",
        "555 0100",
        "Plots a household may hold",
        "Taken over by",
        "signinlink NAME",
        "Where the copies are",
        "Neither email nor telephone is known: Cora",
    ):
        assert words in text
    assert "Nobody does this" in run.get("/g/linden-row/hand-over/").content.decode()


def test_what_is_open_in_care_says_which_plot_and_what_is_next_and_no_private_word(run, cast):
    today = cast.garden.today()
    matter = open_matter(assignment=cast.assignment, finding=None, on=today, by=cast.coordinator)
    step = MatterStep(
        matter=matter, kind="contact", day=today, how="phone", done=True, text="Her mother died."
    )
    take_step(step=step, by=cast.coordinator)
    pause(assignment=cast.assignment, why="illness", until=today, on=today, by=cast.coordinator)
    notice = cast.garden.notices.create(subject="Water off", body="Soon.", given_at=timezone.now())
    Delivery.objects.create(notice=notice, person=cast.holder, way="none")
    text = text_of_pdf(run.get("/g/linden-row/print/hand-over.pdf"))
    for words in (
        "Plot A1: a private matter since",
        "Plot A1: nobody is expected",
        "“Water off” has not reached",
    ):
        assert words in text
    assert [word in text for word in ("mother", "illness", "telephone: reached")] == [False] * 3


@pytest.mark.parametrize("rows", [1, 3])
def test_the_hand_over_costs_the_same_with_more_of_everything(run, cast, rows, django_assert_num_queries):
    garden, today = cast.garden, cast.garden.today()
    for number in range(rows):
        held = AssignmentFactory(plot__garden=garden, season=cast.assignment.season)
        open_matter(assignment=held, finding=None, on=today, by=cast.coordinator)
        pause(assignment=held, why="travel", until=None, on=today, by=cast.coordinator)
        entry = WaitingFactory(garden=garden)
        Offer.objects.create(
            entry=entry, place=entry, plot=PlotFactory(garden=garden), season=cast.assignment.season,
            begins_on=today, ends_at=timezone.now() + timedelta(days=2),
        )  # fmt: skip
        notice = garden.notices.create(subject=f"N{number}", body="Soon.", given_at=timezone.now())
        Delivery.objects.create(notice=notice, person=cast.holder, way="none")
        garden.workdays.create(
            name=f"W{number}", day=today - timedelta(days=3), starts_at="9:00", ends_at="12:00"
        )
        garden.duties.create(name=f"D{number}")
    with django_assert_num_queries(30):
        run.get("/g/linden-row/hand-over/")


def test_ones_own_data_holds_what_is_about_oneself_and_no_secret(cast, as_user):
    User.objects.filter(pk=cast.co_gardener.pk).update(phone="555 0123")
    client = as_user(cast.co_gardener)
    archive = zipfile.ZipFile(BytesIO(client.get("/account/data.zip").getvalue()))
    tables = {name: archive.read(name).decode() for name in archive.namelist()}
    assert "555 0123" in tables["account.csv"]
    assert "A1" in tables["assignments.csv"]
    assert "password" not in "".join(tables.values())


def test_rows_that_only_say_who_did_something_are_not_about_them():
    assert (ways_to_a_person(Change), ways_to_a_person(SignInLink)) == ([], [])
    assert ways_to_a_person(Membership) == ["user"]
