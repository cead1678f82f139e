from datetime import date

import pytest
from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import PermissionDenied
from django.http import Http404

from plots import access
from plots.models import Membership, PlotKind, Role
from plots.powers import EVERY_POWER, Power
from tests.factories import AssignmentFactory, MembershipFactory, PlotFactory

pytestmark = pytest.mark.django_db


def test_roles(cast):
    roles = {
        name: access.role_in(getattr(cast, name), cast.garden) for name in ("member", "helper", "stranger")
    }
    assert roles == {"member": Role.MEMBER, "helper": Role.HELPER, "stranger": None}
    assert access.role_in(AnonymousUser(), cast.garden) is None
    assert access.may_run(cast.coordinator, cast.garden)
    assert not access.may_run(cast.other_coordinator, cast.garden)


def test_nobody_sees_no_garden(cast):
    with pytest.raises(Http404):
        access.garden_to_see(AnonymousUser(), cast.garden.slug)
    assert list(access.visible_gardens(AnonymousUser())) == []


def test_what_each_person_sees_and_holds(cast):
    free = PlotFactory(garden=cast.garden, label="B2")
    shared = [
        PlotFactory(garden=cast.garden, label=label, kind=kind)
        for label, kind in (("C1", PlotKind.COMMUNAL), ("C2", PlotKind.GIVE_AWAY))
    ]
    AssignmentFactory(plot__garden__slug="third")
    seen = {
        name: (
            [str(plot) for plot in access.visible_plots(getattr(cast, name), cast.garden)],
            [str(plot) for plot in access.own_plots(getattr(cast, name), cast.garden)],
        )
        for name in ("holder", "co_gardener", "member", "helper", "coordinator", "other_coordinator")
    }
    every = ["A1", str(free), "C1", "C2"]
    assert seen == {
        "holder": (["A1", "C1", "C2"], ["A1"]),
        "co_gardener": (["A1", "C1", "C2"], ["A1"]),
        "member": (["C1", "C2"], []),
        "helper": (every, []),
        "coordinator": (every, []),
        "other_coordinator": ([], []),
    }
    planned_by = {
        name: [plot.label for plot in shared if access.may_plan(getattr(cast, name), plot)]
        for name in ("holder", "member", "deputy", "coordinator")
    }
    assert planned_by == {"holder": [], "member": [], "deputy": [], "coordinator": ["C1", "C2"]}


def test_a_plot_is_no_longer_ones_own_when_the_assignment_has_ended(cast):
    cast.assignment.ended_on = date(2024, 5, 1)
    cast.assignment.save()
    assert not access.own_plots(cast.holder, cast.garden).exists()
    with pytest.raises(Http404):
        access.plot_to_see(cast.holder, cast.garden, cast.plot.pk)


def test_who_left_the_garden_sees_nothing_even_if_an_assignment_was_left_open(cast):
    Membership.objects.filter(user=cast.holder).delete()
    assert not access.own_plots(cast.holder, cast.garden).exists()
    assert not access.visible_plots(cast.holder, cast.garden).exists()
    assert not access.may_plan(cast.holder, cast.plot)


def test_a_plot_is_looked_for_only_in_the_garden_named(cast):
    elsewhere = AssignmentFactory(holder=cast.holder)
    MembershipFactory(user=cast.holder, garden=elsewhere.plot.garden)
    with pytest.raises(Http404):
        access.plot_to_see(cast.holder, cast.garden, elsewhere.plot.pk)


def test_refusals_say_why(cast):
    with pytest.raises(PermissionDenied, match="Only a coordinator of Linden Row may do this"):
        access.garden_to_run(cast.member, cast.garden.slug)
    with pytest.raises(PermissionDenied, match="planned by the people who hold it"):
        access.plot_to_plan(cast.helper, cast.garden, cast.plot.pk)


def test_a_coordinator_opens_accounts_only_as_far_as_their_own_gardens_reach(cast):
    membership = Membership.objects.get(user=cast.member)
    assert access.may_change_person(cast.coordinator, membership)
    elsewhere = MembershipFactory(user=cast.member)
    assert not access.may_change_person(cast.coordinator, membership)
    MembershipFactory(user=cast.coordinator, garden=elsewhere.garden, role=Role.COORDINATOR)
    assert access.may_change_person(cast.coordinator, membership)
    cast.member.is_staff = True
    cast.member.save()
    membership.refresh_from_db()
    assert not access.may_change_person(cast.coordinator, membership)
    assert access.may_change_person(cast.member, membership)


def test_powers_count_for_helpers_alone(cast):
    """Words left over from an earlier part open nothing."""
    Membership.objects.filter(user=cast.member).update(powers=list(Power))
    found = {
        name: access.powers_in(getattr(cast, name), cast.garden) for name in ("member", "helper", "deputy")
    }
    assert found == {"member": frozenset(), "helper": frozenset(), "deputy": EVERY_POWER}
    assert access.powers_in(cast.coordinator, cast.garden) == EVERY_POWER
    assert access.powers_in(cast.other_coordinator, cast.garden) == frozenset()
    assert access.powers_in(AnonymousUser(), cast.garden) == frozenset()


def test_a_helper_does_what_they_are_trusted_with_and_no_more(cast):
    Membership.objects.filter(user=cast.helper).update(powers=["care", "no such power"])
    assert access.garden_to_run(cast.helper, cast.garden.slug, Power.CARE) == cast.garden
    with pytest.raises(PermissionDenied, match="or a helper trusted with dues"):
        access.garden_to_run(cast.helper, cast.garden.slug, Power.MONEY)
    with pytest.raises(PermissionDenied, match="Only a coordinator"):
        access.garden_to_run(cast.deputy, cast.garden.slug)


@pytest.mark.parametrize(
    ("powers", "whose", "may"),
    [
        (["people"], "member", True),
        (["care"], "member", False),
        (["people"], "coordinator", False),
        (["people"], "deputy", False),
        (list(Power), "deputy", True),
        (list(Power), "coordinator", False),
    ],
)
def test_a_helper_opens_only_accounts_that_may_no_more_than_they(cast, powers, whose, may):
    """Else a sign-in link made for a coordinator would make a coordinator of the helper."""
    Membership.objects.filter(user=cast.helper).update(powers=powers)
    theirs = Membership.objects.get(user=getattr(cast, whose), garden=cast.garden)
    assert access.may_change_person(cast.helper, theirs) is may


def test_nobody_makes_others_more_than_they_are(cast):
    assert access.roles_to_give(cast.coordinator, cast.garden) == list(Role)
    assert access.roles_to_give(cast.deputy, cast.garden) == [Role.MEMBER]
