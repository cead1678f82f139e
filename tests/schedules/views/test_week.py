"""The week: a member's own plots, or the whole garden."""

from __future__ import annotations

from datetime import date
from uuid import uuid4

import pytest
from django.test import Client

from plots.models import MatterStep, PauseWhy, StepKind
from plots.service.care import open_matter, pause, take_step
from schedules.service.logs import keep_logs
from tests.conftest import Cast
from tests.factories import AssignmentFactory, PlotFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

WEEK = "/g/linden-row/week/"


@pytest.fixture
def garden(cast: Cast, time_machine) -> Cast:
    """A Wednesday in April 2026, in a garden with mean frost dates."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return cast


@pytest.fixture
def holder(garden: Cast, as_user) -> Client:
    return as_user(garden.holder)


@pytest.fixture
def coordinator(garden: Cast, as_user) -> Client:
    return as_user(garden.coordinator)


def text_of(response) -> str:
    assert response.status_code == 200
    return response.content.decode()


def test_a_member_sees_the_jobs_of_their_own_plots_most_urgent_first(garden: Cast, holder: Client) -> None:
    planted(garden.plot, carrot())
    planted(garden.plot, tomato())
    planted(PlotFactory(garden=garden.garden), carrot(slug="parsnip", name="Parsnip"))
    page = text_of(holder.get(WEEK))
    assert "<h1>This week</h1>" in page
    assert "April 20 to April 26" in page
    assert page.index("<strong>Start indoors<") < page.index("<strong>Sow<")
    assert "last week for it, until April 26" in page
    assert "Parsnip" not in page
    assert "The week of April 27: 1 job" in page
    assert f'href="/g/linden-row/plots/{garden.plot.pk}/plan/"' in page


def test_with_one_plot_its_label_is_not_repeated_and_with_two_it_is_said(
    garden: Cast, holder: Client
) -> None:
    crop = carrot()
    planted(garden.plot, crop)
    assert "plot A1</span>" not in text_of(holder.get(WEEK))
    second = AssignmentFactory(
        plot__garden=garden.garden, plot__label="B2", season=garden.assignment.season, holder=garden.holder
    )
    planted(second.plot, crop)
    page = text_of(holder.get(WEEK))
    assert "plot A1</span>" in page
    assert "plot B2</span>" in page


def test_a_week_without_jobs_says_so_and_names_what_comes_next(garden: Cast, holder: Client) -> None:
    page = text_of(holder.get(WEEK))
    assert "Nothing is due." in page
    assert "Next:" not in page
    planting = planted(garden.plot, tomato(), year=2027)
    page = text_of(holder.get(WEEK, {"day": "2027-01-06"}))
    assert "Nothing is due." in page
    assert "The weeks after" not in page
    assert "Next: start indoors, from March 22 on:" in page
    assert f'href="/g/linden-row/plantings/{planting.pk}/#start-indoors-1">Tomato</a>' in page


def test_a_member_without_a_plot_is_told_what_comes_next(garden: Cast, as_user) -> None:
    page = text_of(as_user(garden.member).get(WEEK))
    assert "You hold no plot in this garden yet." in page
    assert 'class="action" href="/g/linden-row/when/"' in page


@pytest.mark.parametrize("person", ["holder", "coordinator"])
def test_without_frost_dates_the_week_says_what_comes_next(cast: Cast, as_user, person: str) -> None:
    page = text_of(as_user(getattr(cast, person)).get(WEEK))
    assert "no planting dates can be worked out" in page


def test_weeks_are_walked_through_from_monday_to_monday(garden: Cast, holder: Client) -> None:
    page = text_of(holder.get(WEEK, {"day": "2026-12-31"}))
    assert "The week of December 28" in page
    assert "?day=2026-12-21" in page
    assert "?day=2027-01-04" in page


@pytest.mark.parametrize("day", ["x", "2026-13-01", "0001-01-01", "9999-12-31", ""])
def test_a_day_that_cannot_be_is_today(garden: Cast, holder: Client, day: str) -> None:
    assert "<h1>This week</h1>" in text_of(holder.get(WEEK, {"day": day}))


def test_the_job_card_of_the_week_is_a_press_away(garden: Cast, holder: Client, coordinator: Client) -> None:
    own, whole = (text_of(one.get(WEEK, {"day": "2026-05-01"})) for one in (holder, coordinator))
    assert "/print/job-card/?week=2026-04-27" in own
    assert "/print/job-card/?member=everyone&amp;week=2026-04-27" in whole


def test_a_coordinator_sees_the_whole_garden_each_crop_once(garden: Cast, coordinator: Client) -> None:
    crop = carrot()
    first = planted(garden.plot, crop)
    second = planted(PlotFactory(garden=garden.garden, label="A10"), crop)
    planted(PlotFactory(garden=garden.garden, label="gone", retired_on="2026-01-01"), crop)
    page = text_of(coordinator.get(WEEK))
    assert "What can be done on 2 plots" in page
    assert page.count("<strong>Carrot</strong>: possible now") == 1
    assert f'<a href="/g/linden-row/plantings/{first.pk}/#sow-1">A1</a>' in page
    assert f'<a href="/g/linden-row/plantings/{second.pk}/#sow-1">A10</a>' in page


def test_a_coordinator_sees_the_garden_plot_by_plot_and_finds_one(garden: Cast, coordinator: Client) -> None:
    crop = carrot()
    for label in ("A10", "A2"):
        planted(PlotFactory(garden=garden.garden, label=label), crop)
    page = text_of(coordinator.get(WEEK, {"by": "plot"}))
    assert page.index("Plot A2") < page.index("Plot A10")
    found = text_of(coordinator.get(WEEK, {"by": "plot", "q": "a2"}))
    assert "Plot A2" in found
    assert "Plot A10" not in found
    missing = text_of(coordinator.get(WEEK, {"q": "leek"}))
    assert "No job of this week is at a plot or about a crop called “leek”." in missing


def test_a_search_by_htmx_is_answered_with_the_jobs_alone(garden: Cast, coordinator: Client) -> None:
    planted(garden.plot, carrot())
    part = text_of(coordinator.get(WEEK, {"q": "carr"}, headers={"HX-Request": "true"}))
    assert part.startswith('<div id="jobs"')
    assert "<strong>Carrot</strong>" in part
    assert "<html" not in part


def test_a_coordinator_with_a_plot_can_see_their_own_week(garden: Cast, coordinator: Client) -> None:
    crop = carrot()
    planted(garden.plot, crop)
    own = AssignmentFactory(
        plot__garden=garden.garden, plot__label="C3", season=garden.assignment.season, holder=garden.member
    )
    own.co_gardeners.add(garden.coordinator)
    planted(own.plot, tomato())
    assert "?plots=own" in text_of(coordinator.get(WEEK))
    page = text_of(coordinator.get(WEEK, {"plots": "own"}))
    assert "<h1>This week</h1>" in page
    assert "Tomato" in page
    assert "Carrot" not in page


def test_what_a_holder_was_given_time_for_is_theirs_alone_to_see(garden: Cast, as_user) -> None:
    set_up = {"assignment": garden.assignment, "by": garden.coordinator}
    matter = open_matter(finding=None, on=date(2026, 4, 10), **set_up)
    given = MatterStep(matter=matter, kind=StepKind.NOTICE, day=date(2026, 4, 12), due_on=date(2026, 4, 24))
    take_step(step=given, by=garden.coordinator)
    sentence = "Plot A1: put it in order by April 24, 2026."
    seen = {
        name: sentence in text_of(as_user(getattr(garden, name)).get(WEEK, {"plots": "own"}))
        for name in ("holder", "co_gardener", "member", "coordinator", "deputy")
    }
    assert [name for name, sees in seen.items() if sees] == ["holder"]
    assert "Nothing is due." not in text_of(as_user(garden.holder).get(WEEK))
    assert sentence not in text_of(as_user(garden.holder).get(WEEK, {"day": "2026-05-01"}))
    pause(
        assignment=garden.assignment, why=PauseWhy.ILLNESS, until=None, on=date(2026, 4, 20), by=garden.holder
    )
    assert sentence not in text_of(as_user(garden.holder).get(WEEK))


def test_what_is_done_this_week_leaves_the_jobs_and_links_to_its_log(
    garden: Cast, holder: Client, coordinator: Client
) -> None:
    planting = planted(garden.plot, carrot())
    planted(garden.plot, carrot(slug="beet", name="Beet"))
    log = keep_logs(
        garden=garden.garden, work="sow", plots=[garden.plot], planting=planting, day=date(2026, 4, 21),
        person=garden.holder, by=garden.holder, key=uuid4(),
    ).rows[0]  # fmt: skip
    page = text_of(holder.get(WEEK))
    to_do, done = page.split("<h2>Done this week</h2>")
    assert "Beet</a>: possible now" in to_do
    assert "Carrot" not in to_do
    assert f'<a href="{log.get_absolute_url()}">done on April 21</a>' in done
    assert "1 job is done" in text_of(coordinator.get(WEEK, {"q": "carrot"}))
    assert "is done" not in text_of(coordinator.get(WEEK, {"q": "beet"}))
    why = text_of(holder.get(f"/g/linden-row/plantings/{planting.pk}/"))
    assert "It was sown on April 21, as logged; planned was April 19 to May 30, best on May 3." in why
    assert "It was sown on April 21; this is counted from that day." in why
    assert "Moved 12 days earlier by what was logged." in why


@pytest.mark.parametrize("count", [1, 3])
def test_the_gardens_week_takes_the_same_queries_for_one_plot_and_for_three(
    garden: Cast, coordinator: Client, count: int, django_assert_num_queries
) -> None:
    crop = carrot()
    for number in range(count):
        planted(PlotFactory(garden=garden.garden, label=f"D{number}"), crop)
    with django_assert_num_queries(16):
        coordinator.get(WEEK)


@pytest.mark.parametrize("count", [1, 3])
def test_a_members_week_takes_the_same_queries_for_one_plot_and_log_and_for_three(
    garden: Cast, holder: Client, count: int, django_assert_num_queries
) -> None:
    season, told = garden.assignment.season, {"person": garden.holder, "by": garden.holder}
    for number in range(count):
        plot = AssignmentFactory(
            plot__garden=garden.garden, plot__label=f"E{number}", season=season, holder=garden.holder
        ).plot
        planting = planted(plot, carrot(slug=f"carrot-{number}"))
        planted(plot, carrot(slug=f"beet-{number}"))
        for work, about in (("sow", planting), ("water", None), ("clear", None)):
            keep_logs(
                garden=garden.garden, work=work, plots=[plot], planting=about, day=date(2026, 4, 21),
                key=uuid4(), **told,
            )  # fmt: skip
    with django_assert_num_queries(23):
        holder.get(WEEK)
