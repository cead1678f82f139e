"""What two people do at the same moment; on SQLite and, where DATABASE_URL says so, on PostgreSQL."""

from collections import Counter

import pytest
from django.core.exceptions import ValidationError
from django.test import RequestFactory

from plots import service
from plots.models import Assignment, Garden, Membership, Role, SignInFailure, User
from plots.sign_in_sheet import Came
from tests.concurrency import at_once
from tests.factories import GardenFactory, MembershipFactory, PlotFactory, SeasonFactory, UserFactory

pytestmark = pytest.mark.usefixtures("many_connections")


def kinds(answers) -> Counter:
    return Counter(type(answer).__name__ for answer in answers)


def test_of_two_presses_on_one_link_one_signs_in():
    token = service.make_link(user=UserFactory()).rstrip("/").rpartition("/")[2]
    answers = at_once(lambda n: service.use_link(token=token), range(4))
    assert kinds(answers) == {"User": 1, "NoneType": 3}


def test_one_plot_goes_to_one_household():
    plot = PlotFactory()
    season = SeasonFactory(garden=plot.garden)
    people = [MembershipFactory(garden=plot.garden).user for _n in range(4)]

    def give(person):
        return service.assign_plot(plot=plot, season=season, holder=person, began_on=season.starts_on)

    assert kinds(at_once(give, people)) == {"Assignment": 1, "ValidationError": 3}
    assert Assignment.objects.count() == 1


def test_two_coordinators_who_step_down_at_once_leave_one():
    garden = GardenFactory()
    both = [MembershipFactory(garden=garden, role=Role.COORDINATOR) for _n in range(2)]
    answers = at_once(lambda one: service.change_role(membership=one, role=Role.MEMBER), both)
    assert kinds(answers) == {"NoneType": 1, "ValidationError": 1}
    assert Membership.objects.filter(role=Role.COORDINATOR).count() == 1


def test_only_one_visitor_is_the_first():
    def found(n):
        garden = GardenFactory.build(name=f"Garden {n}")
        return service.found_installation(garden=garden, founder=User(name=f"Person {n}"))

    answers = at_once(found, range(3))
    assert kinds(answers) == {"Garden": 1, "ValidationError": 2}
    assert (Garden.objects.count(), User.objects.count()) == (1, 1)


def test_many_tries_at_once_do_not_slip_past_the_limit():
    request = RequestFactory().post("/sign-in/")
    answers = at_once(lambda n: service.count_attempt(request=request, account="ann"), range(14))
    assert Counter(answers) == {True: 10, False: 4}
    assert sorted(SignInFailure.objects.values_list("failures", flat=True)) == [14, 14, 14]


def test_two_gardens_of_one_name_both_come_to_be_or_one_is_asked_again():
    user = UserFactory()

    def make(n):
        return service.make_garden(garden=GardenFactory.build(name="Hill"), coordinator=user)

    answers = at_once(make, range(3))
    assert all(isinstance(answer, Garden | ValidationError) for answer in answers)
    made = [answer.slug for answer in answers if isinstance(answer, Garden)]
    assert len(made) == len(set(made)) == Garden.objects.count() >= 1


def test_the_last_place_of_a_task_is_taken_once():
    garden = GardenFactory()
    task = garden.work_tasks.create(name="Pots", minutes=60, places=2)
    people = [MembershipFactory(garden=garden).user for _n in range(4)]
    answers = at_once(lambda one: service.sign_up(task=task, person=one, by=one), people)
    assert kinds(answers) == {"SignUp": 2, "ValidationError": 2}


def test_a_sheet_sent_twice_at_once_counts_once():
    garden = GardenFactory()
    workday = garden.workdays.create(name="Paths", day="2024-05-04")
    person = MembershipFactory(garden=garden).user
    guest = Came(1, None, "Pat Ashby", 60)

    def send(_n):
        return service.type_sheet(workday=workday, minutes={person.pk: 120}, others=[guest], by=person)

    assert kinds(at_once(send, range(3))) == {"NoneType": 3}
    assert workday.hours_done.count() == 2
