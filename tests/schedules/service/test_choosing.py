"""Whose nerve and which cover the dates of a planting follow, and what a change of them touches."""

from __future__ import annotations

from datetime import date

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from crops.models import Planting
from crops.service import change_planting
from plots.models import Change, Garden, Membership
from schedules.nerve import Chooser
from schedules.queries import plantings_of
from schedules.service import GardenDates
from schedules.service.choosing import choose_nerve, nerve_of, nerve_of_own
from schedules.windows import BOLD, CAREFUL, MIDDLING, Nerve, Operation
from tests.conftest import Cast
from tests.factories import AssignmentFactory
from tests.schedules.samples import planted, set_mean_frost, tomato


@pytest.fixture
def grown(cast: Cast, time_machine) -> Planting:
    """A tomato at the holder's plot, planned in April 2026, in a garden of mean frost dates."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return planted(cast.plot, tomato(), year=2026)


def holder_chooses(cast: Cast, nerve: str) -> None:
    Membership.objects.filter(garden=cast.garden, user=cast.holder).update(nerve=nerve)


def followed(cast: Cast) -> tuple[Chooser, Nerve, date | None]:
    """Whose nerve the planting follows, which it is, and its earliest day to set out."""
    garden = Garden.objects.get(pk=cast.garden.pk)
    dates = GardenDates.of(garden)
    found = plantings_of(garden, [cast.plot], [2026]).get()
    choice = dates.choice_for(found)
    assert choice == dates.choice_for(Planting.objects.get(pk=found.pk))  # as read without `plantings_of`
    rows = {row.operation: row for row in dates.planting(found).entries}
    return choice.chooser, choice.nerve, rows[Operation.TRANSPLANT].earliest


def test_the_plantings_nerve_comes_before_the_holders_and_that_before_the_gardens(
    cast: Cast, grown: Planting
) -> None:
    assert followed(cast)[0] is Chooser.DATES
    Garden.objects.filter(pk=cast.garden.pk).update(nerve="middling")
    chooser, nerve, of_garden = followed(cast)
    assert (chooser, nerve) == (Chooser.GARDEN, MIDDLING)
    holder_chooses(cast, "careful")
    chooser, nerve, of_holder = followed(cast)
    assert (chooser, nerve) == (Chooser.HOLDER, CAREFUL)
    change_planting(grown, by=cast.holder, nerve="bold")
    chooser, nerve, of_planting = followed(cast)
    assert (chooser, nerve) == (Chooser.PLANTING, BOLD)
    assert of_planting <= of_garden < of_holder


def test_who_shares_the_plot_or_held_it_before_does_not_decide(cast: Cast, grown: Planting) -> None:
    Membership.objects.filter(garden=cast.garden).exclude(user=cast.holder).update(nerve="bold")
    former = AssignmentFactory(
        plot=cast.plot, season__garden=cast.garden, began_on=date(2023, 1, 1), ended_on=date(2023, 12, 31)
    )
    Membership.objects.filter(user=former.holder).update(nerve="bold")
    assert followed(cast)[0] is Chooser.DATES


@pytest.mark.parametrize("count", [1, 3])
def test_the_nerve_of_holders_is_read_with_the_plantings(
    count: int, cast: Cast, grown: Planting, django_assert_num_queries
) -> None:
    for _ in range(count - 1):
        planted(cast.plot, grown.crop, year=2026)
    holder_chooses(cast, "careful")
    dates = GardenDates.of(cast.garden)
    found = list(plantings_of(cast.garden, [cast.plot], [2026]))
    with django_assert_num_queries(0):
        assert [dates.choice_for(one).nerve for one in found] == [CAREFUL] * count


def test_a_row_cover_counts_the_degrees_that_the_garden_says(cast: Cast, grown: Planting) -> None:
    Garden.objects.filter(pk=cast.garden.pk).update(row_cover_c=2.5)
    dates = GardenDates.of(Garden.objects.get(pk=cast.garden.pk))
    assert dates.cover_c(grown) == 0.0
    covered = change_planting(grown, by=cast.holder, covered=True)
    assert dates.cover_c(covered) == 2.5
    codes = {reason.code for window in dates.planting(covered).windows for reason in window.reasons}
    assert "cover-not-counted" in codes  # mean dates do not tell of colder freezes


def test_a_changed_nerve_is_kept_with_its_history_and_renews_the_calendar(
    cast: Cast, grown: Planting, time_machine
) -> None:
    membership = Membership.objects.get(garden=cast.garden, user=cast.holder)
    own = planted(cast.plot, grown.crop, year=2026, nerve="careful")
    before = grown.changed_at
    time_machine.move_to("2026-04-23T18:00Z", tick=False)
    choose_nerve(membership=membership, nerve="bold", by=cast.holder)
    choose_nerve(membership=membership, nerve="bold", by=cast.holder)
    change = Change.objects.get(what="nerve-changed")
    assert (change.before, change.after, change.by) == ({"nerve": ""}, {"nerve": "bold"}, cast.holder)
    assert Planting.objects.get(pk=grown.pk).changed_at > before
    assert Planting.objects.get(pk=own.pk).changed_at == own.changed_at


def test_costs_are_told_of_own_plots_alone_and_moves_until_it_is_begun(cast: Cast, grown: Planting) -> None:
    dates = GardenDates.of(cast.garden)
    (told,) = nerve_of_own(cast.holder, cast.garden, dates, 2026)
    assert told == nerve_of(dates.planting(grown), dates)
    assert [cost.risk.percent for cost in told.costs] == sorted(cost.risk.percent for cost in told.costs)
    assert [move.days for move in told.moves] == [-7, 7]
    assert nerve_of_own(cast.member, cast.garden, dates, 2026) == []


def test_an_unknown_nerve_cannot_be_kept(cast: Cast, grown: Planting) -> None:
    with pytest.raises(ValidationError):
        change_planting(grown, by=cast.holder, nerve="reckless")
    for rows in (Planting.objects.filter(pk=grown.pk), Membership.objects.filter(user=cast.holder)):
        with pytest.raises(IntegrityError), transaction.atomic():
            rows.update(nerve="reckless")
    with pytest.raises(IntegrityError), transaction.atomic():
        Garden.objects.filter(pk=cast.garden.pk).update(row_cover_c=-1)
