"""Words for dates, ways and what a week says about a window."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from schedules.entries import Entry, Way
from schedules.jobs import Moment, Task
from schedules.windows import Operation, Start, Turn, Window
from schedules.wording.calendar import (
    day_text,
    event_title,
    moment_text,
    row_name,
    short_span_text,
    span_text,
    succession_text,
    turn_name,
    way_dates,
    way_name,
)


def entry(operation: Operation) -> Entry:
    return Entry(
        planting=1,
        plot=1,
        plot_label="A1",
        name="Carrot",
        operation=operation,
        succession=1,
        successions=1,
        earliest=date(2026, 4, 10),
        best=date(2026, 4, 25),
        latest=date(2026, 5, 10),
        reasons=(),
        changed_at=datetime(2026, 1, 1, tzinfo=UTC),
    )


def test_a_year_is_said_only_where_it_is_another() -> None:
    assert day_text(date(2026, 4, 10), 2026) == "April 10"
    assert day_text(date(2027, 4, 10), 2026) == "April 10, 2027"
    assert day_text(date(2026, 4, 10)) == "April 10, 2026"


@pytest.mark.parametrize(
    ("earliest", "latest", "year", "text"),
    [
        (date(2026, 4, 10), date(2026, 5, 20), 2026, "April 10 to May 20"),
        (date(2026, 4, 10), date(2026, 4, 10), 2026, "April 10"),
        (date(2026, 11, 10), date(2027, 1, 20), 2026, "November 10 to Jan. 20, 2027"),
        (date(2025, 12, 10), date(2026, 1, 20), 2026, "Dec. 10, 2025 to January 20"),
        (date(2027, 6, 10), date(2027, 7, 20), 2026, "June 10 to July 20, 2027"),
    ],
)
def test_spans_across_years(earliest: date, latest: date, year: int, text: str) -> None:
    assert span_text(earliest, latest, year) == text


def test_a_narrow_column_has_short_months() -> None:
    assert short_span_text(date(2026, 4, 10), date(2026, 5, 20), 2026) == "Apr 10 – May 20"
    assert short_span_text(date(2026, 4, 10), date(2026, 4, 10), 2026) == "Apr 10"
    assert short_span_text(date(2026, 11, 1), date(2027, 1, 20), 2026) == "Nov 1 – Jan 20, 2027"
    assert short_span_text(date(2027, 5, 26), date(2027, 7, 9), 2026) == "May 26 – Jul 9, 2027"
    assert short_span_text(date(2025, 12, 1), date(2026, 1, 20), 2026) == "Dec 1, 2025 – Jan 20"


@pytest.mark.parametrize(
    ("moment", "text"),
    [
        (Moment.ONLY, "this week only, April 10 to May 10"),
        (Moment.LAST, "last week for it, until May 10"),
        (Moment.BEST, "best this week, possible until May 10"),
        (Moment.LATE, "still possible until May 10"),
        (Moment.OPENS, "from April 10 on, best around April 25"),
        (Moment.EARLY, "possible now, best around April 25, until May 10"),
        (Moment.CLOSED, "its time ended on May 10"),
    ],
)
def test_every_moment_has_its_words(moment: Moment, text: str) -> None:
    assert moment_text(Task(entry(Operation.SOW), moment)) == text


def test_picking_is_worded_as_picking() -> None:
    assert moment_text(Task(entry(Operation.HARVEST), Moment.OPENS)) == "first picking from about April 10"
    assert (
        moment_text(Task(entry(Operation.HARVEST), Moment.LAST)) == "last week of picking, until about May 10"
    )


def test_a_sowing_is_numbered_only_among_several() -> None:
    assert succession_text(1, 1) == ""
    assert succession_text(2, 3) == "sowing 2 of 3"


def test_an_autumn_planting_is_told_apart_on_a_calendar() -> None:
    assert row_name("Kale", Turn.SPRING) == "Kale"
    assert row_name("Kale", Turn.AUTUMN) == "Kale, autumn"


def test_ways_and_turns_have_names() -> None:
    assert turn_name(Turn.AUTUMN) == "Autumn"
    assert way_name(Turn.SPRING, Start.TRANSPLANT) == "Spring, as seedlings raised under cover"


def test_a_way_tells_its_beginning_and_its_harvest() -> None:
    def window(operation: Operation, earliest: date, latest: date) -> Window:
        return Window(
            crop="carrot",
            operation=operation,
            turn=Turn.SPRING,
            start=Start.SOW,
            succession=1,
            earliest=earliest,
            best=earliest,
            latest=latest,
            reasons=(),
        )

    sown = window(Operation.SOW, date(2026, 4, 10), date(2026, 5, 10))
    picked = window(Operation.HARVEST, date(2026, 7, 1), date(2026, 8, 30))
    assert way_dates(Way(Turn.SPRING, Start.SOW, (sown, picked)), 2026) == (
        "Sow April 10 to May 10; harvest July 1 to August 30"
    )
    assert way_dates(Way(Turn.SPRING, Start.SOW, (sown,)), 2026) == "Sow April 10 to May 10"
    assert way_dates(Way(Turn.SPRING, Start.SOW, ()), 2026) == ""


def test_an_event_says_until_when_it_can_wait() -> None:
    assert event_title(entry(Operation.SOW)) == "Sow: Carrot (until May 10)"
