"""A document set on paper, read back with pypdf, and held against its page and its CSV."""

import csv
import io
import re
from collections import Counter
from datetime import date
from html.parser import HTMLParser

import pytest
from django.template import Context, Template
from PIL import Image
from pypdf import PdfReader
from reportlab.graphics.shapes import Drawing

from plots.csv_out import BOM
from schedules.reports import fonts, ink, sheet
from schedules.reports.document import Card, Document, Grid, Head, Page
from schedules.reports.setting import to_pdf
from schedules.reports.sheet_csv import to_csv

EDITIONS = [(paper, large) for paper in ("letter", "a4") for large in (False, True)]
# The names that the files' fonts go by, and ours for them.
FACES = {
    "FiraSans-Regular": fonts.BODY,
    "FiraSans-SemiBold": fonts.BOLD,
    "FiraSans-Light": fonts.LIGHT,
    "FiraSans-Italic": fonts.ITALIC,
    "VarelaRound-Regular": "Varela",
    "NotoSansArabic-Regular": "NotoArabic",
    "WenQuanYiMicroHei-0": "WenQuanYi",
}


def head(paper="letter", *, large=False, language="en", note="Lincoln Airport, 30 years"):
    return Head(
        "Linden Row", "Watering", paper, language, date(2026, 11, 25), "Beds and cans", note, large=large
    )


def drawing(width):
    made = Drawing(width, 60)
    made.add(ink.line((0, 0), (width, 0)))
    made.add(ink.words(width / 2, 10, "מים chartword", 13, anchor="middle"))
    return made


def mark():
    made = Drawing(46, 16)
    made.add(ink.line((0, 8), (46, 8)))
    return made


def photo() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (900, 700), "grey").save(out, "JPEG")
    return out.getvalue()


def everything(paper="letter", *, large=False) -> Document:
    """A document with each kind of block, in which each of `WORDS` stands once."""
    words = iter(WORDS)

    def some(count):
        return " ".join(next(words) for _ in range(count))

    page = Page(head(paper, large=large))
    page.text(some(90) + "\n" + some(5))
    page.loud(some(4))
    page.quiet(some(20))
    page.heading(some(3))
    page.points([some(30), some(2)])
    page.points([some(3), some(3)], numbered=True)
    page.caution(some(60))
    page.facts([(some(2), some(9)), (some(1), some(150))])
    page.heading(some(2))
    page.table(
        [[some(2), some(1), some(3), some(1), some(1), some(2)] for _ in range(30)],
        shares=(3, 1, 2, 1, 1, 2),
        titles=("Crop", "from", "place", "until", "cans", "note"),
        numbers=(4,),
        name="Thirty crops",
    )
    page.table([[some(1), some(60), ""], [some(1), "", ""]], shares=(1, 3, 1), row_height=27, grid=True)
    page.writing_lines(3)
    page.signature(some(2), some(2))
    page.chart(drawing, "A chart", Grid((("May", "3"), ("June", "4")), (1, 1), ("Month", "Cans")))
    page.key([(mark(), some(3)), (mark(), some(2))])
    page.cards(Card(some(3), (some(8),), "https://example.org/x/") for _ in range(3))
    page.picture(photo(), "A bed", some(6))
    page.sources([some(6), some(4)])
    page.next_sheet(some(3), some(2), "https://example.org/at/CDF34MRT7/")
    page.table((), titles=("Day", "What"), shares=(1, 2), grid=True, to_the_end=True)
    return page.document()


def test_pictures_that_follow_each_other_stand_two_in_a_row() -> None:
    page = Page(Head("Garden", "In pictures", "letter", "en", date(2026, 3, 2)))
    for _picture in range(4):
        page.picture(photo(), "A bed", "A bed in May")
    assert len(PdfReader(io.BytesIO(to_pdf(page.document()))).pages) == 1


LETTERS = "bcdfghjklmnprstvwz"
WORDS = [f"{a}{b}{c}q" for a in LETTERS for b in "aeiou" for c in LETTERS]


def read(pdf: bytes):
    """Its reader, its text, and each piece of text as page number, left, right, size, height of its line."""
    reader = PdfReader(io.BytesIO(pdf))
    texts, found = [], []
    for number, page in enumerate(reader.pages):

        def note(text, within, place, font, size, number=number, page=page):
            if text.strip():
                scale = (within[0] ** 2 + within[1] ** 2) ** 0.5 * (place[0] ** 2 + place[1] ** 2) ** 0.5
                x = place[4] * within[0] + within[4]
                y = place[5] * within[3] + within[5]
                face = FACES[font["/BaseFont"].split("+")[1]]
                width = max(fonts.width_of(line, size * scale, face) for line in text.splitlines())
                found.append((number, x, x + width, size * scale, y, text, float(page.mediabox.width)))

        texts.append(page.extract_text(visitor_text=note))
    return reader, "\n".join(texts), found


@pytest.mark.parametrize(("paper", "large"), EDITIONS)
def test_every_word_is_on_paper_once_within_the_margins_and_large_enough(paper, large):
    document = everything(paper, large=large)
    _reader, text, found = read(to_pdf(document))
    counted = Counter(text.split())
    used = WORDS[: WORDS.index(document.blocks[-2].subtitle.split()[-1]) + 1]
    # A sheet's title stands at the foot of its page too, and in no other place twice.
    assert {word: counted[word] for word in used if counted[word] != 1} == {}
    assert "chartword" in counted
    outside = [
        (number, piece, left, right)
        for number, left, right, _size, _y, piece, width in found
        if left < sheet.SIDE - 1 or right > width - sheet.SIDE + 1
    ]
    assert outside == []
    least = min(size for _n, _l, _r, size, _y, _t, _w in found)
    assert least >= (17.99 if large else 9.4)


def test_the_file_knows_its_language_its_title_its_record_and_its_sheets():
    page = Page(head(language="es"))
    page.text("Uno")
    page.next_sheet("Second <sheet>", "for Ana")
    page.text("Two\n")
    page.next_sheet("שלישי")
    reader, text, _found = read(to_pdf(page.document()))
    assert reader.trailer["/Root"]["/Lang"] == "es"
    assert reader.metadata.title == "Watering"
    assert reader.metadata.subject == "Lincoln Airport, 30 years"
    sheets = [(entry.title, reader.get_destination_page_number(entry)) for entry in reader.outline]
    assert sheets == [("Watering", 0), ("Second <sheet>", 1), ("שלישי", 2)]
    for number in (1, 2, 3):
        assert f"page {number} of 3" in text
    assert text.count("Linden Row") == text.count("Lincoln Airport, 30 years") == 3
    embedded = {
        font["/BaseFont"]
        for page in reader.pages
        for font in (one.get_object() for one in page["/Resources"]["/Font"].values())
    }
    assert all("+" in name for name in embedded)


def test_a_long_record_stands_in_full_at_the_foot():
    record = " ".join(WORDS[:70])
    _reader, text, _found = read(to_pdf(Page(head(note=record)).document()))
    assert " ".join(text.split()).count(record) == 1


def test_a_caution_is_told_apart_by_a_rule_and_a_bold_word_without_any_colour():
    page = Page(head())
    page.caution("Lead.")
    reader, _text, _found = read(to_pdf(page.document()))
    drawn = reader.pages[0].get_contents().get_data().decode("latin-1")
    assert re.search(r"\b4 w\b", drawn)
    assert " re f" not in drawn
    bold = []
    reader.pages[0].extract_text(
        visitor_text=lambda text, _a, _b, font, _s: (
            bold.append(text.strip()) if font and "SemiBold" in font["/BaseFont"] else None
        )
    )
    assert "Caution" in "".join(bold)


class _Cells(HTMLParser):
    """The cells of all tables of a page, row by row; facts are rows of two."""

    def __init__(self):
        super().__init__()
        self.rows, self.cell = [], None

    def handle_starttag(self, tag, attrs):
        if tag == "tr" or (tag == "div" and not attrs):
            self.rows.append([])
        elif tag in ("td", "th", "dt", "dd"):
            self.cell = []

    def handle_data(self, data):
        if self.cell is not None:
            self.cell.append(data)

    def handle_endtag(self, tag):
        if tag in ("td", "th", "dt", "dd"):
            self.rows[-1].append("".join(self.cell))
            self.cell = None


def shown(document: Document) -> str:
    return Template("{% load paper %}{% document made %}").render(Context({"made": document}))


def test_page_paper_and_csv_have_the_same_cells():
    page = Page(head())
    page.facts([("Bed", "4 × 8 ft"), ("Who", "Ana & <Luz>")])
    page.heading("Crops")
    rows = [(f"crop{n} ‘Best’", f"{n} May", f"=SUM({n})", "") for n in range(30)]
    page.table(rows, shares=(3, 1, 1, 1), titles=("Crop", "from", "cans", "note"), numbers=(2,))
    page.chart(drawing, "Cans by month", Grid((("May", "3"), ("June", "44")), (1, 1), ("Month", "Cans")))
    document = page.document()
    expected = [list(row) for _name, grid in document.tables for row in (grid.titles, *grid.rows) if row]

    parser = _Cells()
    page_html = shown(document)
    parser.feed(page_html)
    assert [row for row in parser.rows if row] == expected
    assert "style=" not in page_html
    assert page_html.count("<svg") == 2  # narrow and wide

    lines = [row for row in csv.reader(io.StringIO(to_csv(document).removeprefix(BOM))) if row]
    names = [["Watering"], ["Crops"], ["Cans by month"]]
    assert [line for line in lines if line not in names] == [
        [f"'{cell}" if cell.startswith("=") else cell for cell in row] for row in expected
    ]
    assert [line for line in lines if line in names] == names

    # A chart's numbers are drawn on paper; its table is for those who do not see the drawing.
    _reader, text, _found = read(to_pdf(document))
    paper = [cell for row in expected[:-3] for cell in row]
    assert [cell for cell in paper if "".join(cell.split()) not in "".join(text.split())] == []


def test_every_kind_of_block_is_on_the_page():
    html = shown(everything())
    missing = [word for word in WORDS[:300] if html.count(word) != 1]
    assert missing == []
    assert "data:image/jpeg;base64," in html
    assert html.count("<h2") == 2
    first = Template("{% load paper %}{% document made sheets=1 %}")
    html = first.render(Context({"made": everything()}))
    assert html.count("<h2") == 1
    assert "One more sheet follows in the file." in html


def test_markup_that_people_typed_is_text_everywhere():
    page = Page(head())
    page.text('<img src="file:///etc/passwd"> & <b>')
    page.table([("<i>x", "a & b")], shares=(1, 1))
    document = page.document()
    _reader, text, _found = read(to_pdf(document))
    assert '<img src="file:///etc/passwd"> & <b>' in text
    assert "<i>x" in text
    assert "<img" not in shown(document)


def test_letters_that_no_face_has_are_named_and_the_sheet_says_so():
    page = Page(head())
    page.text("अनिता, 王小明, שלום and علي")
    _reader, text, _found = read(to_pdf(page.document()))
    assert "[Devanagari], 王小明, " in text
    assert "Words in square brackets stand for letters this sheet cannot print" in text
    assert "square brackets" not in read(to_pdf(Page(head()).document()))[1]


def test_a_paragraph_read_from_the_right_stands_right_and_a_name_in_a_column_does_not():
    page = Page(head())
    page.text("שלום לכולם")
    page.table([("כרמל", "A1"), ("Ana", "A2")], shares=(1, 1))
    _reader, _text, found = read(to_pdf(page.document()))
    lefts = {left for _n, left, _r, _s, _y, text, _w in found if set(text.strip()) <= set("שלום לכולם")}
    assert min(lefts) == pytest.approx(612 - sheet.SIDE - fonts.width_of("שלום לכולם", 11), abs=1)
    assert [left for _n, left, _r, _s, _y, text, _w in found if set("כרמל") == set(text.strip())] == [
        pytest.approx(sheet.SIDE, abs=1)
    ]


def test_no_line_of_japanese_begins_with_a_full_stop():
    page = Page(head("a4", large=True))
    page.text("土を耕す。" * 40)
    page.points(["水をやる。" * 40])
    _reader, _text, found = read(to_pdf(page.document()))
    lines = [text for *_place, text, _width in found if "。" in text]
    assert len(lines) > 8
    assert [line for line in lines if line.startswith("。")] == []


def test_words_in_a_drawing_take_their_own_faces_and_keep_their_place():
    made = Drawing(200, 20)
    made.add(ink.words(100, 5, "Ana כרמל", 10, anchor="end"))
    page = Page(head())
    page.chart(lambda _width: made, "A name", to_scale=True)
    _reader, _text, found = read(to_pdf(page.document()))
    [first] = [(left, right) for _n, left, right, _s, _y, text, _w in found if text.strip() == "Ana"]
    assert first[0] == pytest.approx(sheet.SIDE + 100 - fonts.width_of("Ana כרמל", 10), abs=0.1)
    assert any(set(text.strip()) == set("כרמל") for *_place, text, _width in found)
    assert "Ana כרמל" in shown(page.document())  # a page sets it for itself


def test_a_drawing_higher_than_the_page_goes_on_on_the_next_with_each_word_once():
    def tall(width):
        made = Drawing(width, 40 * 30)
        made.add(ink.line((60, 0), (60, 40 * 30)))
        for n, word in enumerate(WORDS[:40]):
            made.add(ink.words(0, n * 30 + 8, word, 15))
            made.add(ink.box(60, n * 30 + 4, width - 60, 20, ink.INK))
        return made

    for large in (False, True):
        page = Page(head(large=large))
        page.heading("Forty")
        page.chart(tall, "Forty bars")
        reader, text, found = read(to_pdf(page.document()))
        assert len(reader.pages) > 1
        assert {word for word in WORDS[:40] if text.split().count(word) != 1} == set()
        sizes = {round(size, 1) for _n, _l, _r, size, _y, text, _w in found if text.strip() in WORDS}
        assert sizes == {18.0 if large else 9.5}
        assert min(y for *_rest, y, text, _w in found if text.strip() in WORDS) > sheet.FOOT


def test_a_heading_stays_with_the_drawing_below_it():
    page = Page(head())
    page.writing_lines(19)
    page.heading("Together")
    page.chart(lambda width: Drawing(width, 200), "A drawing")
    reader, _text, _found = read(to_pdf(page.document()))
    assert [("Together" in one.extract_text()) for one in reader.pages] == [False, True]


def test_what_is_left_of_a_page_is_ruled_and_sources_never_stand_alone():
    """Filled lines: much room left, room for the sources alone, and none even for them."""
    for lines, pages, on in ((5, 1, 0), (21, 1, None), (24, 2, 1)):
        page = Page(head())
        page.writing_lines(lines)
        page.notes("My own", ("Day", "What I saw"), (1, 3))
        page.sources(["A handbook", "Another"])
        document = page.document()
        reader, _text, _found = read(to_pdf(document))
        texts = [one.extract_text() for one in reader.pages]
        assert len(texts) == pages, lines
        assert "Another" in texts[-1], lines
        assert [n for n, text in enumerate(texts) if "What I saw" in text] == ([] if on is None else [on])
    assert "lines to write in, for Day; What I saw" in shown(document)


def test_a_short_caution_stays_whole_and_no_list_ends_on_a_page_of_one():
    for lines in range(15, 26, 2):
        page = Page(head())
        page.writing_lines(lines)
        page.points([f"Item {n}" for n in range(4)])
        page.caution("Lead in soil\nDust in the air\nWash your hands")
        reader, _text, _found = read(to_pdf(page.document()))
        texts = [one.extract_text() for one in reader.pages]
        assert [n for n, text in enumerate(texts) if "Item 3" in text] == [
            n for n, text in enumerate(texts) if "Item 2" in text
        ]
        assert [n for n, text in enumerate(texts) if "Lead in" in text] == [
            n for n, text in enumerate(texts) if "Wash your" in text
        ]


def test_a_number_stays_with_its_unit_at_the_end_of_a_line():
    """At every place on the line: a space that is not to be broken at is not."""
    page = Page(head())
    for length in range(60, 100):
        page.text("x" * length + " wet 60\u00a0in down")
    text = read(to_pdf(page.document()))[1]
    assert not [line for line in text.splitlines() if line.rstrip().endswith("60")]


def test_a_table_too_wide_for_large_letters_becomes_lists_with_every_title():
    page = Page(head(large=True))
    titles = ("Person", "Electronic mail", "Telephone", "Neighbourhood")
    rows = [(f"Konstantina {n}", "someone@example.org", "308-555-0156", "") for n in range(2)]
    page.table(rows, titles=titles, shares=(1, 1, 1, 1))
    _reader, text, _found = read(to_pdf(page.document()))
    lines = [" ".join(line.split()) for line in text.splitlines()]
    entry = ["Electronic mail: someone@example.org", "Telephone: 308-555-0156"]
    begin = lines.index("Person")
    assert lines[begin : begin + 7] == ["Person", "Konstantina 0", *entry, "Konstantina 1", *entry]


def test_a_cell_of_any_length_in_any_edition_is_set():
    words = " ".join(WORDS[:250])
    for paper, large in (("a4", False), ("letter", True)):
        page = Page(head(paper, large=large))
        page.table([("1", words, "", "", "")], shares=(1, 1, 3, 3, 3), row_height=20, grid=True)
        page.facts([("Note", words)], label_share=0.8)
        text = read(to_pdf(page.document()))[1]
        assert Counter(text.split())[WORDS[249]] == 2
