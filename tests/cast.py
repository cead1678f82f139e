"""Two gardens and their people, as every test of access knows them."""

from collections.abc import Sequence
from dataclasses import dataclass

from plots.models import Assignment, Garden, Plot, Role, User
from plots.powers import Power
from tests.factories import AssignmentFactory, GardenFactory, MembershipFactory, UserFactory


@dataclass
class Cast:
    """Two gardens and the people of every access test."""

    garden: Garden
    plot: Plot
    assignment: Assignment
    holder: User
    co_gardener: User
    member: User  # of the garden, holding nothing
    helper: User  # without powers
    deputy: User  # a helper with every power
    coordinator: User
    stranger: User  # member of the other garden
    other_coordinator: User
    keeper: User  # may make gardens, and belongs to none of these


def make_cast() -> Cast:
    garden = GardenFactory(name="Linden Row", slug="linden-row")
    other = GardenFactory(name="Other Side", slug="other-side")

    def person(name: str, place: Garden, role: Role = Role.MEMBER, powers: Sequence[str] = ()) -> User:
        membership = MembershipFactory(
            garden=place, role=role, powers=list(powers), user__name=name, user__sign_in_name=name
        )
        return membership.user

    holder = person("Hollis", garden)
    assignment = AssignmentFactory(plot__garden=garden, plot__label="A1", holder=holder)
    co_gardener = person("Corin", garden)
    assignment.co_gardeners.add(co_gardener)
    return Cast(
        garden=garden,
        plot=assignment.plot,
        assignment=assignment,
        holder=holder,
        co_gardener=co_gardener,
        member=person("Maren", garden),
        helper=person("Hilde", garden, Role.HELPER),
        deputy=person("Dario", garden, Role.HELPER, list(Power)),
        coordinator=person("Cora", garden, Role.COORDINATOR),
        stranger=person("Stellan", other),
        other_coordinator=person("Odile", other, Role.COORDINATOR),
        keeper=UserFactory(name="Keir", sign_in_name="keir", is_staff=True),
    )
