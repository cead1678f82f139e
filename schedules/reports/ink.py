"""The pen that every drawing uses: one ink, hairlines; colours are names that page and paper resolve.

Lengths are drawing units, which are points on paper. y runs upwards, as in reportlab.
"""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.graphics.shapes import Circle, Group, Line, Path, PolyLine, Rect, String, UserNode
from reportlab.lib.colors import Color, HexColor

from schedules.reports import fonts

INK = HexColor(0x1B1F27)
QUIET = HexColor(0x474A50)
RULE = HexColor(0xCBC6BA)
SHADE = HexColor(0xEBE8E0)
PAPER = HexColor(0xFFFFFF)
ACCENT = HexColor(0x99102F)

# What the stylesheet calls each colour.
TOKENS: dict[Color, str] = {
    INK: "ink",
    QUIET: "quiet",
    RULE: "rule",
    SHADE: "shade",
    PAPER: "paper",
    ACCENT: "accent",
}

HAIR = 0.6
# A page sets the words in the reader's own font, which may run wider than ours.
SLACK = 1.2

Points = Sequence[tuple[float, float]]


def line(
    start: tuple[float, float],
    end: tuple[float, float],
    color: Color = INK,
    width: float = HAIR,
    dash: Sequence[float] | None = None,
    *,
    round_ends: bool = False,
) -> Line:
    """One straight stroke."""
    return Line(
        *start,
        *end,
        strokeColor=color,
        strokeWidth=width,
        strokeDashArray=list(dash) if dash else None,
        strokeLineCap=1 if round_ends else 0,
    )


def polyline(
    points: Points, color: Color = INK, width: float = HAIR, dash: Sequence[float] | None = None
) -> PolyLine:
    """Straight strokes from point to point."""
    return PolyLine(
        [value for point in points for value in point],
        strokeColor=color,
        strokeWidth=width,
        strokeDashArray=list(dash) if dash else None,
        strokeLineJoin=1,
    )


def strokes(pieces: Sequence[Points], color: Color = INK, width: float = 1.5) -> Path:
    """Several pieces of line that make one mark, such as a row of carets."""
    path = Path(strokeColor=color, strokeWidth=width, fillColor=None, strokeLineCap=1, strokeLineJoin=1)
    for first, *rest in pieces:
        path.moveTo(*first)
        for point in rest:
            path.lineTo(*point)
    return path


def area(points: Points, fill: Color = SHADE) -> Path:
    """A filled outline without an edge."""
    path = Path(fillColor=fill, strokeColor=None, strokeWidth=0)
    first, *rest = points
    path.moveTo(*first)
    for point in rest:
        path.lineTo(*point)
    path.closePath()
    return path


def box(x: float, y: float, width: float, height: float, fill: Color = PAPER) -> Rect:
    """A filled rectangle without an edge, standing on (x, y)."""
    return Rect(x, y, width, height, fillColor=fill, strokeColor=None, strokeWidth=0)


def dot(x: float, y: float, radius: float, fill: Color = INK, edge: Color | None = None) -> Circle:
    """A dot, or with paper inside and an edge a ring."""
    return Circle(x, y, radius, fillColor=fill, strokeColor=edge, strokeWidth=1.2 if edge else 0)


class Words(String, UserNode):  # type: ignore[misc]  # reportlab carries no types
    """Text in the order of reading, which a page sets for itself; paper gets its runs by typeface."""

    def provideNode(self) -> String | Group:  # noqa: N802  reportlab's name
        runs = fonts.runs(self.text, self.fontName)
        if runs == ((self.fontName, self.text),):
            return self
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.textAnchor]
        x = self.x - share * fonts.width_of(self.text, self.fontSize, self.fontName)
        group = Group()
        for name, part in runs:
            group.add(
                String(x, self.y, part, fontName=name, fontSize=self.fontSize, fillColor=self.fillColor)
            )
            x += fonts.width_of(part, self.fontSize, name)
        return group


def words(
    x: float,
    y: float,
    text: str,
    size: float,
    *,
    color: Color = INK,
    anchor: str = "start",
    font: str = fonts.BODY,
) -> Words:
    """Text standing on the line y; `anchor` is start, middle or end."""
    fonts.register()
    return Words(x, y, fonts.legible(text), fontName=font, fontSize=size, fillColor=color, textAnchor=anchor)
