"""Plans and weeks of members for paper: whose plots, whose language, how many queries, the same dates."""

from __future__ import annotations

from datetime import date

import pytest

from plots.models import Garden, User, Workday
from schedules.jobs import jobs_in_week, monday_of
from schedules.models import BasisChoice, GardenClimate, MeanFrost
from schedules.reports.booklet import booklets_pdf
from schedules.reports.days import short_day
from schedules.reports.poster import posters_pdf
from schedules.reports.sheet_csv import to_csv
from schedules.service import GardenDates, plot_season
from schedules.service.member_plans import holding_of_plots, holdings_of, member_plans
from schedules.service.print_table.calendars import KINDS
from schedules.service.print_table.table import Asked
from schedules.service.week_cards import week_cards
from tests.cast import Cast
from tests.factories import AssignmentFactory, PlotFactory
from tests.schedules.reports.reading import close, read
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato
from tests.texts import plain

TODAY = date(2026, 6, 10)
PLAN_QUERIES, WEEK_QUERIES = 17, 21


@pytest.fixture
def garden(cast: Cast, time_machine) -> Garden:
    """Linden Row on a Wednesday in June 2026, with frost dates, water days and a workday."""
    time_machine.move_to("2026-06-10T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    rules = cast.garden.rules
    rules.water_on, rules.water_off = "03-15", "11-15"
    rules.save()
    Workday.objects.create(
        garden=cast.garden, name="Paths", day=date(2026, 6, 13), starts_at="09:00", ends_at="12:00"
    )
    return Garden.objects.get(pk=cast.garden.pk)


def members_with_plots(garden: Garden, count: int) -> list[User]:
    crops = [carrot(), tomato()]
    holders = []
    for _number in range(count):
        assignment = AssignmentFactory(plot__garden=garden, began_on=date(2026, 1, 1))
        for crop in crops:
            planted(assignment.plot, crop)
        holders.append(assignment.holder)
    return holders


def plans(garden: Garden, members: list[User], **changes):
    holdings = holdings_of(garden, members, TODAY)
    return member_plans(garden, holdings, **{"year": 2026, "today": TODAY, "paper": "letter", **changes})


@pytest.mark.parametrize("count", [1, 3])
def test_a_garden_s_plans_cost_the_same_queries_however_many_members(
    garden: Garden, count: int, django_assert_num_queries
) -> None:
    members = members_with_plots(garden, count)
    with django_assert_num_queries(PLAN_QUERIES):
        made = plans(garden, members)
    assert [len(list(one.plan.rows)) for one in made] == [6] * count


@pytest.mark.parametrize("count", [1, 3])
def test_a_garden_s_cards_cost_the_same_queries_however_many_members(
    garden: Garden, count: int, django_assert_num_queries
) -> None:
    members = members_with_plots(garden, count)
    with django_assert_num_queries(WEEK_QUERIES):
        holdings = holdings_of(garden, members, TODAY)
        made = week_cards(garden, holdings, day=TODAY, today=TODAY, paper="letter")
    assert [len(one.card.water) for one in made] == [1] * count


def test_a_plan_has_the_rows_of_the_page_and_of_the_feed(garden: Garden, cast: Cast) -> None:
    planted(cast.plot, carrot(), successions=2)
    planted(cast.plot, tomato())
    (made,) = plans(garden, [cast.holder])
    season = plot_season(cast.plot, 2026, TODAY)
    assert list(made.entries) == season.calendar.entries
    dates = sorted((row.crop, row.earliest, row.best, row.latest) for row in made.plan.rows)
    assert dates == sorted((one.name, one.earliest, one.best, one.latest) for one in season.calendar.entries)
    assert season.strip is not None
    assert made.plan.strip.rows == season.strip.rows
    assert (made.plan.strip.first, made.plan.strip.frost) == (season.strip.first, season.strip.frost)


def test_a_card_has_the_jobs_of_the_week_s_page_with_water_and_days(garden: Garden, cast: Cast) -> None:
    planted(cast.plot, carrot())
    planted(cast.plot, tomato())
    holdings = holdings_of(garden, [cast.holder], TODAY)
    (week,) = week_cards(garden, holdings, day=TODAY, today=TODAY, paper="letter")
    dates = GardenDates.of(garden)
    assert dates is not None
    jobs = jobs_in_week(dates.entries([cast.plot], range(2025, 2028)), monday_of(TODAY))
    assert list(week.entries) == [task.entry for job in jobs for task in job.tasks]
    assert [line.what for line in week.card.tasks] == ["Transplant: Tomato"]
    assert [plain(line.when) for line in week.card.water] == ["1 in, 119 gal"]  # 25 mm on 18 m²
    assert [day.what for day in week.card.days] == ["Workday: Paths"]
    (later,) = week_cards(garden, holdings, day=date(2026, 12, 9), today=TODAY, paper="letter")
    assert (later.card.tasks, later.card.water) == ((), ())
    assert "Nothing is planned for this week." in later.card.following


def test_all_plots_of_a_member_are_on_one_sheet_shared_ones_too(garden: Garden, cast: Cast) -> None:
    planted(cast.plot, carrot())
    own = AssignmentFactory(
        plot=PlotFactory(garden=garden, label="A10"), holder=cast.co_gardener, began_on=date(2026, 1, 1)
    )
    AssignmentFactory(
        plot=PlotFactory(garden=garden, label="A2"), holder=cast.co_gardener, began_on=date(2026, 1, 1),
        season=own.season, ended_on=date(2026, 3, 1),
    )  # fmt: skip
    made = plans(garden, [cast.co_gardener, cast.member, cast.holder])
    assert [one.plan.title for one in made] == ["Plots A1 and A10 in 2026", "Plot A1 in 2026"]
    assert [one.plan.people for one in made] == ["Corin, Hollis", "Hollis, Corin"]
    assert [one.what for one in made[0].plan.days if one.fixed][:1] == ["Workday: Paths"]


def test_each_reads_their_own_language_and_the_garden_s_else(garden: Garden, cast: Cast) -> None:
    User.objects.filter(pk=cast.co_gardener.pk).update(language="es")
    cast.co_gardener.refresh_from_db()
    planted(cast.plot, carrot())
    made = plans(garden, [cast.holder, cast.co_gardener])
    assert [one.plan.language for one in made] == ["en", "es"]


def test_a_southern_year_runs_over_new_year(garden: Garden, cast: Cast) -> None:
    Garden.objects.filter(pk=garden.pk).update(latitude=-37.0)
    MeanFrost.objects.filter(garden=garden).update(last_month=10, last_day=10, first_month=5, first_day=1)
    planted(cast.plot, tomato())
    (made,) = plans(Garden.objects.get(pk=garden.pk), [cast.holder])
    strip = made.plan.strip
    assert (strip.first, strip.last) == (date(2026, 8, 1), date(2027, 7, 31))
    assert [(one.day, one.falling) for one in strip.middles] == [
        (date(2026, 10, 10), True),
        (date(2027, 5, 1), False),
    ]
    assert any(row.latest and row.latest.year == 2027 for row in made.plan.rows)


def test_a_garden_without_frost_dates_says_so_of_each_crop(garden: Garden, cast: Cast) -> None:
    GardenClimate.objects.filter(garden=garden, basis=BasisChoice.MEAN).delete()
    planted(cast.plot, tomato(), turn="spring")
    garden = Garden.objects.get(pk=garden.pk)
    (made,) = plans(garden, [cast.holder])
    (row,) = made.plan.rows
    assert (row.crop, row.operation, row.window) == ("Tomato", "transplant", None)
    assert "where its frost dates come from" in row.reasons[0]
    assert made.plan.record == "No frost dates yet"
    for to_pdf in (posters_pdf, booklets_pdf):
        assert "where its frost dates come from" in read(to_pdf([made.plan])).pages[0].text
    holdings = holdings_of(garden, [cast.holder], TODAY)
    (week,) = week_cards(garden, holdings, day=TODAY, today=TODAY, paper="letter")
    assert "where its frost dates come from" in week.card.following


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.code)
def test_page_paper_table_and_calendar_file_have_the_same_rows(garden: Garden, cast: Cast, kind) -> None:
    """Every kind, for a member, for plots, for several, for nobody; usual and large."""
    planted(cast.plot, carrot(), successions=2)
    planted(cast.plot, tomato())

    def asked(**choices) -> Asked:
        return Asked(
            garden=garden, user=cast.coordinator, today=TODAY, paper="a4", language="en-us",
            choices={"year": 2026, **choices},
        )  # fmt: skip

    made = kind.make(asked(member=cast.holder))
    assert made.laid_out is not None
    file = read(made.laid_out())
    assert made.entries
    csv = to_csv(made.document)
    for entry in made.entries:
        assert (close(entry.name) in file.closed, entry.name in csv) == (True, True)
        if kind.code != "job-card":
            assert short_day(entry.best) in csv
        if kind.code in ("calendar", "booklet"):
            assert close(short_day(entry.best)) in file.closed
    of_plots = kind.make(asked(member=None, plots=[cast.plot]))
    assert list(of_plots.entries) == list(made.entries)
    several = kind.together(asked(), [cast.holder, cast.co_gardener, cast.member])
    assert len(several.entries) == 2 * len(made.entries)
    assert "There is no plot to print a calendar for." in str(
        kind.make(asked(member=cast.member)).document.blocks
    )


def test_plots_without_people_are_named_by_what_they_are(garden: Garden, cast: Cast) -> None:
    shared = PlotFactory(garden=garden, label="Herbs", kind="communal")
    (found,) = holding_of_plots(garden, [shared], TODAY)
    assert found.people == "gardened by all"
