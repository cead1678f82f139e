from datetime import date

import pytest
from django.core.exceptions import ValidationError
from django.urls import reverse

from plots import service
from plots.models import Membership, Plot, Role, SignInLink, User
from tests.factories import AssignmentFactory, MembershipFactory, PlotFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def run(cast, as_user):
    return as_user(cast.coordinator)


def url(name, cast, **more):
    return reverse(f"plots:{name}", kwargs={"slug": cast.garden.slug, **more})


def membership_of(user) -> Membership:
    return Membership.objects.get(user=user)


@pytest.mark.parametrize("rows", [1, 3])
def test_the_list_costs_the_same_with_more_members(run, cast, rows, django_assert_num_queries):
    for _n in range(rows - 1):
        MembershipFactory(garden=cast.garden)
    # session, person, membership; powers, members, plots held and shared, requests
    with django_assert_num_queries(8):
        run.get(url("members", cast))


def test_members_stand_in_the_order_of_their_names_whatever_their_accents(run, cast):
    for name in ("Çiğdem", "anna", "Zoë"):
        MembershipFactory(garden=cast.garden, user__name=name)
    page = run.get(url("members", cast))
    names = [row.name for row in page.context["shown"].rows]
    assert names == ["anna", "Çiğdem", "Cora", "Corin", "Dario", "Hilde", "Hollis", "Maren", "Zoë"]


def test_only_coordinators_see_how_to_reach_people(cast, as_user):
    cast.holder.email, cast.holder.phone = "hollis@example.org", "555 0100"
    cast.holder.save()
    seen = {
        name: [
            text in as_user(getattr(cast, name)).get(url("members", cast)).content.decode() for text in texts
        ]
        for texts in [("Hollis", "hollis@example.org", "555 0100")]
        for name in ("member", "helper", "coordinator")
    }
    assert seen == {
        "member": [True, False, False],
        "helper": [True, False, False],
        "coordinator": [True, True, True],
    }


def test_a_member_is_added_by_name_alone_and_the_link_is_shown_once(run, cast, as_user):
    response = run.post(url("member_new", cast), {"name": "Ελένη Παππά", "role": "member"})
    person = User.objects.get(name="Ελένη Παππά")
    assert (person.sign_in_name, person.email, person.has_usable_password()) == ("ελένη.παππά", None, False)
    assert response.headers["Location"] == url("member", cast, pk=membership_of(person).pk)
    page = run.get(response.headers["Location"])
    link = page.context["link"]
    assert link in page.content.decode()
    assert run.get(response.headers["Location"]).context["link"] is None
    assert as_user(None).post(link.removeprefix("http://127.0.0.1:8000")).headers["Location"] == "/"


def test_two_people_of_one_name_get_two_sign_in_names(run, cast):
    for _twice in range(2):
        run.post(url("member_new", cast), {"name": "Jo Ash", "role": "member"})
    names = User.objects.filter(name="Jo Ash").values_list("sign_in_name", flat=True)
    assert sorted(names) == ["jo.ash", "jo.ash.2"]


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"name": " "}, "name"),
        ({"email": "HOLLIS@example.org"}, "email"),
        ({"email": "no address"}, "email"),
        ({"sign_in_name": "Hollis"}, "sign_in_name"),
        ({"role": "king"}, "role"),
    ],
)
def test_a_wrong_member_keeps_what_was_typed(run, cast, changes, field):
    User.objects.filter(pk=cast.holder.pk).update(email="hollis@example.org")
    data = {"name": "Jo", "phone": "555 0199", "role": "member", **changes}
    response = run.post(url("member_new", cast), data)
    assert response.status_code == 422
    assert list(response.context["form"].errors) == [field]
    assert "555 0199" in response.content.decode()
    assert not User.objects.filter(name="Jo").exists()


def test_somebody_with_an_account_joins_under_their_own_name(run, cast):
    response = run.post(url("member_known", cast), {"account": " STELLAN ", "role": "helper"})
    joined = Membership.objects.get(user=cast.stranger, garden=cast.garden)
    assert response.headers["Location"] == url("member", cast, pk=joined.pk)
    assert joined.role == "helper"


@pytest.mark.parametrize(
    ("account", "sentence"),
    [
        ("nobody", "Nobody here signs in with this."),
        ("Hollis", "This person is already here, or somebody has just taken the name."),
    ],
)
def test_who_cannot_join_is_said_beside_the_field(run, cast, account, sentence):
    response = run.post(url("member_known", cast), {"account": account, "role": "member"})
    assert response.status_code == 422
    assert response.context["known"].errors == {"account": [sentence]}


def test_a_new_link_for_a_member(run, cast):
    address = url("member_link", cast, pk=membership_of(cast.member).pk)
    assert run.get(address).status_code == 405
    run.post(address)
    assert [link.user for link in SignInLink.objects.all()] == [cast.member]


@pytest.mark.parametrize("name", ["member_link", "member_edit"])
def test_an_account_that_reaches_further_is_not_opened(run, cast, name):
    pk = membership_of(cast.member).pk
    MembershipFactory(user=cast.member)
    response = run.post(url(name, cast, pk=pk), {"name": "Taken over", "sign_in_name": "mine"})
    assert response.status_code == 403
    assert "can reach more than your gardens" in response.content.decode()
    assert not SignInLink.objects.exists()
    cast.member.refresh_from_db()
    assert cast.member.name == "Maren"


def test_name_and_addresses_of_a_member_can_be_changed(run, cast):
    address = url("member_edit", cast, pk=membership_of(cast.member).pk)
    run.post(address, {"name": "Maren Moss", "sign_in_name": "maren", "email": "m@example.org", "phone": ""})
    cast.member.refresh_from_db()
    assert (cast.member.name, cast.member.email) == ("Maren Moss", "m@example.org")


def test_a_role_is_changed_but_the_last_coordinator_stays_one(run, cast):
    run.post(url("member", cast, pk=membership_of(cast.member).pk), {"role": "helper"})
    assert membership_of(cast.member).role == "helper"
    response = run.post(url("member", cast, pk=membership_of(cast.coordinator).pk), {"role": "member"})
    assert response.context["form"].errors == {
        "role": ["Cora is the only coordinator. Make somebody else one first."]
    }
    assert membership_of(cast.coordinator).role == "coordinator"


def test_what_lay_open_meanwhile_overrules_nothing(cast):
    as_opened, plot = membership_of(cast.member), PlotFactory(garden=cast.garden)
    Membership.objects.filter(pk=as_opened.pk).update(role=Role.COORDINATOR)
    membership_of(cast.coordinator).delete()
    with pytest.raises(ValidationError, match="Maren is the only coordinator"):
        service.change_role(membership=as_opened, role=Role.HELPER)

    Plot.objects.filter(pk=plot.pk).update(retired_on=date(2024, 5, 1))
    season = cast.assignment.season
    with pytest.raises(ValidationError, match="not one that members hold"):
        service.assign_plot(plot=plot, season=season, holder=cast.member, began_on=season.starts_on)


def test_a_membership_ends_and_the_account_stays(run, cast):
    run.post(url("member_leave", cast, pk=membership_of(cast.co_gardener).pk))
    assert not Membership.objects.filter(user=cast.co_gardener).exists()
    assert User.objects.filter(pk=cast.co_gardener.pk).exists()
    assert not cast.assignment.co_gardeners.exists()


@pytest.mark.parametrize(
    ("person", "sentence"),
    [("holder", "Hollis still holds A1. End that first."), ("coordinator", "Cora is the only coordinator.")],
)
def test_who_cannot_leave_is_told_why(run, cast, person, sentence):
    response = run.post(url("member_leave", cast, pk=membership_of(getattr(cast, person)).pk))
    assert response.status_code == 403
    assert sentence in response.content.decode()
    assert Membership.objects.filter(user=getattr(cast, person)).exists()


def test_plots_held_elsewhere_do_not_keep_somebody_here(run, cast):
    MembershipFactory(garden=AssignmentFactory(holder=cast.member).plot.garden, user=cast.member)
    pk = Membership.objects.get(user=cast.member, garden=cast.garden).pk
    assert run.post(url("member_leave", cast, pk=pk)).status_code == 302
