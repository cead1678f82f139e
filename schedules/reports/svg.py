"""A drawing as SVG for a page under a strict Content-Security-Policy.

reportlab's own writer puts everything into `style` attributes, which such a policy ignores, and fixes size,
font and ids. This one writes presentation attributes, classes instead of colours (`f-` fills, `s-` strokes,
resolved by static/css/charts.css), and no size, so that a drawing follows its page and its page's dark mode.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

from reportlab.graphics.shapes import Circle, Drawing, Group, Line, Path, PolyLine, Rect, Shape, String
from reportlab.lib.colors import Color

from plots.markup import Svg
from schedules.reports import fonts, ink

_ANCHORS = {"middle": "middle", "end": "end"}
_STYLES = {fonts.BOLD: "bold", fonts.ITALIC: "slant", fonts.BOLD_ITALIC: "bold slant"}


def to_svg(drawing: Drawing, *, title: str, desc: str = "", key: str = "chart", variant: str = "") -> Svg:
    """The drawing with its name and description for those who do not see it.

    `key` must be unique on the page, `variant` is a further class. Without a title the drawing is decoration.
    """
    classes = f"chart {variant}".strip()
    root = ElementTree.Element(
        "svg", {"class": classes, "viewBox": f"0 0 {_n(drawing.width)} {_n(drawing.height)}"}
    )
    if title:
        named = {"title": title, "desc": desc} if desc else {"title": title}
        root.set("role", "img")
        root.set("aria-labelledby", " ".join(f"{key}-{tag}" for tag in named))
        for tag, text in named.items():
            ElementTree.SubElement(root, tag, id=f"{key}-{tag}").text = text
    else:
        root.set("aria-hidden", "true")
    for shape in drawing.contents:
        _add(root, shape, drawing.height)
    return Svg(ElementTree.tostring(root, encoding="unicode"))


def _add(parent: ElementTree.Element, shape: Shape, height: float) -> None:
    if isinstance(shape, Group):
        group = ElementTree.SubElement(parent, "g", _moved(shape.transform, height))
        for inner in shape.contents:
            _add(group, inner, height)
        return
    tag, attributes = _WRITERS[type(shape)](shape, height)
    classes = _paint(shape)
    if isinstance(shape, String) and shape.fontName in _STYLES:
        classes.append(_STYLES[shape.fontName])
    element = ElementTree.SubElement(parent, tag, {"class": " ".join(classes)} | attributes)
    if isinstance(shape, String):
        element.text = shape.text


def _moved(transform: tuple[float, ...], height: float) -> dict[str, str]:
    """The same move for a page, whose y runs downwards from the drawing's top."""
    a, b, c, d, e, f = transform
    if (a, b, c, d, e, f) == (1, 0, 0, 1, 0, 0):
        return {}
    turned = (a, -b, -c, d, c * height + e, height - d * height - f)
    return {"transform": f"matrix({' '.join(f'{value:.4f}' for value in turned)})"}


def _paint(shape: Shape) -> list[str]:
    fill: Color | None = getattr(shape, "fillColor", None)
    stroke: Color | None = getattr(shape, "strokeColor", None)
    classes = [f"f-{ink.TOKENS[fill] if fill is not None else 'none'}"] if not isinstance(shape, Line) else []
    if stroke is not None:
        classes.append(f"s-{ink.TOKENS[stroke]}")
    return classes


def _pen(shape: Any) -> dict[str, str]:
    if shape.strokeColor is None:
        return {}
    pen = {"stroke-width": _n(shape.strokeWidth)}
    if shape.strokeDashArray:
        pen["stroke-dasharray"] = " ".join(_n(part) for part in shape.strokeDashArray)
    if shape.strokeLineCap == 1:
        pen["stroke-linecap"] = "round"
    if getattr(shape, "strokeLineJoin", 0) == 1:
        pen["stroke-linejoin"] = "round"
    return pen


def _line(shape: Line, height: float) -> tuple[str, dict[str, str]]:
    ends = {"x1": shape.x1, "y1": height - shape.y1, "x2": shape.x2, "y2": height - shape.y2}
    return "line", {name: _n(value) for name, value in ends.items()} | _pen(shape)


def _polyline(shape: PolyLine, height: float) -> tuple[str, dict[str, str]]:
    xs, ys = shape.points[::2], shape.points[1::2]
    points = " ".join(f"{_n(x)},{_n(height - y)}" for x, y in zip(xs, ys, strict=True))
    return "polyline", {"points": points} | _pen(shape)


def _path(shape: Path, height: float) -> tuple[str, dict[str, str]]:
    values = iter(shape.points)
    steps = []
    for operator in shape.operators:
        if operator in (0, 1):  # reportlab's codes: move to, line to; 3 closes; the pen draws no curves
            steps.append(f"{'ML'[operator]}{_n(next(values))} {_n(height - next(values))}")
        else:
            steps.append("Z")
    return "path", {"d": "".join(steps)} | _pen(shape)


def _rect(shape: Rect, height: float) -> tuple[str, dict[str, str]]:
    top = height - shape.y - shape.height
    sides = {"x": shape.x, "y": top, "width": shape.width, "height": shape.height}
    return "rect", {name: _n(value) for name, value in sides.items()} | _pen(shape)


def _circle(shape: Circle, height: float) -> tuple[str, dict[str, str]]:
    return "circle", {"cx": _n(shape.cx), "cy": _n(height - shape.cy), "r": _n(shape.r)} | _pen(shape)


def _text(shape: String, height: float) -> tuple[str, dict[str, str]]:
    attributes = {"x": _n(shape.x), "y": _n(height - shape.y), "font-size": _n(shape.fontSize)}
    if shape.textAnchor in _ANCHORS:
        attributes["text-anchor"] = _ANCHORS[shape.textAnchor]
    return "text", attributes


_WRITERS: dict[type[Shape], Callable[[Any, float], tuple[str, dict[str, str]]]] = {
    Line: _line,
    PolyLine: _polyline,
    Path: _path,
    Rect: _rect,
    Circle: _circle,
    String: _text,
    ink.Words: _text,
}


def _n(value: float) -> str:
    """A number with at most two decimals and no trailing zeros."""
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"
