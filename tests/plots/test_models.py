from datetime import date

import pytest
from django.db import IntegrityError

from plots.models import Assignment, Plot, User
from tests.factories import AssignmentFactory, GardenFactory, PlotFactory, SeasonFactory, UserFactory

pytestmark = pytest.mark.django_db


def test_a_name_is_kept_in_composed_form_and_found_by_any_spelling():
    user = UserFactory(
        name="Nguye\u0302\u0303n  Thi\u0323", sign_in_name="  A\u0301NH ", email="ANH@Example.org"
    )
    assert (user.name, user.sign_in_name, user.email) == ("Nguy\u1ec5n Th\u1ecb", "\xe1nh", "anh@example.org")
    assert User.objects.get(sign_in_name="\xc1nh") == user
    assert User.objects.get(email="anh@EXAMPLE.org") == user


def test_sign_in_names_differ_by_more_than_case():
    UserFactory(sign_in_name="Ánh")
    with pytest.raises(IntegrityError):
        UserFactory(sign_in_name="ánh")


def test_people_without_email_do_not_collide():
    assert [UserFactory(email="").email, UserFactory(email=None).email] == [None, None]


def test_a_person_without_a_password_cannot_sign_in_with_one():
    assert not User.objects.create_user("jo", name="Jo").has_usable_password()
    assert User.objects.create_user("mo", name="Mo", password="long enough here").check_password(
        "long enough here"
    )


@pytest.mark.parametrize("latitude", [-90.1, 91])
def test_a_garden_lies_on_earth(latitude):
    with pytest.raises(IntegrityError):
        GardenFactory(latitude=latitude)


def test_a_season_ends_after_it_starts():
    with pytest.raises(IntegrityError):
        SeasonFactory(garden=GardenFactory(), name="2024", starts_on="2024-05-01", ends_on="2024-05-01")


def test_a_label_is_used_once_in_a_garden_and_again_in_another():
    plot = PlotFactory(label="A1")
    assert PlotFactory(label="A1").garden != plot.garden
    with pytest.raises(IntegrityError):
        Plot.objects.create(garden=plot.garden, label=" A1 ")


def test_one_holder_at_a_time_and_a_new_one_after():
    first = AssignmentFactory()
    again = {
        "plot": first.plot,
        "season": first.season,
        "holder": UserFactory(),
        "began_on": date(2024, 6, 1),
    }
    first.ended_on = date(2024, 5, 31)
    first.save()
    second = Assignment.objects.create(**again)
    assert list(first.plot.assignments.all()) == [second, first]
    with pytest.raises(IntegrityError):
        Assignment.objects.create(**again)


def test_today_is_the_gardens_own_date(time_machine):
    time_machine.move_to("2024-05-01T03:00:00Z", tick=False)
    assert GardenFactory(time_zone="America/Denver").today() == date(2024, 4, 30)
    assert GardenFactory(time_zone="Australia/Hobart").today() == date(2024, 5, 1)
    assert SeasonFactory().garden.today() == date(2024, 4, 30)
