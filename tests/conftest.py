"""What every test gets: fast passwords, static files without their build, and one named cast."""

from collections.abc import Sequence
from dataclasses import dataclass

import pytest
from django.apps import apps
from django.db.models.signals import post_migrate
from django.test import Client, override_settings

from plots.models import Assignment, Garden, Plot, Role, User
from plots.powers import Power
from tests.concurrency import shared_database
from tests.factories import AssignmentFactory, GardenFactory, MembershipFactory, UserFactory


@pytest.fixture(autouse=True, scope="session")
def quick_settings():
    """No slow hashing, and static files by their plain names."""
    storages = {
        "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    }
    with override_settings(
        PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"], STORAGES=storages
    ):
        yield


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings_parallel_suffix):
    """Databases of tests begin without the crop catalogue, which `migrate` brings everywhere else."""
    post_migrate.disconnect(sender=apps.get_app_config("crops"), dispatch_uid="crops.catalogue")


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


@pytest.fixture
def cast(db) -> Cast:
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


@pytest.fixture
def as_user(db):
    """A browser already signed in as the given person; `None` is nobody."""

    def signed_in(user: User | None) -> Client:
        client = Client()
        if user is not None:
            client.force_login(user)
        return client

    return signed_in


@pytest.fixture
def many_connections(transactional_db, tmp_path):
    """A database that threads reach through connections of their own; see `tests.concurrency.at_once`."""
    with shared_database(tmp_path):
        yield
