"""Makers of valid rows for tests; each makes what it needs around it."""

from datetime import UTC, date, datetime, timedelta

import factory
from django.contrib.auth.hashers import make_password
from factory.django import DjangoModelFactory

from crops.models import Crop, Hardiness, Method, Planting, Start, Turn, Variety
from plots.models import Assignment, Garden, Membership, Plot, Role, Season, User, WaitingEntry

NO_PASSWORD = make_password(None)  # one for all: drawing the letters of each takes longer than its row


class UserFactory(DjangoModelFactory):
    class Meta:
        model = User

    name = factory.Sequence(lambda n: f"Person {n}")
    sign_in_name = factory.Sequence(lambda n: f"person{n}")
    password = NO_PASSWORD


class GardenFactory(DjangoModelFactory):
    class Meta:
        model = Garden

    name = factory.Sequence(lambda n: f"Garden {n}")
    slug = factory.Sequence(lambda n: f"garden-{n}")
    time_zone = "America/Denver"
    latitude = 40.5


class MembershipFactory(DjangoModelFactory):
    class Meta:
        model = Membership

    garden = factory.SubFactory(GardenFactory)
    user = factory.SubFactory(UserFactory)
    role = Role.MEMBER


class SeasonFactory(DjangoModelFactory):
    class Meta:
        model = Season

    garden = factory.SubFactory(GardenFactory)
    name = factory.Sequence(lambda n: f"Season {n}")
    starts_on = date(2024, 1, 1)
    ends_on = date(2024, 12, 31)


class PlotFactory(DjangoModelFactory):
    class Meta:
        model = Plot

    garden = factory.SubFactory(GardenFactory)
    label = factory.Sequence(lambda n: f"P{n}")
    width_m = 3.0
    length_m = 6.0


class AssignmentFactory(DjangoModelFactory):
    """A plot held by a member of its garden."""

    class Meta:
        model = Assignment
        skip_postgeneration_save = True

    plot = factory.SubFactory(PlotFactory)
    season = factory.SubFactory(SeasonFactory, garden=factory.SelfAttribute("..plot.garden"))
    holder = factory.LazyAttribute(lambda own: MembershipFactory(garden=own.plot.garden).user)
    began_on = date(2024, 1, 1)

    @factory.post_generation
    def co_gardeners(self, create, people, **kwargs):
        for person in people or []:
            MembershipFactory(garden=self.plot.garden, user=person)
            self.co_gardeners.add(person)


class CropFactory(DjangoModelFactory):
    """A crop of the catalogue; with a garden, that garden's own."""

    class Meta:
        model = Crop

    name = factory.Sequence(lambda n: f"Crop {n}")
    slug = factory.LazyAttributeSequence(lambda own, n: f"own-crop-{n}" if own.garden else f"crop-{n}")
    garden = None
    hardiness = Hardiness.HARDY
    method = Method.DIRECT


class VarietyFactory(DjangoModelFactory):
    class Meta:
        model = Variety

    garden = factory.SubFactory(GardenFactory)
    crop = factory.SubFactory(CropFactory)
    name = factory.Sequence(lambda n: f"Variety {n}")


class PlantingFactory(DjangoModelFactory):
    class Meta:
        model = Planting

    plot = factory.SubFactory(PlotFactory)
    crop = factory.SubFactory(CropFactory)
    year = 2024
    turn = Turn.SPRING
    start = Start.SOW


class WaitingFactory(DjangoModelFactory):
    """Somebody on the waiting list, reached by telephone alone."""

    class Meta:
        model = WaitingEntry

    garden = factory.SubFactory(GardenFactory)
    name = factory.Sequence(lambda n: f"Waiting {n}")
    phone = "555 0100"
    joined_at = factory.Sequence(lambda n: datetime(2024, 1, 1, 12, tzinfo=UTC) + timedelta(days=n))
    placed_at = factory.SelfAttribute("joined_at")
