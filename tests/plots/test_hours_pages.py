"""Hours owed, done and left, for one member and for all."""

from datetime import date
from decimal import Decimal

import pytest
from django.urls import reverse

from plots import queries, service
from plots.models import Change, GardenRules, HoursDone, Season
from tests.factories import AssignmentFactory

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def may(time_machine, cast):
    time_machine.move_to("2024-05-01T18:00Z", tick=False)
    GardenRules.objects.filter(garden=cast.garden).update(hours_owed=Decimal(6), hours_due="06-30")


def url(name, cast, **more):
    return reverse(f"plots:{name}", kwargs={"slug": cast.garden.slug, **more})


def work(cast, person, minutes, day=date(2024, 4, 6)):
    return service.add_hours(
        garden=cast.garden, person=person, day=day, minutes=minutes, what="Hedge", by=cast.coordinator
    )


def membership_pk(cast, person):
    return cast.garden.memberships.get(user=person).pk


@pytest.mark.parametrize("rows", [1, 3])
def test_the_list_costs_the_same_with_more_members(cast, as_user, rows, django_assert_num_queries):
    for _n in range(rows - 1):
        AssignmentFactory(plot__garden=cast.garden, season=cast.assignment.season)
    run = as_user(cast.coordinator)
    # session, person, membership and garden, season, rules, assignments, co-gardeners, hours, excused,
    # households, people, members, guests, seasons
    with django_assert_num_queries(14):
        page = run.get(url("hours", cast))
    assert len(page.context["shown"].rows) == rows + 1  # holder and co-gardener owe each


def test_the_list_filters_sorts_and_goes_into_a_spreadsheet(cast, as_user):
    work(cast, cast.co_gardener, 150)
    work(cast, cast.holder, 400)
    run = as_user(cast.coordinator)
    page = run.get(url("hours", cast), {"state": "open"})
    assert [row.people[0].name for row in page.context["shown"].rows] == ["Corin"]
    table = run.get(url("hours", cast), {"sort": "-done", "as": "csv"}).content.decode().splitlines()
    assert table[1:] == ["Hollis,A1,6.0,6.67,0.0,2024-06-30,done", "Corin,A1,6.0,2.5,3.5,2024-06-30,open"]


def test_the_rule_may_be_by_plot(cast):
    GardenRules.objects.filter(garden=cast.garden).update(hours_owed_by="plot")
    work(cast, cast.co_gardener, 150)
    season = Season.objects.get()
    (row,) = queries.season_hours(season, today=date(2024, 5, 1))
    assert ([one.name for one in row.people], row.standing.owed, row.standing.left) == (
        ["Hollis", "Corin"], 360, 210,
    )  # fmt: skip
    assert queries.hours_left(season, today=date(2024, 5, 1)) == {cast.assignment.pk: 210}


def test_a_member_reads_their_own_and_why(cast, as_user):
    work(cast, cast.holder, 90)
    work(cast, cast.co_gardener, 45)
    page = as_user(cast.holder).get(url("hours_own", cast)).content.decode()
    for said in ("4\u00a0h\u00a030\u00a0min", "until June 30, 2024", "asks 6\u00a0h a season of each member"):
        assert said in page
    assert "45\u00a0min" not in page


def test_hours_are_added_by_hand_removed_and_counted_again(cast, as_user):
    run, pk = as_user(cast.coordinator), membership_pk(cast, cast.holder)
    typed = {"day": "2024-04-30", "minutes": "2:30", "what": "Brought the compost"}
    run.post(url("hours_person", cast, pk=pk), typed)
    row = HoursDone.objects.get()
    assert (row.person, row.minutes, row.made_by) == (cast.holder, 150, cast.coordinator)
    run.post(url("hours_remove", cast, pk=row.pk))
    row.refresh_from_db()
    assert row.removed_by == cast.coordinator
    page = run.get(url("hours_person", cast, pk=pk)).content.decode()
    assert "does not count" in page
    run.post(url("hours_restore", cast, pk=row.pk))
    row.refresh_from_db()
    assert row.removed_at is None


def test_hours_of_a_day_to_come_or_without_a_time_are_refused(cast, as_user):
    address = url("hours_person", cast, pk=membership_pk(cast, cast.holder))
    answer = as_user(cast.coordinator).post(address, {"day": "2024-05-02", "minutes": "long", "what": "Dug"})
    page = answer.content.decode()
    assert (answer.status_code, HoursDone.objects.count()) == (422, 0)
    assert "This day is still to come." in page
    assert "“long” cannot be read as a time worked." in page
    assert 'value="Dug"' in page


def test_somebody_is_excused_and_no_reason_is_asked(cast, as_user):
    run, season = as_user(cast.coordinator), Season.objects.get()
    pk = membership_pk(cast, cast.holder)
    address = url("hours_excuse", cast, pk=pk, season_pk=season.pk)
    assert run.post(address, {"scope": "some", "minutes": ""}).status_code == 422
    assert run.post(address, {"scope": "some", "minutes": "2"}).status_code == 302

    def owed():
        rows = queries.season_hours(season, today=date(2024, 5, 1))
        return [row.standing.owed for row in rows if cast.holder in row.people]

    assert owed() == [240]
    run.post(address, {"scope": "all"})
    assert owed() == [0]
    last = Change.objects.filter(what="hours-excused").order_by("-pk").first()
    run.post(reverse("plots:change_undo", args=[cast.garden.slug, last.pk]))
    assert owed() == [240]
