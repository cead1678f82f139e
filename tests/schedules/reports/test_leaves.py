"""What is put straight onto pages: shapes as reportlab draws them, words in their places, the outline."""

import re
from datetime import date
from io import BytesIO

import pytest
from django.utils.translation import override
from reportlab.graphics import renderPDF
from reportlab.graphics.shapes import Drawing, Shape
from reportlab.pdfgen.canvas import Canvas

from schedules.reports import fonts, ink, marks
from schedules.reports.leaves import LARGE, USUAL, Foot, Leaves, legible, lines_of, lost
from schedules.reports.operators import operators
from tests.schedules.reports.reading import read

SHAPES = {
    **{operation: marks.draw(operation, 2, 60, 10) for operation in marks.MARKS},
    "window going on": marks.window("harvest", 0, 80, 8, before=True, after=True),
    "done": marks.done_day(20, 10),
    "best": marks.best_day("harvest", 20, 10),
    "area": [ink.area([(0, 0), (10, 30), (40, 3)])],
    "box": [ink.box(3, 4, 20, 10, ink.SHADE)],
    "dot": [ink.dot(20, 20, 6, ink.PAPER, ink.INK)],
    "line": [ink.line((0, 0), (9, 9), ink.QUIET, 2, (1.5, 3))],
}


def drawn_by_reportlab(shapes: list[Shape]) -> bytes:
    out = BytesIO()
    canvas = Canvas(out, pagesize=(100, 100), pageCompression=0)
    drawing = Drawing(100, 100)
    for shape in shapes:
        drawing.add(shape)
    renderPDF.draw(drawing, canvas, 0, 0, showBoundary=False)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def strokes(content: str) -> list[tuple[str, list[float]]]:
    """The steps of its paths, and how each is painted."""
    steps = re.findall(r"(?<!\S)((?:-?[\d.]+ )*)(m|l|c|re|h|S|f\*?|B\*?|s|b\*?)(?=\s|$)", content)
    numbers = [(name, [float(one) for one in values.split()]) for values, name in steps]
    return [
        ("f" if name.startswith("f") else "B" if name.startswith("B") else name, values)
        for name, values in numbers
    ]


@pytest.mark.parametrize("name", SHAPES)
def test_shapes_are_drawn_as_reportlab_draws_them(name: str) -> None:
    """Its own renderer is the reference: the same paths, painted alike, to a hundredth of a point."""
    page = read(drawn_by_reportlab(SHAPES[name])).reader.pages[0].get_contents()
    theirs = strokes(page.get_data().decode("latin-1"))
    ours = strokes(operators(SHAPES[name]))
    assert [step for step, _numbers in ours] == [step for step, _numbers in theirs]
    for (_step, mine), (_same, other) in zip(ours, theirs, strict=True):
        assert mine == pytest.approx(other, abs=0.02)


def book() -> Leaves:
    return Leaves(title="Sheet", author="Linden Row", subject="Record", language="de")


def test_words_come_back_from_where_they_were_put() -> None:
    made = book()
    leaf = made.leaf(300, 200)
    leaf.text(20, 150, "Nguyễn (Ánh) \\ 100 %", 11)
    leaf.text(280, 100, "Łukasz", 20, font=fonts.BOLD, anchor="end")
    leaf.text(150, 50, "middle", 10, anchor="middle")
    leaf.text(20, 20, "王小明", 10)
    leaf.bookmarks.append(("First", 0))
    made.add([leaf])
    file = read(made.finished())
    first, second, third, *_other = file.pages[0].runs
    assert (first.text, first.left, first.bottom) == ("Nguyễn (Ánh) \\ 100 %", 20, 150)
    assert (second.text, second.left + second.width) == ("Łukasz", pytest.approx(280, abs=0.1))
    assert third.left + third.width / 2 == pytest.approx(150, abs=0.1)
    assert "王小明" in file.text
    assert [one.title for one in file.reader.outline] == ["First"]
    assert (file.reader.metadata.title, file.reader.trailer["/Root"]["/Lang"]) == ("Sheet", "de")


def test_lines_are_no_wider_than_their_room_and_lose_no_letter() -> None:
    text = "Donaudampfschifffahrtsgesellschaftskapitän sows\nBrussels sprouts"
    lines = lines_of(text, 12, 90)
    assert max(fonts.width_of(line, 12) for line in lines) <= 90
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert lines_of("", 12, 90) == ("",)


def test_what_no_typeface_has_is_known_to_be_lost() -> None:
    assert (legible("ᚠ"), lost("ᚠ"), lost("Ánh")) == ("[Runic]", True, False)


@pytest.mark.parametrize("sizes", [USUAL, LARGE])
@pytest.mark.parametrize("width", [240.0, 520.0])
def test_a_foot_keeps_to_its_height_and_width(sizes, width: float) -> None:
    record = "Counted in the record of a station. " * 4
    foot = Foot("Community garden " * 6, "Plots 1 to 9 in 2026", record, date(2026, 2, 3))
    made = book()
    leaf = made.leaf(width + 80, 400)
    foot.draw(leaf, 40, 20, width, sizes, "page 1 of 2")
    made.add([leaf])
    file = read(made.finished())
    assert file.faults(39) == []
    assert min(run.bottom for run in file.pages[0].runs) >= 20
    assert max(run.bottom + run.size * 0.7 for run in file.pages[0].runs) <= 20 + foot.height(width, sizes)
    assert ("page 1 of 2" in file.text, "printed Feb. 3, 2026" in file.text) == (True, True)


def test_a_line_is_read_as_the_sheets_language_whatever_it_begins_with() -> None:
    book = Leaves(title="", author="", subject="", language="en")
    latin = book.shown("Plot", fonts.BODY)[0][0]
    faces = [name for name, _codes in book.shown("גן  ·  Plot 14", fonts.BODY)]
    assert (faces[0] == latin, faces[-1] == latin) == (False, True)
    with override("ar"):
        faces = [name for name, _codes in book.shown("גן  ·  Plot 14", fonts.BODY)]
    assert (faces[0] == latin, faces[-1] == latin) == (True, False)
