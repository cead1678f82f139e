from xml.etree import ElementTree

from plots.sketch import Ground, Pen, Ring, Sketch, Strokes, Thing, Words
from plots.sketch_svg import sketch_svg


def drawn(things, **more):
    svg = sketch_svg(Sketch(-1, -1, 4, 3, tuple(things)), **{"label": "Map", **more})
    return ElementTree.fromstring(svg)  # noqa: S314  our own markup


def test_a_drawing_carries_its_name_and_no_styles():
    thing = Thing(
        "plot-1", "Plot <A&1>", (Ground(((0, 0), (1, 0), (1, 1))), Words((1, 1), "<A&1>", 0.5, -90))
    )
    text = sketch_svg(Sketch(0, 0, 2, 2, (thing,)), label='The "map"')
    root = ElementTree.fromstring(text)  # noqa: S314  our own markup
    assert (root.get("role"), root.get("aria-label"), root.get("viewBox")) == (
        "img",
        'The "map"',
        "0 0 40 40",
    )
    assert root.find("g/title").text == "Plot <A&1>"
    assert "style" not in text
    word = root.find("g/text")
    assert (word.text, word.get("transform")) == ("<A&1>", "rotate(-90 20 20)")


def test_things_that_lead_somewhere_are_links_with_names():
    root = drawn([Thing("plot-1", "Plot A1", (), 1.5, 0, "/plots/1/"), Thing("feature-2", "path", ())])
    link = root.find("a")
    assert (root.get("role"), link.get("href"), link.get("aria-label")) == ("group", "/plots/1/", "Plot A1")
    assert (link.get("data-left"), root.find("g").get("data-thing")) == ("1.5", "feature-2")


def test_pens_are_classes():
    shapes = (Strokes((((0, 0), (1, 1)),), Pen.BROKEN), Ring((0, 0), 1), Ring((0, 0), 1, filled=True))
    root = drawn([Thing("t", "", shapes)])
    assert [part.get("class") for part in root.find("g") if part.get("class")] == [
        "line broken", "line firm", "dot",
    ]  # fmt: skip
    assert root.find("g/path").get("d") == "M0 0L20 20"


def test_a_drawing_without_a_name_is_decoration():
    assert drawn([], label="").get("aria-hidden") == "true"
