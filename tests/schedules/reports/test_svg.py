import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from reportlab.graphics.shapes import Drawing, Group

from schedules.reports import ink
from schedules.reports.frost_chart import frost_chart
from schedules.reports.season import FrostChart, StripRow
from schedules.reports.season_strip import season_strip
from schedules.reports.svg import to_svg
from tests.schedules.reports.samples import TOMATO, curve, strip


def read(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)  # noqa: S314  our own markup


def drawing(*shapes) -> Drawing:
    sheet = Drawing(100, 40)
    for shape in shapes:
        sheet.add(shape)
    return sheet


@pytest.fixture
def charts() -> list[str]:
    frost = FrostChart("Heading", (curve("32 °F"), curve("28 °F", later=-9)), falling=True)
    return [
        to_svg(season_strip(strip(TOMATO), 360), title="Season", desc="Tomato"),
        to_svg(frost_chart(frost, 760), title="Frost"),
    ]


def test_a_strict_policy_has_nothing_to_refuse(charts):
    for chart in charts:
        for element in read(chart).iter():
            assert element.tag in {
                "svg",
                "title",
                "desc",
                "g",
                "line",
                "polyline",
                "path",
                "rect",
                "circle",
                "text",
            }
            assert not [name for name in element.attrib if name == "style" or name.startswith("on")]


def test_colours_are_classes_of_the_stylesheet(charts):
    shown = {c for chart in charts for e in read(chart).iter() for c in e.get("class", "").split()}
    css = Path("static/css/charts.css").read_text()
    assert {name for name in shown if f".{name} " not in css} <= {"chart"}
    assert {"f-ink", "s-ink", "f-shade", "s-rule", "f-quiet", "s-accent"} <= shown
    for chart in charts:
        assert "#" not in chart


def test_it_scales_with_the_page_and_is_named_for_who_does_not_see_it():
    svg = to_svg(drawing(), title="Season", desc="Sow in May", key="chart7", variant="wide")
    root = read(svg)
    assert root.attrib == {
        "class": "chart wide",
        "viewBox": "0 0 100 40",
        "role": "img",
        "aria-labelledby": "chart7-title chart7-desc",
    }
    assert [(e.tag, e.get("id"), e.text) for e in root] == [
        ("title", "chart7-title", "Season"),
        ("desc", "chart7-desc", "Sow in May"),
    ]


def test_decoration_is_hidden_from_readers():
    assert read(to_svg(drawing(), title="")).get("aria-hidden") == "true"


def test_shapes_are_turned_upside_up():
    root = read(
        to_svg(
            drawing(
                ink.line((1, 2), (3, 40), width=1.5, dash=(4, 2), round_ends=True),
                ink.dot(10, 30, 2),
                ink.box(0, 10, 20, 5),
                ink.strokes([[(0, 0), (5, 10)]]),
                ink.area([(0, 0), (5, 0), (5, 10)]),
                ink.polyline([(0, 0), (5, 40)]),
                Group(ink.words(50, 8, "May", 13, anchor="end", font="Fira-Bold")),
            ),
            title="",
        )
    )
    line, dot, box, stroke, area, polyline, group = root
    assert line.attrib == {
        "class": "s-ink",
        "x1": "1",
        "y1": "38",
        "x2": "3",
        "y2": "0",
        "stroke-width": "1.5",
        "stroke-dasharray": "4 2",
        "stroke-linecap": "round",
    }
    assert (dot.get("cx"), dot.get("cy"), dot.get("r"), dot.get("class")) == ("10", "10", "2", "f-ink")
    assert (box.get("x"), box.get("y"), box.get("width"), box.get("height")) == ("0", "25", "20", "5")
    assert (stroke.get("d"), stroke.get("class")) == ("M0 40L5 30", "f-none s-ink")
    assert (area.get("d"), area.get("class")) == ("M0 40L5 40L5 30Z", "f-shade")
    assert polyline.get("points") == "0,40 5,0"
    (text,) = group
    assert (text.tag, text.text, text.get("y"), text.get("text-anchor")) == ("text", "May", "32", "end")
    assert text.get("class") == "f-ink bold"


def test_names_people_typed_stay_text():
    evil = "<script>alert(1)</script> & <b>Tomato"
    svg = to_svg(season_strip(strip(StripRow(evil, TOMATO.marks)), 760), title=evil, desc=evil)
    root = read(svg)
    assert "<script" not in svg
    assert root[0].text == evil
    assert evil[:10] in {e.text[:10] for e in root.iter() if e.tag == "text"}


def test_a_group_is_moved_and_turned_as_on_paper():
    """(10, 5) turned by 90 degrees about the origin and moved by (30, 40) is (25, 50), 50 below the top."""
    drawing = Drawing(100, 100)
    group = Group(ink.line((10, 5), (10, 5)), transform=(0, 1, -1, 0, 30, 40))
    drawing.add(group)
    svg = to_svg(drawing, title="")
    matrix = [float(value) for value in re.search(r"matrix\(([^)]+)\)", svg)[1].split()]
    x, y = (float(re.search(f'{name}="([^"]+)"', svg)[1]) for name in ("x1", "y1"))
    a, b, c, d, e, f = matrix
    assert (a * x + c * y + e, b * x + d * y + f) == pytest.approx((25, 50))
