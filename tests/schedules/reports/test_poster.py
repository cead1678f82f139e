"""The season on one sheet: everything on it, nothing out of it, and still to be read."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from schedules.reports.booklet import booklets_pdf
from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.document import Grid
from schedules.reports.member_calendar import member_calendars_pdf
from schedules.reports.member_plan import key_dates
from schedules.reports.poster import poster, posters_pdf
from schedules.reports.season import StripMark, StripRow
from tests.schedules.reports.reading import close, read
from tests.schedules.reports.samples import GARLIC, TOMATO, mark, plan, plot_plan

LONG = "Brussels sprouts, ‘Long Island Improved’, Donaudampfschifffahrtsgesellschaftskapitän {}"


def moved(row: StripRow, label: str, days: int) -> StripRow:
    by = timedelta(days=days)
    marks = [replace(m, earliest=m.earliest + by, best=m.best + by, latest=m.latest + by) for m in row.marks]
    return StripRow(label, tuple(marks))


def many(count: int, name: str = "Crop of the plan no. {}") -> list[StripRow]:
    """Tomatoes sown twice, a little later each time: two lanes and more."""
    second = tuple(replace(m, best=m.best + timedelta(days=9)) for m in TOMATO.marks)
    return [moved(replace(TOMATO, marks=TOMATO.marks + second), name.format(n), n) for n in range(count)]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_thirty_crops_stand_on_one_sheet(paper: str) -> None:
    made = plan(*many(30), paper=paper)
    sheet = read(posters_pdf([made]))
    assert len(sheet.pages) == 1
    text = sheet.text
    for n, row in enumerate(made.plots[0].plantings):
        assert f"Crop of the plan no. {n} " in text
        assert row.marks
    best = {run.text for run in sheet.pages[0].runs}
    assert {"indoors", "outdoors", "pick"} <= best
    assert {"May 10", "Jun 8", "Aug 1", "Aug 30"} <= best  # outdoors and to pick: first and last row
    assert (sheet.faults(26), sheet.smallest >= 9.5) == ([], True)


@pytest.mark.parametrize(("count", "name", "sheets"), [(8, LONG, 1), (30, LONG, 4), (45, "Crop {}", 2)])
def test_what_one_sheet_cannot_hold_goes_on_on_the_next(count: int, name: str, sheets: int) -> None:
    sheet = read(posters_pdf([plan(*many(count, name))]))
    text = sheet.closed
    assert [n for n in range(count) if close(name.format(n)) not in text] == []
    assert len(sheet.pages) == sheets
    assert sheet.faults(26) == []


@pytest.mark.parametrize("count", [0, 8, 30])
def test_the_large_edition_is_large_and_whole(count: int) -> None:
    rows = many(count)
    sheet = read(posters_pdf([plan(*rows, large=True, people="Maximiliana von Hohenwaldau " * 6)]))
    text = sheet.closed
    assert [row.label for row in rows if close(row.label) not in text] == []
    assert (sheet.faults(26), sheet.smallest) == ([], 18.0)
    assert "Daystoremember" in text
    assert text.count("outdoors") == text.count("pick") == count
    assert "Watersturnedoff" not in text


def test_rows_are_dealt_to_the_large_sheets_evenly_and_no_plots_number_stands_alone() -> None:
    plots = (plot_plan(*many(4, "Garlic (cloves), autumn"), label="1"), plot_plan(TOMATO, label="2"))
    pages = read(posters_pdf([plan(plots=plots, large=True)])).pages
    assert [page.text.count("pick") for page in pages] == [2, 3, 0]
    (page,) = read(posters_pdf([plan(plots=plots)])).pages
    lines = {run.bottom: [r.text.strip() for r in page.runs if r.bottom == run.bottom] for run in page.runs}
    assert ["1"] not in lines.values()


def test_a_plan_over_new_year_in_the_south_has_its_months_and_years() -> None:
    rows = [moved(TOMATO, "Tomato", 150), moved(GARLIC, "Garlic", 150)]
    made = plan(*rows)
    sheet = read(posters_pdf([made]))
    text = sheet.text
    assert (made.strip.first, made.strip.last) == (date(2026, 8, 1), date(2027, 12, 31))
    assert ("2026" in text, "2027" in text, sheet.faults(26)) == (True, True, [])


def test_an_empty_plan_says_so_with_the_next_step_and_keeps_the_year() -> None:
    text = read(posters_pdf([plan()])).text
    assert "Nothing is planned yet. Choose crops for the plot under “Plan”" in text
    for kept in ("Days to remember", "Water is turned on", "Workday: Spring opening", "Jan", "Dec"):
        assert kept in text


def test_plots_of_one_member_share_a_sheet_and_are_told_apart() -> None:
    plots = (plot_plan(TOMATO, label="14"), plot_plan(GARLIC, TOMATO, label="By the north gate 7"))
    sheet = read(posters_pdf([plan(plots=plots, title="Plots 14 and By the north gate 7 in 2026")]))
    text = sheet.text
    assert len(sheet.pages) == 1
    assert text.count("By the north gate 7") >= 3
    assert sheet.faults(26) == []


def test_days_to_remember_are_frosts_short_windows_and_days_of_the_garden_in_order() -> None:
    short = StripRow("Peas", (StripMark("sow", date(2026, 4, 1), date(2026, 4, 2), date(2026, 4, 4)),))
    found = key_dates(plan(TOMATO, short), 9)
    days = [one.day for one in found]
    assert days == sorted(days)
    whats = [one.what for one in found]
    for expected in ("Half of the years have had their last frost", "sow: Peas", "Workday: Spring opening"):
        assert expected in whats
    assert not any(one.startswith("harvest") for one in whats)
    assert len(key_dates(plan(TOMATO, short), 2)) == 2


def test_several_posters_are_named_in_the_outline() -> None:
    two = [plan(TOMATO), plan(GARLIC, people="Łukasz Żółć")]
    sheet = read(posters_pdf(two))
    assert [entry.title for entry in sheet.reader.outline] == [
        "Nguyễn Thị Ánh, Plot 14 in 2026",
        "Łukasz Żółć, Plot 14 in 2026",
    ]
    assert posters_pdf(two) == posters_pdf(two)


def test_the_document_holds_every_row_of_the_poster() -> None:
    made = plan(TOMATO, GARLIC)
    table = next(block for block in poster(made).blocks if isinstance(block, Grid) and len(block.titles) == 4)
    assert [(row[0], row[2]) for row in table.rows] == [
        ("Tomato", "Mar 15"),
        ("Tomato", "May 10"),
        ("Tomato", "Aug 1"),
        ("Garlic", "Oct 15"),
        ("Garlic", "Jul 4, 2027"),
    ]


def test_done_marks_have_their_place_in_the_key() -> None:
    done = StripRow("Peas", (replace(mark("sow", (2026, 4, 1), (2026, 4, 2), (2026, 4, 4)), done=True),))
    assert "done" in read(posters_pdf([plan(done)])).text
    assert "done" not in read(posters_pdf([plan(TOMATO)])).text


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("to_pdf", [posters_pdf, booklets_pdf, member_calendars_pdf])
@pytest.mark.parametrize("rows", [(), (TOMATO,)])
def test_crops_without_a_window_are_named_in_every_edition(
    to_pdf, rows: tuple[StripRow, ...], large: bool
) -> None:
    refused = tuple(
        CalendarRow(LONG.format(n), "sow", "sow", reasons=("Needs 110 frost-free days.",)) for n in range(12)
    )
    file = read(to_pdf([plan(*rows, no_window=refused, large=large)]))
    assert [row.crop for row in refused if close(row.crop) not in file.closed] == []
    assert ("no window" in file.text, "Nothing is planned" in file.text) == (True, False)
    assert file.faults(26) == []


def test_letters_that_no_typeface_has_are_told_of_at_the_foot_of_every_edition() -> None:
    made = plan(TOMATO, people="अनिता")
    for to_pdf in (posters_pdf, booklets_pdf, member_calendars_pdf):
        pages = read(to_pdf([made])).pages
        assert all("Words in square brackets stand for letters" in page.text for page in pages)
        assert "square brackets" not in read(to_pdf([plan(TOMATO)])).text
