"""Blank log sheets: a page for each plot, ruled as far as it reaches."""

from datetime import date
from io import BytesIO

from pypdf import PdfReader

from schedules.reports.document import Head
from schedules.reports.log_sheet import LogKey, LogSheet, log_sheets
from schedules.reports.setting import to_pdf

KEY = LogKey(["watered", "picked"], [("water", ["minutes at the hose", "cans"])])
LONG = [f"Zwiebel ‘Donaudampfschifffahrtsgesellschaftskapitän {n}’, autumn" for n in range(22)]
SHEETS = [
    LogSheet("Communal bed 12", "https://garden.example/at/CDF34MRT7/", ["Carrot ‘Nantes’, spring"]),
    LogSheet("14", "https://garden.example/at/CDF34MRT9/", LONG),
    LogSheet("15", "https://garden.example/at/CDF34MRT3/", []),
]


def pages(paper: str, *, large: bool) -> list[str]:
    head = Head("Linden Row", "Log sheets", paper, "en", date(2024, 5, 1), large=large)
    made = to_pdf(log_sheets(head, SHEETS, KEY))
    return [page.extract_text() for page in PdfReader(BytesIO(made)).pages]


def test_each_plot_has_its_page_with_what_grows_there_and_what_may_be_written():
    for paper in ("letter", "a4"):
        usual = pages(paper, large=False)
        assert [text.splitlines()[0] for text in usual] == ["Plot Communal bed 12", "Plot 14", "Plot 15"]
        assert "Growing or planned here: Carrot ‘Nantes’, spring." in usual[0]
        assert "What was done: watered, picked." in usual[0]
        assert "How much water: minutes at the hose, cans." in usual[0]
        assert "kapitän 21’" in usual[1]
        assert "Growing or planned here: nothing planned." in usual[2]
        assert all("On what" in text for text in usual)


def test_in_large_print_much_that_grows_moves_the_lines_to_the_other_side():
    large = pages("letter", large=True)
    assert [text.count("On what") for text in large] == [1, 0, 1, 1]
    assert [text.splitlines()[0] for text in large if "Plot" in text] == [
        "Plot Communal bed 12",
        "Plot 14",
        "Plot 15",
    ]
