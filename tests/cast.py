"""Two gardens and their people, as every test of access knows them."""

from dataclasses import dataclass

from plots.models import Assignment, Garden, GardenRules, Membership, Plot, Role, User
from plots.powers import Power
from tests.factories import NO_PASSWORD, AssignmentFactory, GardenFactory


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
    # In few statements: a thousand tests begin with these people.
    garden, other = Garden.objects.bulk_create(
        [
            GardenFactory.build(name="Linden Row", slug="linden-row"),
            GardenFactory.build(name="Other Side", slug="other-side"),
        ]
    )
    GardenRules.objects.bulk_create([GardenRules(garden=garden), GardenRules(garden=other)])
    places = {
        "Hollis": (garden, Role.MEMBER, []),
        "Corin": (garden, Role.MEMBER, []),
        "Maren": (garden, Role.MEMBER, []),
        "Hilde": (garden, Role.HELPER, []),
        "Dario": (garden, Role.HELPER, list(Power)),
        "Cora": (garden, Role.COORDINATOR, []),
        "Stellan": (other, Role.MEMBER, []),
        "Odile": (other, Role.COORDINATOR, []),
    }
    people = User.objects.bulk_create(
        [
            *(User(name=name, sign_in_name=name, password=NO_PASSWORD) for name in places),
            User(name="Keir", sign_in_name="keir", password=NO_PASSWORD, is_staff=True),
        ]
    )
    named = {person.name: person for person in people}
    Membership.objects.bulk_create(
        Membership(user=named[name], garden=place, role=role, powers=powers)
        for name, (place, role, powers) in places.items()
    )
    holder, co_gardener = named["Hollis"], named["Corin"]
    assignment = AssignmentFactory(plot__garden=garden, plot__label="A1", holder=holder)
    Assignment.co_gardeners.through.objects.bulk_create(
        [Assignment.co_gardeners.through(assignment=assignment, user=co_gardener)]
    )
    return Cast(
        garden=garden,
        plot=assignment.plot,
        assignment=assignment,
        holder=holder,
        co_gardener=co_gardener,
        member=named["Maren"],
        helper=named["Hilde"],
        deputy=named["Dario"],
        coordinator=named["Cora"],
        stranger=named["Stellan"],
        other_coordinator=named["Odile"],
        keeper=named["Keir"],
    )
