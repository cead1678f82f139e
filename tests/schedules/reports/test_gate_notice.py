"""The notice for the gate says what was written, and not for whom."""

from datetime import date
from io import BytesIO

from pypdf import PdfReader

from schedules.reports.document import Head
from schedules.reports.gate_notice import gate_notice
from schedules.reports.setting import to_pdf


def test_it_holds_the_text_on_one_page():
    head = Head("Linden Row", "Water is on", "letter", "en", date(2024, 4, 1))
    pages = PdfReader(BytesIO(to_pdf(gate_notice(head, "From today.\n\nTurn the tap off.")))).pages
    assert len(pages) == 1
    text = pages[0].extract_text()
    assert [words in text for words in ("Water is on", "From today.", "Turn the tap off.")] == [True] * 3
