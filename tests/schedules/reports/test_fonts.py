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
    """Whatever the reports themselves write has its glyphs."""
    for path in Path("schedules/reports").glob("*.py"):
        if path.name == "fonts.py":
            continue
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                missing: set[str] = set()
                fonts.legible(re.sub(r"\s", " ", node.value), missing)
                assert missing == set(), (path, node.value)
