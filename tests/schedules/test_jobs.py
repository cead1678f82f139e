"""Weekly jobs: what a week says about each window, and in which order."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from schedules.entries import Entry
from schedules.jobs import (
    Moment,
    by_crop,
    by_operation,
    coming_jobs,
    jobs_in_week,
    matching,
    moment_in_week,
    monday_of,
)
from schedules.windows import Operation

APRIL_13 = date(2026, 4, 13)  # a Monday


def sowing(
    earliest: date,
    best: date,
    latest: date,
    *,
    operation: Operation = Operation.SOW,
    planting: int = 1,
    plot: int = 1,
    succession: int = 1,
) -> Entry:
    return Entry(
        planting=planting,
        plot=plot,
        plot_label=str(plot),
        name="Carrot",
        operation=operation,
        succession=succession,
        successions=succession,
        earliest=earliest,
        best=best,
        latest=latest,
        reasons=(),
        changed_at=datetime(2026, 1, 1, tzinfo=UTC),
    )


@pytest.mark.parametrize(
    ("day", "monday"),
    [
        (date(2026, 4, 13), date(2026, 4, 13)),
        (date(2026, 4, 19), date(2026, 4, 13)),
        (date(2027, 1, 1), date(2026, 12, 28)),
        (date(2024, 2, 29), date(2024, 2, 26)),
    ],
)
def test_a_week_starts_on_monday_across_year_and_leap_day(day: date, monday: date) -> None:
    assert monday_of(day) == monday


@pytest.mark.parametrize(
    ("monday", "moment"),
    [
        (date(2026, 3, 30), None),
        (date(2026, 4, 6), Moment.OPENS),
        (date(2026, 4, 13), Moment.EARLY),
        (date(2026, 4, 20), Moment.BEST),
        (date(2026, 4, 27), Moment.LATE),
        (date(2026, 5, 4), Moment.LAST),
        (date(2026, 5, 11), Moment.CLOSED),
        (date(2026, 5, 18), None),
    ],
)
def test_each_week_of_a_window_says_where_it_stands(monday: date, moment: Moment | None) -> None:
    window = sowing(date(2026, 4, 10), date(2026, 4, 25), date(2026, 5, 10))
    assert moment_in_week(window, monday) == moment


def test_a_window_within_one_week_is_this_week_only_even_over_new_year() -> None:
    window = sowing(date(2026, 12, 29), date(2026, 12, 31), date(2027, 1, 3))
    assert moment_in_week(window, date(2026, 12, 28)) is Moment.ONLY


def test_the_last_week_outranks_the_best_week() -> None:
    window = sowing(date(2026, 4, 1), date(2026, 4, 15), date(2026, 4, 19))
    assert moment_in_week(window, APRIL_13) is Moment.LAST


@pytest.mark.parametrize("operation", [Operation.THIN, Operation.HARDEN_OFF, Operation.HARVEST])
def test_only_a_missed_beginning_is_mentioned_after_its_window(operation: Operation) -> None:
    window = sowing(date(2026, 4, 1), date(2026, 4, 3), date(2026, 4, 12), operation=operation)
    assert moment_in_week(window, APRIL_13) is None


def test_the_same_operation_on_several_plantings_is_one_job_with_the_urgent_one_first() -> None:
    relaxed = sowing(date(2026, 4, 1), date(2026, 5, 1), date(2026, 6, 1), planting=1)
    closing = sowing(date(2026, 4, 1), date(2026, 4, 5), date(2026, 4, 18), planting=2)
    jobs = jobs_in_week([relaxed, closing], APRIL_13)
    assert [(job.operation, [task.entry.planting for task in job.tasks]) for job in jobs] == [
        (Operation.SOW, [2, 1])
    ]
    assert jobs[0].moment is Moment.LAST
    assert [task.moment for task in jobs[0].tasks] == [Moment.LAST, Moment.EARLY]


def test_plots_and_operations_stay_apart_and_urgency_orders_them() -> None:
    windows = [
        sowing(date(2026, 4, 1), date(2026, 5, 1), date(2026, 6, 1), plot=2),
        sowing(date(2026, 4, 1), date(2026, 5, 1), date(2026, 6, 1), plot=1),
        sowing(date(2026, 4, 14), date(2026, 4, 15), date(2026, 4, 17), operation=Operation.THIN, plot=2),
        sowing(date(2026, 4, 1), date(2026, 4, 2), date(2026, 4, 12), operation=Operation.TRANSPLANT),
    ]
    assert [(job.plot, job.operation, job.moment) for job in jobs_in_week(windows, APRIL_13)] == [
        (2, Operation.THIN, Moment.ONLY),
        (1, Operation.SOW, Moment.EARLY),
        (2, Operation.SOW, Moment.EARLY),
        (1, Operation.TRANSPLANT, Moment.CLOSED),
    ]


def test_successions_open_in_one_week_are_two_tasks_of_one_job() -> None:
    windows = [
        sowing(date(2026, 4, 1), date(2026, 4, 5), date(2026, 4, 30), succession=1),
        sowing(date(2026, 4, 15), date(2026, 4, 19), date(2026, 5, 14), succession=2),
    ]
    (job,) = jobs_in_week(windows, APRIL_13)
    found = [(task.entry.succession, task.moment) for task in job.tasks]
    assert found == [(2, Moment.BEST), (1, Moment.LATE)]


def test_coming_weeks_list_only_what_opens_is_best_or_closes() -> None:
    window = sowing(date(2026, 4, 22), date(2026, 5, 6), date(2026, 5, 22))
    weeks = coming_jobs([window], APRIL_13, weeks=6)
    assert [(monday, [job.moment for job in jobs]) for monday, jobs in weeks] == [
        (date(2026, 4, 20), [Moment.OPENS]),
        (date(2026, 4, 27), []),
        (date(2026, 5, 4), [Moment.BEST]),
        (date(2026, 5, 11), []),
        (date(2026, 5, 18), [Moment.LAST]),
        (date(2026, 5, 25), []),
    ]


def labelled(label: str, name: str = "Carrot", planting: int = 1, latest: date = date(2026, 6, 1)) -> Entry:
    entry = sowing(date(2026, 4, 1), date(2026, 5, 1), latest, planting=planting, plot=planting)
    return replace(entry, plot_label=label, name=name)


def test_a_gardens_jobs_by_plot_follow_the_stakes() -> None:
    jobs = jobs_in_week([labelled("A10", planting=1), labelled("A2", planting=2)], APRIL_13)
    assert [(operation, [job.plot_label for job in group]) for operation, group in by_operation(jobs)] == [
        (Operation.SOW, ["A2", "A10"])
    ]


def test_a_gardens_jobs_by_crop_name_each_crop_once_with_its_plots() -> None:
    entries = [
        labelled("A10", planting=1),
        labelled("A2", planting=2),
        labelled("A2", "Beet", planting=3, latest=date(2026, 4, 18)),
        labelled("A3", planting=4, latest=date(2026, 6, 2)),
    ]
    ((operation, shared),) = by_crop(jobs_in_week(entries, APRIL_13))
    assert operation is Operation.SOW
    assert [
        (one.task.entry.name, [entry.plot_label for entry in one.entries], one.is_urgent) for one in shared
    ] == [("Beet", ["A2"], True), ("Carrot", ["A2", "A10"], False), ("Carrot", ["A3"], False)]


def test_a_search_finds_a_plot_by_its_label_and_a_crop_by_part_of_its_name() -> None:
    entries = [labelled("A1"), labelled("A10", "Beet", planting=2), labelled("A10", planting=3)]
    jobs = jobs_in_week(entries, APRIL_13)

    def found(query: str) -> list[tuple[str, str]]:
        return [(job.plot_label, task.entry.name) for job in matching(jobs, query) for task in job.tasks]

    assert sorted(found("")) == [("A1", "Carrot"), ("A10", "Beet"), ("A10", "Carrot")]
    assert found("a1") == [("A1", "Carrot")]
    assert found("BEE") == [("A10", "Beet")]
    assert found("leek") == []


def test_every_day_of_a_window_is_in_exactly_one_week_that_mentions_it() -> None:
    window = sowing(date(2026, 12, 20), date(2026, 12, 28), date(2027, 1, 12))
    days = [window.earliest + timedelta(days=n) for n in range((window.latest - window.earliest).days + 1)]
    moments = [moment_in_week(window, monday_of(day)) for day in days]
    assert None not in moments
    assert Moment.CLOSED not in moments
