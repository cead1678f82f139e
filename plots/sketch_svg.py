"""A sketch as SVG under a strict Content-Security-Policy: classes (static/css/year.css), no styles."""

from __future__ import annotations

from xml.etree import ElementTree

from plots.markup import Svg
from plots.sketch import Ground, Point, Ring, Shape, Sketch, Strokes, Thing, Words

_HIDDEN = {"aria-hidden": "true"}
SCALE = 20.0  # drawing units to a metre, so that browsers meet no tiny type


def sketch_svg(sketch: Sketch, *, label: str, css: str = "", key: str = "sketch") -> Svg:
    """The drawing, called `label`; its things are links where they lead somewhere.

    `css` names further classes; `key` is the element's id. Each thing carries its key, name and place for
    scripts. Without a label the drawing is decoration.
    """
    box = " ".join(_n(value * SCALE) for value in (sketch.left, sketch.top, sketch.width, sketch.height))
    links = any(thing.address for thing in sketch.things)
    root = ElementTree.Element(
        "svg",
        {
            "class": f"sketch {css}".strip(),
            "viewBox": box,
            "data-scale": _n(SCALE),
            **({"id": key, "role": "group" if links else "img", "aria-label": label} if label else _HIDDEN),
        },
    )
    for shape in sketch.around:
        _add(root, shape)
    for thing in sketch.things:
        _add_thing(root, thing)
    return Svg(ElementTree.tostring(root, encoding="unicode"))


def _add_thing(root: ElementTree.Element, thing: Thing) -> None:
    known = {"data-thing": thing.key, "data-left": _n(thing.left, 4), "data-top": _n(thing.top, 4)}
    if thing.address:
        group = ElementTree.SubElement(root, "a", {"href": thing.address, "aria-label": thing.name} | known)
    else:
        group = ElementTree.SubElement(root, "g", {"data-name": thing.name} | known)
    ElementTree.SubElement(group, "title").text = thing.name
    for shape in thing.shapes:
        _add(group, shape)


def _add(parent: ElementTree.Element, shape: Shape) -> None:
    if isinstance(shape, Strokes):
        drawn = "".join(f"M{'L'.join(_at(point) for point in piece)}" for piece in shape.pieces)
        ElementTree.SubElement(parent, "path", {"class": f"line {shape.pen}", "d": drawn})
    elif isinstance(shape, Ground):
        drawn = f"M{'L'.join(_at(point) for point in shape.corners)}Z"
        ElementTree.SubElement(parent, "path", {"class": "ground", "d": drawn})
    elif isinstance(shape, Ring):
        x, y = (_n(value * SCALE) for value in shape.middle)
        css = "dot" if shape.filled else f"line {shape.pen}"
        ElementTree.SubElement(
            parent, "circle", {"class": css, "cx": x, "cy": y, "r": _n(shape.radius * SCALE)}
        )
    else:
        _add_words(parent, shape)


def _add_words(parent: ElementTree.Element, words: Words) -> None:
    x, y = (_n(value * SCALE) for value in words.middle)
    css = " ".join(name for name, on in (("bold", words.bold), ("quiet", words.quiet)) if on)
    attributes = {"x": x, "y": y, "dy": "0.35em", "font-size": _n(words.size * SCALE)}
    if css:
        attributes["class"] = css
    if words.turn:
        attributes["transform"] = f"rotate({_n(words.turn)} {x} {y})"
    ElementTree.SubElement(parent, "text", attributes).text = words.text


def _at(point: Point) -> str:
    return f"{_n(point[0] * SCALE)} {_n(point[1] * SCALE)}"


def _n(value: float, decimals: int = 2) -> str:
    shown = f"{value:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if shown in ("", "-0") else shown
