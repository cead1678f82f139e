"""Every sheet of the year with thirty long names, on both papers: nothing is lost or lies on another."""

from collections.abc import Callable
from datetime import date
from io import BytesIO
from itertools import pairwise

import pytest
from pypdf import PdfReader

from schedules.reports import sheet
from schedules.reports.agreement import ToSign, agreement_sheet, agreements_to_sign
from schedules.reports.cards import Invitation, invitation_cards
from schedules.reports.dates_sheet import DateLine, dates_sheet
from schedules.reports.document import Document, Head, Page
from schedules.reports.emergency import EmergencyRow, emergency
from schedules.reports.fonts import broken
from schedules.reports.gate_notice import gate_notice
from schedules.reports.hand_over import HandOver, hand_over
from schedules.reports.setting import to_pdf
from schedules.reports.sign_in_sheet import SignInLine, SignInSheet, sign_in_sheet
from schedules.reports.tables import pieces

NAMES = [f"Maximiliana Konstantina {n:02d} von Hohenwaldau zu Niederbreitenbach"[:60] for n in range(30)]
NAMES[::3] = [name.replace(" ", "-") for name in NAMES[::3]]  # a word as long as the name
LINK = "https://linden-row-community-garden.example.org/link/kR1adZY0Osb7sigFjLZwXXE7miAoxW6E30OODE9wIbo/"
TASKS = "Open the tap, walk the pipes and look for leaks. " * 40
FOOT_LINE = 62.0  # points: the foot of every page is below


def _hand_over(head: Head, names: list[str]) -> Document:
    rows = [(name, name, name, name) for name in names]
    return hand_over(
        head,
        HandOver(
            garden=[("Place", name) for name in names[:1]],
            dates=[row[:3] for row in rows],
            keepers=rows,
            duties=[(name, name, name, TASKS) for name in names[:4]],
            matters=[("People", *row[:2]) for row in rows],
            things=[(name, TASKS, name, "Nov. 30, 2026") for name in names[:4]],
            plots=rows,
            rules=[("Hours", [row[:2] for row in rows])],
            address=LINK,
            coming_in=[TASKS],
            kept_in=[("Folder", name) for name in names],
        ),
    )


def _sign_in(head: Head, names: list[str]) -> Document:
    tasks = [(name, name, "as many as come") for name in names[:6]]
    lines = [SignInLine(*pair) for pair in zip(names, reversed(names), strict=True)]
    return sign_in_sheet(SignInSheet(head, tasks, TASKS if names else "", lines, 8))


SHEETS: dict[str, Callable[[Head, list[str]], Document]] = {
    "sign-in sheet": _sign_in,
    "cards": lambda head, names: invitation_cards(
        head, [Invitation(name, LINK, date(2026, 12, 9)) for name in names]
    ),
    "emergency": lambda head, names: emergency(
        head,
        "12 Long Lane",
        [EmergencyRow(name, "A1, B12", name, "555 0100 ext. 12") for name in names],
        3,
    ),
    "gate notice": lambda head, names: gate_notice(head, "\n\n".join(names)),
    "dates": lambda head, names: dates_sheet(
        head, [DateLine("May", "Sat 27 – Sun 28, 10 a.m.–12:30 p.m.", name) for name in names]
    ),
    "agreement": lambda head, names: agreement_sheet(head, body="\n".join(names), signers=names),
    "agreements": lambda head, names: agreements_to_sign(
        head, [ToSign(name, "en", "Agreement", TASKS[:300]) for name in names]
    ),
    "hand-over": _hand_over,
}


FEWER = {"cards": 8}  # each has a code, which takes longer to draw and to read back than all the others


def close(text: str) -> str:
    return "".join(text.split())


def read(pdf: bytes) -> tuple[str, list[tuple[int, str]], int]:
    """Its text without spaces, what lies on other text of the same left edge or on the foot, its pages."""
    words, crowded = [], []
    pages = PdfReader(BytesIO(pdf)).pages
    for number, page in enumerate(pages, start=1):
        runs: list[tuple[float, float, str]] = []

        def note(text, place, within, _font, _size, runs=runs):
            if text.strip():
                runs.append((round(place[4] + within[4], 1), place[5] + within[5], text.strip()))

        words.append(page.extract_text(visitor_text=note))
        body = sorted(run for run in runs if run[1] > FOOT_LINE)
        crowded += [(number, text) for _x, y, text in body if y < sheet.FOOT]
        for (x, y, text), (other_x, other_y, _text) in pairwise(body):
            if x == other_x and 0.5 < other_y - y < 8:
                crowded.append((number, text))
    return close("".join(words)), crowded, len(pages)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_thirty_long_names_are_all_there_and_lie_on_nothing(paper):
    wrong = {}
    for kind, make in SHEETS.items():
        head = Head("Linden Row " * 6, NAMES[0], paper, "en", date(2026, 11, 25), subtitle=NAMES[1])
        names = NAMES[: FEWER.get(kind)]
        text, crowded, _pages = read(to_pdf(make(head, names)))
        if lost := [name for name in names if close(name) not in text] or crowded:
            wrong[kind] = lost
    assert wrong == {}


def test_without_a_name_a_sheet_is_short_and_whole():
    wrong = {}
    for kind, make in SHEETS.items():
        head = Head("Linden Row " * 6, NAMES[0], "letter", "en", date(2026, 11, 25), subtitle=NAMES[1])
        text, crowded, pages = read(to_pdf(make(head, [])))
        if crowded or pages > 3 or not text:
            wrong[kind] = crowded, pages
    assert wrong == {}


def test_long_names_are_all_there_in_large_letters():
    wrong = {}
    for kind, make in SHEETS.items():
        head = Head("Linden Row", NAMES[0], "letter", "en", date(2026, 11, 25), large=True)
        text, _crowded, _pages = read(to_pdf(make(head, NAMES[:5])))
        if lost := [name for name in NAMES[:5] if close(name) not in text]:
            wrong[kind] = lost
    assert wrong == {}


def test_a_long_cell_goes_on_below_and_loses_no_word():
    assert close("".join(pieces(TASKS))) == close(TASKS)
    assert max(map(len, pieces(TASKS))) <= 450
    assert [len(piece) for piece in pieces("x" * 1000)] == [450, 450, 100]


@pytest.mark.parametrize("large", [False, True])
def test_a_telephone_number_stays_whole_and_a_double_name_is_parted_behind_its_hyphen(large: bool) -> None:
    page = Page(Head("Linden Row", "Sheet", "letter", "en", date(2026, 11, 25), large=large))
    page.table(
        [("Maximiliana-Konstantina-Theodora von Hohenwaldau", "B2", "Rosalie Ombre", "308-555-0188")],
        titles=("Member", "Plots", "Call", "Telephone"),
        shares=(3, 1, 3, 2),
    )
    (sheet,) = PdfReader(BytesIO(to_pdf(page.document()))).pages
    lines = [line.strip() for line in sheet.extract_text().splitlines()]
    assert "308-555-0188" in lines
    assert any(line.endswith(("Konstantina-", "Theodora von", "Theodora")) for line in lines)
    assert broken("Maximiliana-Konstantina-Theodora", 10, 130) == ["Maximiliana-Konstantina-", "Theodora"]


def test_a_heading_stays_with_the_first_row_below_it():
    page = Page(Head("Linden Row", "Sheet", "a4", "en", date(2026, 11, 25)))
    page.writing_lines(20)
    page.heading("Where things are")
    page.table([("Stopcock", TASKS)], titles=("Thing", "Where"), shares=(1, 3))
    first, second = (one.extract_text() for one in PdfReader(BytesIO(to_pdf(page.document()))).pages[:2])
    assert ("Where things are" in first, "Stopcock" in second) == (False, True)
