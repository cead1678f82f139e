"""A week on a card: boxes, reasons as far as there is room, nothing lost, one or two to a sheet."""

import re
from datetime import date

import pytest

from schedules.reports.document import Grid
from schedules.reports.job_card import JobCard, TaskLine, job_card, job_cards_pdf
from schedules.reports.member_plan import DayLine
from tests.schedules.reports.reading import close, read

WHY = "From April 26 on, a freeze of 24 °F, which kills them, still comes in 30 of 100 years. "


def tasks(count: int, name: str = "Sow: Crop {}") -> tuple[TaskLine, ...]:
    return tuple(
        TaskLine(
            name.format(n), "", "best this week, possible until May 29", f"{WHY} Reason {n}.", rank=count - n
        )
        for n in range(count)
    )


def card(*lines: TaskLine, **changes) -> JobCard:
    values = {
        "week": "Week of May 4 to May 10, 2026",
        "plots": "Plot 14",
        "people": "Nguyễn Thị Ánh",
        "garden": "Alder Row Community Garden",
        "record": "Dates from the daily record of Mill Bridge, 1989 to 2026.",
        "monday": date(2026, 5, 4),
        "tasks": lines,
        "water": (TaskLine("Water", "", "1 in, 45 gal, by Thursday, May 7", "By the weather."),),
        "days": (DayLine(date(2026, 5, 9), "Sat May 9, 9 a.m.–noon", "Workday: Paths"),),
        "following": "",
        "language": "en-us",
        "paper": "letter",
        "printed_on": date(2026, 5, 4),
    }
    return JobCard(**{**values, **changes})


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_usual_week_takes_half_a_sheet_with_its_reasons(paper: str) -> None:
    file = read(job_cards_pdf([card(*tasks(4), paper=paper), card(paper=paper, people="Kim")]))
    (page,) = file.pages
    for words in (
        *("Week of May 4 to May 10, 2026", "Nguyễn Thị Ánh", "Plot 14", "Workday: Paths"),
        *("1 in, 45 gal, by Thursday, May 7", "By the weather.", "What was done, seen and picked"),
        *("Sow: Crop 3", "Reason 0.", "Reason 3."),
        *("page 1 of 1", "Mill Bridge", "printed May 4, 2026"),
    ):
        assert words in page.text
    assert min(run.bottom for run in page.runs if "Kim" in run.text) < page.height / 2
    assert min(run.bottom for run in page.runs if "Sow" in run.text) > page.height / 2
    assert (file.faults(22), file.smallest >= 9.5) == ([], True)


def test_boxes_to_tick_are_drawn_for_every_job_and_its_water() -> None:
    file = read(job_cards_pdf([card(*tasks(4))]))
    data = file.reader.pages[0].get_contents().get_data().decode("latin-1")
    assert data.count(" re S") == 5
    assert "☐" not in file.text


def test_in_a_full_week_reasons_give_way_to_jobs_the_least_urgent_first() -> None:
    text = read(job_cards_pdf([card(*tasks(12)), card()])).text
    assert "page 1 of 1" in text
    assert [n for n in range(12) if f"Sow: Crop {n} " not in text] == []
    told = [n for n in range(12) if f"Reason {n}." in text]
    assert told == list(range(12 - len(told), 12))
    assert 0 < len(told) < 12


def test_jobs_stand_in_both_columns_and_no_word_of_when_alone_on_its_line() -> None:
    when = "sowing 1 of 3, possible now, best around May 7, until June 8"
    jobs = [TaskLine(f"Sow: Crop {n}", "", when, "") for n in range(4)]
    (page,) = read(job_cards_pdf([card(*jobs, water=())])).pages
    boxes = [run.left for run in page.runs if run.text.startswith("Sow: Crop")]
    assert [left > page.width / 2 for left in boxes] == [False, False, True, True]
    assert not [run for run in page.runs if run.text.strip() in ("8", "June 8")]


def test_two_cards_stand_on_a_sheet_whoever_they_are_for() -> None:
    people = [card(*tasks(2), people=f"Person {n}") for n in range(3)]
    file = read(job_cards_pdf(people))
    assert [[f"Person {n}" in page.text for n in range(3)] for page in file.pages] == [
        [True, True, False],
        [False, False, True],
    ]
    assert [entry.title for entry in file.reader.outline] == [f"Person {n}, Plot 14" for n in range(3)]


def test_one_card_alone_takes_the_whole_sheet_and_has_room_for_every_reason() -> None:
    file = read(job_cards_pdf([card(*tasks(20))]))
    (page,) = file.pages
    assert [n for n in range(20) if f"Reason {n}." not in page.text] == []
    assert min(run.bottom for run in page.runs if "Sow: Crop" in run.text) < page.height / 2
    assert file.faults(22) == []


def test_a_day_is_not_broken_from_its_month() -> None:
    when = "sowing 2 of 3, possible now, best around May 15, until June 6"
    lone = TaskLine("Sow: Lettuce, leaf and a name that is long", "", when, "")
    (page,) = read(job_cards_pdf([card(*[lone] * 3, water=())])).pages
    assert [run.text for run in page.runs if re.match(r"\s*\d", run.text)] == []


@pytest.mark.parametrize("large", [False, True])
def test_a_week_of_sixty_long_names_loses_nothing(large: bool) -> None:
    name = "Sow: Brussels sprouts, ‘Long Island Improved’, Donaudampfschifffahrtsgesellschaftskapitän {}!"
    people = "Maximiliana von Hohenwaldau " * 4
    file = read(job_cards_pdf([card(*tasks(60, name), large=large, people=people)]))
    text = file.closed
    assert [n for n in range(60) if close(name.format(n)) not in text] == []
    assert file.faults(22) == []
    assert file.smallest >= (18 if large else 9.5)


def test_a_reason_longer_than_a_card_stands_alone_and_ends_nothing() -> None:
    wordy = TaskLine("Sow: Okra", "", "now", "Because it is so. " * 20)
    text = read(job_cards_pdf([card(wordy, *tasks(3))])).text
    assert [n for n in range(3) if f"Sow: Crop {n} " not in text] == []


def test_a_week_without_jobs_says_what_comes_next() -> None:
    following = "Nothing is due this week. Next: peas."
    assert following in read(job_cards_pdf([card(water=(), days=(), following=following)])).text


def test_the_document_has_every_job_with_its_reason() -> None:
    (days, jobs) = (block for block in job_card(card(*tasks(3))).blocks if isinstance(block, Grid))
    assert days.rows == (("Sat May 9, 9 a.m.–noon", "Workday: Paths"),)
    assert [row[0] for row in jobs.rows] == ["Water", "Sow: Crop 0", "Sow: Crop 1", "Sow: Crop 2"]
    assert jobs.rows[3][3].endswith("Reason 2.")
