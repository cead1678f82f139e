from datetime import date
from io import BytesIO

from pypdf import PdfReader

from schedules.reports.agreement import agreement_sheet
from schedules.reports.document import Head
from schedules.reports.setting import to_pdf


def test_the_agreement_has_its_text_and_lines_to_sign():
    head = Head("Linden Row", "Nuestro acuerdo", "a4", "es", date(2024, 5, 1), subtitle="Version 2")
    sheet = agreement_sheet(head, body="Regar a mano.\n\nTúnel <b>no</b>.", checked_by="Marisol Núñez")
    pages = PdfReader(BytesIO(to_pdf(sheet))).pages
    text = pages[0].extract_text()
    assert len(pages) == 1
    assert [
        part
        for part in ("Nuestro acuerdo", "Version 2", "Regar a mano.", "Túnel <b>no</b>.")
        if part not in text
    ] == []
    assert text.count("signature") == 2
    assert "Marisol Núñez" in text
