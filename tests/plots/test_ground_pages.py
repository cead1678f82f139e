from datetime import date

import pytest
from django.urls import reverse

from plots.models import Assignment, Plot
from tests.factories import AssignmentFactory, PlotFactory, SeasonFactory, UserFactory
from tests.texts import text_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def run(cast, as_user):
    return as_user(cast.coordinator)


def url(name, cast, **more):
    return reverse(f"plots:{name}", kwargs={"slug": cast.garden.slug, **more})


@pytest.mark.parametrize("rows", [1, 3])
def test_the_list_costs_the_same_with_more_plots(run, cast, rows, django_assert_num_queries):
    for _n in range(rows - 1):
        AssignmentFactory(plot__garden=cast.garden, co_gardeners=[UserFactory(), UserFactory()])
    # session, person, membership, powers, role, plots, assignments, co-gardeners; latest work, pauses, rules
    with django_assert_num_queries(11):
        page = run.get(url("plots", cast))
    assert len(page.context["plots"]) == rows


def test_plots_stand_in_the_order_of_their_stakes_with_who_holds_them(run, cast):
    for label in ("A10", "A2"):
        PlotFactory(garden=cast.garden, label=label)
    page = run.get(url("plots", cast))
    assert [str(plot) for plot in page.context["plots"]] == ["A1", "A2", "A10"]
    assert "Hollis, Corin" in page.content.decode()


def test_a_member_finds_only_their_own_plots(cast, as_user):
    PlotFactory(garden=cast.garden, label="B2")
    page = as_user(cast.holder).get(url("plots", cast))
    assert [str(plot) for plot in page.context["plots"]] == ["A1"]
    assert "B2" not in text_of(page)


def test_a_plot_is_added_in_the_gardens_units(run, cast):
    sides = {"width_m": "10", "length_m": "20 ft 6 in"}
    data = {"label": " C1 ", "kind": "personal", "note": "by the tap", **sides}
    response = run.post(url("plot_new", cast), data)
    plot = Plot.objects.get(label="C1")
    assert response.headers["Location"] == url("plot", cast, pk=plot.pk)
    assert (plot.garden, round(plot.width_m, 4), round(plot.length_m, 4)) == (cast.garden, 3.048, 6.2484)
    again = run.post(url("plot_new", cast), {"label": "C2", "kind": "personal", "another": "yes"})
    assert again.headers["Location"] == url("plot_new", cast)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"label": ""}, "label"),
        ({"label": "A1"}, "label"),
        ({"width_m": "wide"}, "width_m"),
        ({"length_m": "-3"}, "length_m"),
        ({"label": "x" * 21}, "label"),
    ],
)
def test_a_wrong_plot_keeps_what_was_typed(run, cast, changes, field):
    typed = {"label": "C1", "kind": "personal", "width_m": "10", "length_m": "20", "note": "kept note"}
    data = {**typed, **changes}
    response = run.post(url("plot_new", cast), data)
    assert response.status_code == 422
    assert list(response.context["form"].errors) == [field]
    assert "kept note" in response.content.decode()
    assert Plot.objects.count() == 1


def test_a_plot_can_be_changed(run, cast):
    data = {"label": "A1", "kind": "personal", "note": "by the tap", "width_m": "", "length_m": ""}
    run.post(url("plot_edit", cast, pk=cast.plot.pk), data)
    cast.plot.refresh_from_db()
    assert (cast.plot.note, cast.plot.width_m) == ("by the tap", None)


def test_a_plot_is_given_to_a_member_and_freed_again(run, cast, time_machine):
    time_machine.move_to("2024-05-01T12:00:00Z")
    plot = PlotFactory(garden=cast.garden, label="B2")
    season = cast.assignment.season
    data = {
        "season": season.pk,
        "holder": cast.member.pk,
        "co_gardeners": [cast.helper.pk, cast.member.pk],
        "began_on": "2024-04-01",
    }
    assert run.post(url("plot_holder", cast, pk=plot.pk), data).status_code == 302
    assignment = plot.assignments.get()
    assert (assignment.holder, list(assignment.co_gardeners.all())) == (cast.member, [cast.helper])
    page = run.get(url("plot", cast, pk=plot.pk)).content.decode()
    assert "Maren, Hilde" in page
    refused = run.post(url("plot_holder", cast, pk=plot.pk), data)
    assert refused.context["form"].non_field_errors() == [
        "Maren holds plot B2. End that first, or hand the plot over."
    ]
    end = url("plot_free", cast, pk=plot.pk, assignment_pk=assignment.pk)
    for _twice in range(2):
        assert run.post(end).status_code == 302
    assignment.refresh_from_db()
    assert assignment.ended_on == date(2024, 5, 1)
    assert "until May 1, 2024" in run.get(url("plot", cast, pk=plot.pk)).content.decode()
    time_machine.move_to("2024-05-02T12:00:00Z")
    assert "Earlier holders" in run.get(url("plot", cast, pk=plot.pk)).content.decode()


def test_only_people_and_seasons_of_the_garden_can_be_chosen(run, cast):
    data = {"season": SeasonFactory().pk, "holder": cast.stranger.pk, "began_on": "2024-04-01"}
    response = run.post(url("plot_holder", cast, pk=cast.plot.pk), data)
    assert list(response.context["form"].errors) == ["season", "holder"]
    assert Assignment.objects.count() == 1


def test_an_assignment_of_another_plot_is_not_ended(run, cast):
    other = AssignmentFactory(plot__garden=cast.garden)
    address = url("plot_free", cast, pk=cast.plot.pk, assignment_pk=other.pk)
    assert run.post(address).status_code == 404
    other.refresh_from_db()
    assert other.ended_on is None


@pytest.mark.parametrize("pk", [0, 10**30])
def test_numbers_that_no_plot_can_have_are_not_found(run, cast, pk):
    assert run.get(url("plot", cast, pk=pk)).status_code == 404
