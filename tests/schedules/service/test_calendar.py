"""The door to the derivation: nerve, one planting's own windows, a plot's year."""

from __future__ import annotations

from datetime import date

import pytest

from crops.models import Start as StartChoice
from crops.models import Turn as TurnChoice
from plots.models import Plot
from schedules.climate import Basis, Climate
from schedules.seasons import Hemisphere
from schedules.service import GardenDates, effective_nerve, plot_season, weeks_ahead, years_around
from schedules.service import calendar as door
from schedules.service.sheet import calendar_rows
from schedules.windows import AS_PUBLISHED, BOLD, CAREFUL, MIDDLING, Nerve, Operation, Start, Turn
from tests.factories import GardenFactory, PlotFactory, VarietyFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato


def climate(basis: Basis) -> Climate:
    return Climate(basis, Hemisphere.NORTH, risk=lambda side, celsius: None)


@pytest.mark.parametrize(
    ("chosen", "basis", "nerve"),
    [
        ("", Basis.RECORD, MIDDLING),
        ("", Basis.TABLE, MIDDLING),
        ("", Basis.MEAN, AS_PUBLISHED),
        ("careful", Basis.MEAN, CAREFUL),
        ("middling", Basis.MEAN, MIDDLING),
        ("bold", Basis.RECORD, BOLD),
    ],
)
def test_a_gardens_choice_counts_before_what_its_dates_suggest(
    chosen: str, basis: Basis, nerve: Nerve
) -> None:
    garden = GardenFactory.build(nerve=chosen)
    assert effective_nerve(garden, climate(basis)) == nerve


def test_what_is_kept_and_what_is_derived_use_the_same_words() -> None:
    assert TurnChoice.values == [turn.value for turn in Turn]
    assert StartChoice.values == [start.value for start in Start]


@pytest.fixture
def plot(db: None) -> Plot:
    plot = PlotFactory(label="A1")
    set_mean_frost(plot.garden)
    return plot


def test_a_garden_without_frost_dates_has_none(db: None) -> None:
    assert GardenDates.of(GardenFactory()) is None


def test_a_planting_has_the_windows_of_its_own_way_and_number(plot: Plot) -> None:
    dates = GardenDates.of(plot.garden)
    once = dates.planting(planted(plot, carrot()))
    assert [(row.operation, row.succession) for row in once.entries] == [
        (Operation.SOW, 1),
        (Operation.HARVEST, 1),
    ]
    assert {window.turn for window in once.windows} == {Turn.SPRING}
    twice = dates.planting(planted(plot, once.planting.crop, successions=2))
    assert [(row.operation, row.succession, row.successions) for row in twice.entries] == [
        (Operation.SOW, 1, 2),
        (Operation.SOW, 2, 2),
        (Operation.HARVEST, 1, 2),
        (Operation.HARVEST, 2, 2),
    ]


def test_a_row_carries_the_dates_that_were_derived(plot: Plot) -> None:
    planting = planted(plot, tomato())
    dated = GardenDates.of(plot.garden).planting(planting)
    assert [(row.earliest, row.best, row.latest) for row in dated.entries] == sorted(
        (window.earliest, window.best, window.latest) for window in dated.windows
    )
    assert {row.name for row in dated.entries} == {"Tomato"}
    assert {row.plot_label for row in dated.entries} == {"A1"}
    assert {row.changed_at for row in dated.entries} == {planting.changed_at}


def test_a_varietys_facts_move_its_dates(plot: Plot) -> None:
    crop = carrot()
    quick = VarietyFactory(garden=plot.garden, crop=crop, name="Quick", maturity_days_low=40)
    dates = GardenDates.of(plot.garden)
    usual, sooner = (
        dates.planting(planted(plot, crop, variety=variety)).way.harvest for variety in (None, quick)
    )
    assert (usual.earliest - sooner.earliest).days == 20


def test_each_crop_and_year_is_derived_once(plot: Plot, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = []
    derive = door.derive

    def counted(facts, *args, **kwargs):
        asked.append((facts.slug, kwargs["year"]))
        return derive(facts, *args, **kwargs)

    monkeypatch.setattr(door, "derive", counted)
    crop = carrot()
    for year in (2025, 2026, 2026, 2026):
        planted(plot, crop, year=year)
    rows = GardenDates.of(plot.garden).entries([plot], (2025, 2026))
    assert len(rows) == 8
    assert sorted(asked) == [("carrot", 2025), ("carrot", 2026)]


@pytest.mark.parametrize("count", [1, 3])
def test_rows_take_the_same_queries_for_one_planting_and_for_three(
    plot: Plot, count: int, django_assert_num_queries
) -> None:
    for number in range(count):
        crop = carrot(slug=f"carrot-{number}")
        planted(plot, crop, variety=VarietyFactory(garden=plot.garden, crop=crop))
    dates = GardenDates.of(plot.garden)
    with django_assert_num_queries(7):
        dates.entries([plot], (2026,))


def test_on_a_sheet_what_was_begun_the_year_before_stands_first(plot: Plot) -> None:
    kept = carrot(slug="kept", name="Kept", harvest_days_low=120, harvest_days_high=240)
    planted(plot, kept, turn="autumn")
    planted(plot, kept, year=2025, turn="autumn")
    calendar = plot_season(plot, 2026, date(2026, 4, 20)).calendar
    assert (len(calendar.standing), len(calendar.plantings)) == (1, 1)
    first = next(row for row in calendar_rows(calendar, "metric") if row.latest)
    assert (first.operation, first.latest) == ("harvest", min(row.latest for row in calendar.entries))


def test_a_plots_year_holds_its_plantings_and_what_still_stands_from_the_year_before(plot: Plot) -> None:
    kept = carrot(slug="kept", name="Kept", harvest_days_low=120, harvest_days_high=240)
    this_year = planted(plot, carrot())
    standing = planted(plot, kept, year=2025, turn="autumn")
    planted(plot, tomato(), year=2025)
    planted(plot, carrot(slug="gone", name="Gone"), removed_at="2026-01-01T00:00Z")
    calendar = plot_season(plot, 2026, date(2026, 4, 20)).calendar
    assert [dated.planting for dated in calendar.plantings] == [this_year]
    assert [dated.planting for dated in calendar.standing] == [standing]
    assert {row.planting for row in calendar.entries} == {this_year.pk, standing.pk}
    assert all(row.latest.year >= 2026 for row in calendar.entries)
    assert calendar.entries == sorted(calendar.entries, key=lambda row: (row.earliest, row.latest))


def test_a_plan_without_frost_dates_still_lists_its_plantings(db: None) -> None:
    planting = planted(PlotFactory(), carrot())
    season = plot_season(planting.plot, 2026, date(2026, 4, 20))
    assert [dated.planting for dated in season.calendar.plantings] == [planting]
    assert season.calendar.entries == []
    assert (season.dates, season.strip, season.weeks) == (None, None, None)


def test_a_southern_garden_plants_its_spring_in_the_second_half_of_the_year(db: None) -> None:
    plot = PlotFactory(garden__latitude=-37.8)
    set_mean_frost(plot.garden, last=(10, 10), first=(5, 1))
    dated = GardenDates.of(plot.garden).planting(planted(plot, tomato()))
    assert dated.way.beginning.earliest == date(2026, 10, 17)
    assert dated.way.harvest.latest == date(2027, 3, 27)
    following = plot_season(plot, 2027, date(2027, 1, 10)).calendar
    assert [standing.planting.year for standing in following.standing] == [2026]


def test_a_week_over_new_year_looks_at_the_plantings_of_four_years() -> None:
    assert list(years_around(date(2026, 12, 29))) == [2025, 2026, 2027, 2028]
    assert list(years_around(date(2026, 6, 1))) == [2025, 2026, 2027]


def test_the_weeks_ahead_begin_with_the_one_asked_for_and_leave_out_empty_ones(plot: Plot) -> None:
    planted(plot, tomato())
    entries = GardenDates.of(plot.garden).entries([plot], (2026,))
    ahead = weeks_ahead(entries, date(2026, 5, 21))
    assert [(week.monday, [job.operation for job in week.jobs]) for week in (ahead.this, *ahead.coming)] == [
        (date(2026, 5, 18), [Operation.TRANSPLANT, Operation.HARDEN_OFF]),
        (date(2026, 5, 25), [Operation.HARDEN_OFF]),
        (date(2026, 6, 1), [Operation.TRANSPLANT]),
    ]
    assert ahead.later is None


def test_where_nothing_comes_soon_the_next_opening_is_named(plot: Plot) -> None:
    planted(plot, tomato())
    entries = GardenDates.of(plot.garden).entries([plot], (2026,))
    winter = weeks_ahead(entries, date(2026, 1, 5))
    assert (winter.this.jobs, winter.coming) == ([], [])
    assert (winter.later.operation, winter.later.earliest) == (Operation.START_INDOORS, date(2026, 3, 22))
    assert weeks_ahead(entries, date(2026, 11, 2)).later is None
