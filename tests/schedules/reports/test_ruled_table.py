"""Tables over several pages: no row alone, and each page says what its first rows belong to."""

import csv
import io
from datetime import date

from pypdf import PdfReader

from schedules.reports.document import Document, Head, Page
from schedules.reports.setting import to_pdf
from schedules.reports.sheet import SMALL
from schedules.reports.sheet_csv import to_csv
from tests.schedules.reports.reading import read


def sheet(rows: list[tuple[str, ...]], *, lead: int = 0, large: bool = False, **how) -> Document:
    """A table after so many lines of text, under a heading with a sentence."""
    page = Page(Head("Linden Row", "Table", "letter", "en", date(2026, 11, 25), large=large))
    for n in range(lead):
        page.text(f"lead{n}")
    page.heading("Heading")
    page.text("It leads in.")
    page.table(rows, shares=(1, 2, 2)[: len(rows[0])], **how)
    return page.document()


def pages(document: Document) -> list[list[str]]:
    reader = PdfReader(io.BytesIO(to_pdf(document)))
    return [page.extract_text().split() for page in reader.pages]


def test_a_group_is_named_once_on_a_page_and_again_on_the_next_and_in_every_row_of_a_file():
    rows = [("PlotA", f"crop{n}") for n in range(45)] + [("PlotB", "last0"), ("PlotB", "last1")]
    made = sheet(rows, titles=("Plot", "What"), grouped=True)
    first, *others = found = pages(made)
    assert [page.count("PlotA") for page in found] == [1] * len(found)
    assert [page[:3] for page in others] == [["Plot", "What", "PlotA"]] * len(others)
    assert (first.count("PlotB"), sum(page.count("PlotB") for page in others)) == (0, 1)
    assert [row for row in csv.reader(io.StringIO(to_csv(made))) if row[0] == "PlotA"] == [
        ["PlotA", f"crop{n}"] for n in range(45)
    ]


def test_no_row_stands_alone_and_a_heading_keeps_its_sentence_and_two_rows():
    for lead in range(20, 26):
        found = pages(sheet([(f"row{n}", "x") for n in range(4)], lead=lead, titles=("What", "x")))
        on = [sum(word.startswith("row") for word in page) for page in found]
        assert 1 not in on, (lead, on)
        (headed,) = [n for n, page in enumerate(found) if "Heading" in page]
        assert on[headed] >= 2, (lead, on)


def test_a_row_higher_than_an_eighth_of_a_page_is_no_hindrance():
    rows = [("row", "a long word " * 40) for _n in range(5)]
    assert sum(page.count("row") for page in pages(sheet(rows, titles=("What", "x"), large=True))) == 5


def test_columns_of_numbers_stay_a_table_in_large_letters_and_keep_their_distance():
    titles = ("Crop", "planned", "begun", "in time", "lost to frost")
    page = Page(Head("Linden Row", "Table", "letter", "en", date(2026, 11, 25), large=True))
    page.table(
        [("Lettuce, leaf", "12", "11", "9", "")], titles=titles, shares=(3, 1, 1, 1, 1), numbers=range(1, 5)
    )
    (words,) = pages(page.document())
    assert "planned:" not in words
    numbers = sheet([("Leek", "3.4", "Aug 15")], titles=("Crop", "lb", "first"), numbers=(1,))
    (lb,), (first,) = (
        [run for run in read(to_pdf(numbers)).pages[0].runs if run.text == text] for text in ("3.4", "Aug 15")
    )
    assert first.left - (lb.left + lb.width) > SMALL


def test_a_table_that_just_fills_its_page_is_not_followed_by_an_empty_one():
    for height in (20.0, 20.2, 20.4, 20.6, 20.8, 21.0):
        page = Page(Head("Linden Row", "Table", "letter", "en", date(2026, 11, 25)))
        page.table([(f"row{n}", "") for n in range(30)], shares=(1, 2), row_height=height, grid=True)
        found = pages(page.document())
        assert [n for n, words in enumerate(found) if not any(word.startswith("row") for word in words)] == []
