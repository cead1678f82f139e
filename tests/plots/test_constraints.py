"""Two households never hold one plot on one day; on SQLite and, where DATABASE_URL says so, on PostgreSQL."""

from collections import Counter
from datetime import date
from itertools import pairwise

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, IntegrityError, transaction

from plots import service
from plots.models import Assignment
from tests.concurrency import at_once
from tests.factories import AssignmentFactory, MembershipFactory, PlotFactory, SeasonFactory

MARCH, APRIL, MAY, JUNE, JULY = (date(2024, month, 1) for month in range(3, 8))


def refused(action) -> bool:
    try:
        with transaction.atomic():
            action()
    except IntegrityError:
        return True
    return False


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("first", "last", "overlaps"),
    [
        (MARCH, date(2024, 4, 30), False),  # up to the day before
        (MARCH, MAY, True),  # both days belong to it
        (date(2024, 5, 10), date(2024, 5, 11), True),
        (MARCH, JULY, True),
        (MARCH, None, True),
        (JUNE, JULY, True),
        (date(2024, 6, 2), JULY, False),
        (date(2024, 6, 2), None, False),
    ],
)
def test_no_day_belongs_to_two(first, last, overlaps):
    held = AssignmentFactory(began_on=MAY, ended_on=JUNE)
    other = Assignment(
        plot=held.plot, season=SeasonFactory(garden=held.plot.garden), began_on=first, ended_on=last
    )
    other.holder = held.holder
    assert refused(other.save) == overlaps
    Assignment.objects.exclude(pk=held.pk).delete()
    elsewhere = AssignmentFactory(
        plot__garden=held.plot.garden, season=other.season, began_on=first, ended_on=last
    )
    assert refused(lambda: Assignment.objects.filter(pk=elsewhere.pk).update(plot=held.plot)) == overlaps


@pytest.mark.django_db
def test_an_ending_taken_back_does_not_reach_into_the_next_household():
    first = AssignmentFactory(began_on=MARCH, ended_on=date(2024, 4, 30))
    AssignmentFactory(plot=first.plot, season=first.season, began_on=MAY)
    first.ended_on = None
    with pytest.raises(ValidationError, match="holds this plot on some of these days"):
        first.validate_constraints()
    assert refused(first.save)
    first.refresh_from_db()
    first.validate_constraints()


def test_of_many_who_give_the_plot_at_once_one_succeeds(many_connections):
    plot = PlotFactory()
    seasons = [SeasonFactory(garden=plot.garden) for _n in range(2)]
    people = [MembershipFactory(garden=plot.garden).user for _n in range(6)]

    def give(n):  # two seasons and different first days: only the days themselves are in common
        began_on = date(2024, 1 + n, 1)
        return service.assign_plot(plot=plot, season=seasons[n % 2], holder=people[n], began_on=began_on)

    answers = Counter(type(answer).__name__ for answer in at_once(give, range(6)))
    assert answers == {"Assignment": 1, "ValidationError": 5}
    assert Assignment.objects.get().plot == plot


def test_spans_written_at_once_past_all_services_never_meet(many_connections):
    """Rows put into the table directly, of which neighbours share two days."""
    plot = PlotFactory()
    season = SeasonFactory(garden=plot.garden)
    holder = MembershipFactory(garden=plot.garden).user

    def write(n):
        span = {"began_on": date(2024, 3, 1 + 3 * n), "ended_on": date(2024, 3, 5 + 3 * n)}
        return Assignment.objects.create(plot=plot, season=season, holder=holder, **span)

    answers = at_once(write, range(8))
    refusals = [answer for answer in answers if not isinstance(answer, Assignment)]
    assert refusals
    assert all(isinstance(answer, DatabaseError) for answer in refusals)  # PostgreSQL may say deadlock
    kept = list(Assignment.objects.order_by("began_on"))
    assert len(kept) == 8 - len(refusals)
    assert all(before.ended_on < after.began_on for before, after in pairwise(kept))


def test_a_plot_is_handed_over_once(many_connections):
    held = AssignmentFactory(began_on=MARCH)
    people = [MembershipFactory(garden=held.plot.garden).user for _n in range(4)]

    def hand_over(person):
        return service.hand_over(assignment=held, last_day=date(2024, 4, 30), holder=person)

    answers = Counter(type(answer).__name__ for answer in at_once(hand_over, people))
    assert answers == {"Assignment": 1, "ValidationError": 3}
    held.refresh_from_db()
    assert held.ended_on == date(2024, 4, 30)
    assert Assignment.objects.exclude(pk=held.pk).get().began_on == MAY
