import ast
import re
import unicodedata
from pathlib import Path

import pytest

from schedules.reports import fonts

NAMES = [
    "Nguyễn Thị Ánh, Đặng Hữu Phước",
    "Łukasz Żółć, Şükrü, Ștefan, José, Ọlá Ẹniọlá",
    "Олена Їжакевич, Қайрат Ғабит",
    "Ελένη Παπαδοπούλου",
    "−2.2 °C, 49 %, 1 Apr – 3 May, ‘Long Island’ · ½ ¼ …",
]


@pytest.mark.parametrize("text", NAMES)
def test_names_of_many_scripts_are_set_as_they_are(text):
    missing: set[str] = set()
    assert fonts.legible(text, missing) == text
    assert missing == set()


def test_accents_typed_apart_are_put_together():
    apart = unicodedata.normalize("NFD", "Nguyễn")
    assert apart != "Nguyễn"
    assert fonts.legible(apart) == "Nguyễn"


@pytest.mark.parametrize(
    ("text", "shown", "missing"),
    [
        ("अनिता Ana", "[Devanagari] Ana", {"अ", "न", "त"}),
        ("अनिता देवी (Ana)", "[Devanagari] (Ana)", {"अ", "न", "त", "द", "व"}),
        ("สมชาย", "[Thai]", {"ส", "ม", "ช", "า", "ย"}),
        ("🍅 early", "[tomato] early", {"🍅"}),
        ("6′ by 4″", "6' by 4\"", set()),
        ("☑ done", "[x] done", set()),
        ("Year Ⅳ", "Year IV", set()),
        ("soft\u00adware", "software", set()),
        ("tab\tand\u00a0space", "tab and space", set()),
    ],
)
def test_what_the_typeface_lacks_is_written_out(text, shown, missing):
    noticed: set[str] = set()
    assert fonts.legible(text, noticed) == shown
    assert noticed == missing


@pytest.mark.parametrize(
    ("read", "from_right", "seen"),
    [
        # Unicode Standard Annex #9, section 3.4, examples 1 and 2, capitals being letters read from the right
        # (values from memory).
        ("car means CAR.", False, "car means RAC."),
        ("car MEANS CAR.", True, ".RAC SNAEM car"),
        # Brackets go together (rule N0) and are mirrored (L4), figures keep their order (W2 and L2).
        ("AB (cd) 25", True, "25 (cd) BA"),
        ("cd (AB) 25", False, "cd (BA) 25"),
        ("A[(B)] «C»", True, "«C» [(B)]A"),
        ("1) AB", True, "BA (1"),
        ("1) cd AB", False, "1) cd BA"),
    ],
)
def test_lines_of_two_directions_are_set_as_the_standard_says(read, from_right, seen):
    hebrew = str.maketrans("ABCMENS", "אבגדהוז") | str.maketrans("R", "ח")
    shown = "".join(part for _font, part in fonts.runs(read.translate(hebrew), fonts.BODY, from_right))
    assert shown == seen.translate(hebrew)
    assert fonts.from_the_right(read.translate(hebrew)) == (read.lstrip("1) ")[0].isupper())


def test_arabic_letters_take_the_forms_of_their_places():
    """The forms' names are the Unicode character database's own."""
    [(font, shown)] = fonts.runs("علي")
    assert font == "NotoArabic"
    forms = ["YEH FINAL", "LAM MEDIAL", "AIN INITIAL"]
    assert [unicodedata.name(letter) for letter in shown] == [f"ARABIC LETTER {form} FORM" for form in forms]
    [(_font, parted)] = fonts.runs(fonts.legible("می‌خواهم"))  # a Persian verb, parted by a non-joiner
    assert unicodedata.name(parted[-2]) == "ARABIC LETTER FARSI YEH FINAL FORM"


def test_each_run_of_a_name_has_a_face_that_can_write_it():
    runs = fonts.runs("Ana 王小明 (שרה) 김민준 さくら")
    assert [font for font, _part in runs if font != fonts.BODY] == [
        "WenQuanYi",
        "Varela",
        "WenQuanYi",
        "WenQuanYi",
    ]
    assert "".join(part for _font, part in runs) == "Ana 王小明 (הרש) 김민준 さくら"
    assert fonts.width_of("Ana 王小明", 10) == pytest.approx(
        fonts.width_of("Ana ", 10) + fonts.width_of("王小明", 10)
    )


def test_text_is_broken_into_all_the_lines_it_takes():
    long = "Rindfleischetikettierungsgesetz and קצר 王小明 " * 3
    lines = fonts.broken(long, 13, 90)
    assert "".join("".join(lines).split()) == "".join(long.split())
    assert max(fonts.width_of(line, 13) for line in lines) <= 90


def test_markup_in_names_is_only_text():
    assert (
        fonts.markup('<img src="file:///etc/passwd"> & co') == '&lt;img src="file:///etc/passwd"&gt; &amp; co'
    )


def test_text_is_shortened_to_its_room():
    room = fonts.width_of("Brussels sp…", 13)
    assert fonts.shortened("Brussels sprouts", 13, room) == "Brussels sp…"
    assert fonts.shortened("Kale", 13, room) == "Kale"
    assert fonts.shortened("Brussels sprouts", 13, 0) == "…"


def test_text_is_broken_at_spaces():
    room = fonts.width_of("Brussels sprouts", 13)
    assert fonts.wrapped("Brussels sprouts of spring", 13, room, 3) == ["Brussels sprouts", "of spring"]
    assert fonts.wrapped("Brussels sprouts of spring for all", 13, room, 2) == [
        "Brussels sprouts",
        "of spring for all",
    ]
    assert fonts.wrapped("", 13, room, 2) == [""]
    assert all(
        fonts.width_of(line, 13) <= room
        for line in fonts.wrapped("Rindfleischetikettierungsgesetz x", 13, room, 3)
    )


def test_every_string_of_the_sheets_can_be_set():
    """Whatever the reports themselves write, and the words of topics, kinds and crops, has its glyphs."""
    wrong = {}
    rooms = ("schedules/reports", "schedules/wording", "schedules/service/print_table", "crops/wording")
    for path in (path for room in rooms for path in sorted(Path(room).rglob("*.py"))):
        if path.name == "fonts.py":
            continue
        missing: set[str] = set()
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                fonts.legible(re.sub(r"\s", " ", node.value), missing)
        if missing:
            wrong[str(path)] = missing
    assert wrong == {}


def test_every_name_of_the_catalogue_can_be_set():
    missing: set[str] = set()
    for path in Path("fixtures/catalogue").glob("*.csv"):
        fonts.legible(path.read_text(encoding="utf-8"), missing)
    assert missing == set()
