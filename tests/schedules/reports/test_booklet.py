"""The year month by month: windows in their months, days, reasons, room to write, the fold."""

import pytest

from schedules.reports.booklet import booklet, booklets_pdf, folding_order, in_month, months_of
from schedules.reports.document import Grid, Heading
from schedules.reports.season import StripRow
from tests.schedules.reports.reading import close, read
from tests.schedules.reports.samples import GARLIC, REASONS, TOMATO, mark, plan, plot_plan
from tests.schedules.reports.test_poster import LONG, many


def test_each_month_has_a_page_with_its_windows_and_days() -> None:
    made = plan(TOMATO)
    pages = [page.text for page in read(booklets_pdf([made])).pages]
    months = months_of(made)
    assert len(pages) == 1 + len(months) + 1  # a cover before them, the reasons after
    of = {month.month: page for month, page in zip(months, pages[1:], strict=False)}
    assert "start indoors: Tomato" in of[3]
    assert "Mar 8 – Mar 29, best Mar 15" in of[3]
    assert ("Goes on" in of[3], "Nothing of your plan" in of[4]) == (False, True)
    assert "Workday: Spring opening" in of[4]
    assert "Water is turned on" in of[4]
    for month, words in ((8, "best Aug 1, until Oct 2"), (9, "until Oct 2"), (10, "until Oct 2")):
        assert f"harvest: Tomato {words}" in of[month]
    assert "November 2026" in of[11]
    for reason in REASONS:
        assert reason in pages[-1]


def test_reasons_that_go_on_on_a_page_say_of_which_crop_they_are() -> None:
    sowings = tuple(mark("sow", (2026, 4, 1), (2026, 4, n), (2026, 6, 1)) for n in range(1, 29))
    pages = [
        page.text for page in read(booklets_pdf([plan(StripRow("Carrot", sowings))], folded=False)).pages
    ]
    why = [text for text in pages if text.startswith("Why on these days")]
    assert len(why) > 1
    assert [text for text in why if not text.startswith("Why on these days Carrot")] == []


def test_the_cover_says_whose_it_is_and_when_it_freezes() -> None:
    cover = read(booklets_pdf([plan(TOMATO)])).pages[0].text
    for words in ("Alder Row Community Garden", "Plot 14 in 2026", "Nguyễn Thị Ánh", "May 16",
                  "Half of the years have had their last frost", "risk of frost"):  # fmt: skip
        assert words in cover


def test_garlic_has_a_page_for_each_of_its_months_into_the_next_year() -> None:
    made = plan(GARLIC)
    # Of the next year, months that nothing of the plan falls into are left out.
    assert [f"{month:%Y-%m}" for month in months_of(made)] == [
        "2026-10",
        "2026-11",
        "2026-12",
        "2027-06",
        "2027-07",
    ]
    both = plan(TOMATO, GARLIC)
    assert len(months_of(both)) == 12
    text = read(booklets_pdf([both])).text
    assert "Jun 20, 2027 – Jul 20, 2027, best Jul 4, 2027" in text


def test_what_began_before_the_first_month_begins_with_it() -> None:
    made = plan(TOMATO, GARLIC)
    seen = [crop for month in months_of(made) for _row, crop in in_month(made, month)[0]]
    assert sorted(seen) == ["Garlic", "Garlic", "Tomato", "Tomato", "Tomato"]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_folded_booklet_has_its_pages_in_the_order_of_the_fold(paper: str) -> None:
    file = read(booklets_pdf([plan(TOMATO, GARLIC, paper=paper)], folded=True))
    numbers = []
    for page in file.pages:
        assert page.width > page.height
        found = sorted((run.left, run.text) for run in page.runs if run.text.startswith("page "))
        assert [left > page.width / 2 for left, _text in found] == [False, True]
        numbers.append(tuple(int(text.split()[1]) for _left, text in found))
    assert numbers == folding_order(2 * len(file.pages))
    assert len(file.pages) % 2 == 0
    assert file.faults(24) == []
    assert "Notes" in file.text


def test_folded_sheets_laid_into_each_other_read_on() -> None:
    """Leaf by leaf from the outside in: fronts left to right, then back out, as the hand turns them."""
    sides = folding_order(16)
    fronts, backs = sides[::2], sides[1::2]
    turned = [page for front, back in zip(fronts, backs, strict=True) for page in (front[1], back[0])]
    turned += [
        page
        for front, back in reversed(list(zip(fronts, backs, strict=True)))
        for page in (back[1], front[0])
    ]
    assert turned == list(range(1, 17))


@pytest.mark.parametrize(
    ("count", "folded", "large"), [(30, False, False), (6, True, False), (3, False, True), (3, True, True)]
)
def test_long_names_are_all_there_in_every_size(count: int, folded: bool, large: bool) -> None:
    rows = many(count, LONG)
    made = plan(plots=(plot_plan(*rows, label="By the north gate 20"), plot_plan(label="2")), large=large)
    file = read(booklets_pdf([made], folded=folded))
    if not folded:  # two pages side by side are not read in order
        text = file.closed
        assert [row.label for row in rows if text.count(close(row.label)) < 3] == []
    assert file.faults(24) == []
    assert file.smallest >= (18 if large else 9.5)


def test_an_empty_plan_is_a_booklet_to_write_in() -> None:
    file = read(booklets_pdf([plan()]))
    text = file.text
    assert len(file.pages) == 13
    assert "Nothing is planned yet." in text
    assert "tell a coordinator what you would like to grow" in text
    assert text.count("What was done, seen and picked") == 12
    assert "Why on these days" not in text


def test_the_document_has_the_same_months_and_rows() -> None:
    made = plan(TOMATO)
    blocks = booklet(made, folded=True).blocks
    assert [b.text for b in blocks if isinstance(b, Heading)][:2] == ["March 2026", "April 2026"]
    rows = [row for block in blocks if isinstance(block, Grid) for row in block.rows]
    assert ("Tomato", "start indoors", "Mar 8 – Mar 29, best Mar 15") in rows
    assert ("Tomato", "harvest", "until Oct 2") in rows
