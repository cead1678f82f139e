"""The notice for the gate says what was written, and not for whom."""

from datetime import date
from io import BytesIO

from pypdf import PdfReader

from schedules.reports.document import Head
from schedules.reports.gate_notice import gate_notice
from schedules.reports.setting import to_pdf
from tests.schedules.reports.reading import read


def test_it_holds_the_text_on_one_page():
    head = Head("Linden Row", "Water is on", "letter", "en", date(2024, 4, 1))
    pages = PdfReader(BytesIO(to_pdf(gate_notice(head, "From today.\n\nTurn the tap off.")))).pages
    assert len(pages) == 1
    text = pages[0].extract_text()
    assert [words in text for words in ("Water is on", "From today.", "Turn the tap off.")] == [True] * 3


def test_a_short_notice_fills_its_page_and_a_long_one_goes_on_in_letters_for_a_step_away():
    head = Head("Linden Row", "The water is turned off soon", "letter", "en", date(2024, 4, 1))
    sizes = {}
    for words in (4, 60, 1500):
        file = read(to_pdf(gate_notice(head, "word " * words)))
        sizes[words] = {run.size for run in file.pages[0].runs if run.text.startswith("word")}
        assert (len(file.pages) == 1, file.faults(50)) == (words < 1500, [])
    assert (sizes[4], sizes[1500]) == ({60.0}, {24.0})
    assert 24 < max(sizes[60]) < 60


def test_no_title_ends_in_a_line_of_one_short_word_and_no_long_word_is_broken_to_be_large():
    head = Head("Linden Row", "The water is turned off soon", "letter", "en", date(2024, 4, 1))
    (page,) = read(to_pdf(gate_notice(head, "Donaudampfschifffahrtsgesellschaftsgarten"))).pages
    title = [run.text for run in page.runs if run.text in head.title and run.bottom > page.height / 2]
    assert ("soon" in title, "Donaudampfschifffahrtsgesellschaftsgarten" in page.text) == (False, True)
