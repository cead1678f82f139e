"""The sheets are read back as a reader of the file would: text, pages, fonts, and what stands where."""

import io
from dataclasses import replace
from datetime import date

import pypdf
import pytest

from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.document import Document, Grid
from schedules.reports.member_calendar import member_calendar, member_calendars_pdf
from schedules.reports.poster import poster
from schedules.reports.season import StripRow
from tests.schedules.reports import reading
from tests.schedules.reports.samples import GARLIC, REASONS, TOMATO, mark, plan, plot_plan

NAMES = "Nguyễn Thị Ánh, Łukasz Żółć, Олена Їжакевич, Ελένη Παπαδοπούλου, Şükrü, Ọlá Ẹniọlá"


def read(calendar) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(member_calendars_pdf([calendar])))


def text_of(reader: pypdf.PdfReader) -> str:
    return " ".join("\n".join(page.extract_text() for page in reader.pages).split())


def test_every_date_and_reason_is_on_paper():
    text = text_of(read(plan(TOMATO)))
    for expected in (
        "Plot 14 in 2026",
        "Tomato",
        "start indoors",
        "Mar 8",
        "Mar 15",
        "Mar 29",
        "Oct 2",
        *REASONS,
    ):
        assert expected in text
    assert text.index("Month by month") < text.index("Crop by crop, and why")


def test_a_date_of_another_year_says_so():
    text = text_of(read(plan(TOMATO, GARLIC)))
    assert "July 2027" in text
    assert "Jun 20, 2027" in text
    assert "Oct 15, 2026" not in text


def test_names_of_many_scripts_come_back_as_they_were():
    assert NAMES in text_of(read(plan(TOMATO, people=NAMES)))


def test_names_the_typeface_lacks_are_owned_up_to():
    text = text_of(read(plan(TOMATO, people="For ᚠᚢᚦ")))
    assert "For [Runic]" in text
    assert "Words in square brackets stand for letters" in text
    assert "square brackets" not in text_of(read(plan(TOMATO)))


@pytest.mark.parametrize("name", ['<img src="file:///etc/hostname"/>', "<b>unclosed", "a & b </para>"])
def test_markup_in_names_is_printed_not_obeyed(name):
    row = StripRow(name, TOMATO.marks)
    assert name in text_of(read(plan(row, people=name)))


@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595.28, 841.89))])
def test_the_garden_chooses_its_paper(paper, size):
    for page in read(plan(TOMATO, paper=paper)).pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


def test_the_file_says_what_it_is():
    reader = read(plan(TOMATO))
    assert reader.metadata.title == "Plot 14 in 2026"
    assert reader.metadata.author == "Alder Row Community Garden"
    assert reader.trailer["/Root"]["/Lang"] == "en-us"


def test_every_page_says_whose_it_is_and_where_the_dates_came_from():
    reader = read(plan(*[StripRow(f"Crop {n}", TOMATO.marks) for n in range(12)]))
    count = len(reader.pages)
    assert count > 2
    for number, page in enumerate(reader.pages, start=1):
        text = " ".join(page.extract_text().split())
        assert "Alder Row Community Garden" in text
        assert "printed Feb. 3, 2026" in text
        assert f"page {number} of {count}" in text
        assert "Dates from the daily record of Mill Bridge, 1989 to 2026." in text


def test_only_embedded_fonts_are_used():
    for page in read(plan(TOMATO, GARLIC)).pages:
        for font in page["/Resources"]["/Font"].values():
            described = font.get_object()
            assert described["/BaseFont"].split("+")[1].startswith("FiraSans")
            assert "/FontFile2" in described["/FontDescriptor"]


def test_thirty_crops_with_long_names_stay_on_the_page():
    """Every piece of text lies between the margins of its page, none over another line's beginning."""
    long = "Brussels sprouts, ‘Long Island Improved’, Donaudampfschifffahrtsgesellschaftskapitän number {}"
    rows = [StripRow(long.format(n), TOMATO.marks + GARLIC.marks) for n in range(30)]
    file = reading.read(member_calendars_pdf([plan(*rows, people=NAMES * 4)]))
    text = file.text
    for n in range(30):
        assert text.count(f"number {n} ") >= 3
    assert file.faults(50) == []


def test_a_crop_that_runs_over_a_page_is_named_again():
    sowings = tuple(mark("sow", (2026, 4, 1), (2026, 4, n), (2026, 6, 1)) for n in range(1, 26))
    reader = read(plan(StripRow("Carrot", sowings)))
    pages = [page.extract_text() for page in reader.pages]
    why = next(n for n, text in enumerate(pages) if "Crop by crop" in text)
    assert len(pages) > why + 1
    assert all("Carrot" in text and "earliest" in text for text in pages[why + 1 :])


def test_a_reason_longer_than_a_page_is_printed_whole():
    wordy = CalendarRow("Okra", "sow", "sow", reasons=("It is so because of this. " * 400 + "The end.",))
    assert "The end." in text_of(read(plan(TOMATO, no_window=(wordy,))))


def test_no_page_begins_with_the_last_line_of_a_reason_alone():
    left = set()
    for count in (285, 290, 295):  # a line more each time
        wordy = CalendarRow(
            "Okra", "sow", "sow", reasons=("It is so because of this. " * count + "The end.",)
        )
        *_others, last = reading.read(member_calendars_pdf([plan(TOMATO, no_window=(wordy,))])).pages
        left.add(len([run for run in last.runs if "because" in run.text or "The end." in run.text]))
    assert 1 not in left
    assert 2 in left


def test_no_window_is_printed_with_its_reason():
    okra = CalendarRow(
        crop="Okra",
        operation="transplant",
        operation_name="transplant",
        reasons=("Needs 110 frost-free days; this garden has 96 in 7 years of 10.",),
    )
    text = text_of(read(plan(TOMATO, no_window=(okra,))))
    assert "Okra" in text
    assert "no window" in text
    assert "Needs 110 frost-free days" in text


def test_an_empty_plan_speaks():
    reader = read(plan())
    assert len(reader.pages) == 1
    assert "Nothing is planned yet." in text_of(reader)


def test_today_is_not_printed_on_what_hangs_for_a_year():
    assert "today" not in text_of(read(plan(TOMATO)))


def test_printing_twice_gives_the_same_file():
    calendar = plan(TOMATO, GARLIC)
    assert calendar.printed_on == date(2026, 2, 3)
    assert member_calendars_pdf([calendar]) == member_calendars_pdf([calendar])


@pytest.mark.parametrize(("large", "least"), [(False, 9.5), (True, 18.0)])
def test_small_print_is_large_enough_to_read(large: bool, least: float):
    """Drawings included; and the large edition lies within its margins too."""
    plots = (plot_plan(TOMATO, label="14"), plot_plan(GARLIC, TOMATO, label="By the north gate 7"))
    file = reading.read(member_calendars_pdf([plan(plots=plots, large=large, people=NAMES)]))
    assert file.smallest == least
    assert file.faults(50) == []
    for reason in (*REASONS, "Tomato (14)", "Garlic (By the north gate 7)", "Oct 2"):
        assert reading.close(reason) in file.closed


def test_calendars_of_several_are_one_file_with_an_outline_and_one_set_of_fonts():
    """Each in its own language and with page numbers of its own."""
    two = [plan(TOMATO), plan(GARLIC, people="Łukasz Żółć")]
    reader = pypdf.PdfReader(io.BytesIO(member_calendars_pdf(two)))
    assert [one.title for one in reader.outline] == [
        "Nguyễn Thị Ánh, Plot 14 in 2026",
        "Łukasz Żółć, Plot 14 in 2026",
    ]
    assert sum("page 1 of" in page.extract_text() for page in reader.pages) == 2
    found = [font for page in reader.pages for font in page["/Resources"]["/Font"].values()]
    assert len({str(font.get_object()["/BaseFont"]) for font in found}) <= 4


def test_the_document_has_every_row_and_reason():
    blocks = member_calendar(plan(TOMATO, GARLIC)).blocks
    rows = [row for block in blocks if isinstance(block, Grid) for row in block.rows]
    assert ("Tomato", "start indoors", "Mar 8", "Mar 15", "Mar 29", " ".join(REASONS)) in rows
    assert ("Oct 15", "sow", "Garlic", "Oct 1 – Nov 5") in rows
    assert ("Garlic", "harvest", "Jun 20, 2027", "Jul 4, 2027", "Jul 20, 2027", " ".join(REASONS)) in rows


def test_days_of_a_plan_that_begins_the_year_before_are_written_as_on_its_poster() -> None:
    before = replace(
        TOMATO,
        marks=(mark("transplant", (2025, 11, 2), (2025, 11, 9), (2025, 12, 1)), TOMATO.marks[-1]),
    )
    made = plan(before, strip=replace(plan(before, GARLIC).strip, first=date(2025, 11, 1)))
    days = {row[0] for row in grid(member_calendar(made), "best").rows}
    assert days == {row[2] for row in grid(poster(made), "best").rows} == {"Nov 9, 2025", "Aug 1"}


def grid(document: Document, title: str) -> Grid:
    return next(block for block in document.blocks if isinstance(block, Grid) and title in block.titles)
