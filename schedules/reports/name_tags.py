"""Name tags to cut out: names as large as they fit, and blank ones to write on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO

from django.utils.translation import gettext
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from schedules.reports import fonts, ink, sheet
from schedules.reports.label_sheets import INCH, Labels, placed
from schedules.reports.stakes import draw_cuts, largest

TAGS = {
    "letter": Labels("letter-tags", "letter", 3.75 * INCH, 2.5 * INCH, 2, 4, cut=True),
    "a4": Labels("a4-tags", "a4", 95.0, 66.0, 2, 4, cut=True),
}
_INSET = 5.0 * mm
_SMALL = 11.0
_LEAST = 16.0  # points of a name: read across a table
_MOST = 54.0  # points of a name: a short one larger than the others would stand out


@dataclass(frozen=True, slots=True)
class NameTags:
    """What stands small on each tag, the names, and how many tags are blank."""

    garden: str
    title: str
    paper: str
    language: str
    names: Sequence[str]
    blank: int


def tags_to_fill(names: int, wanted: int, paper: str) -> int:
    """How many blank tags make `wanted` tags of so many names, and fill the last sheet.

    >>> tags_to_fill(3, 12, "letter"), tags_to_fill(16, 0, "a4"), tags_to_fill(0, 0, "a4")
    (13, 8, 8)
    """
    count = TAGS[paper].count
    least = max(wanted, names + 1)  # somebody always comes unannounced
    return -(-least // count) * count - names


def name_tags_pdf(made: NameTags) -> bytes:
    """The sheets, one after another; all are cut along the same lines."""
    fonts.register()
    labels = TAGS[made.paper]
    width, height = sheet.PAPERS[made.paper]
    out = BytesIO()
    canvas = Canvas(
        out, pagesize=(width, height), lang=made.language, initialFontName=fonts.BODY, invariant=1
    )
    canvas.setTitle(gettext("Name tags: {title}").format(title=made.title))
    canvas.setAuthor(made.garden)
    canvas.setCreator("Trugbook")
    names = [*made.names, *[""] * made.blank]
    for page in placed(len(names), labels):
        for number, place in page:
            left, top = labels.corner(place)
            _draw_tag(canvas, made, names[number], left * mm, height - (top + labels.height) * mm, labels)
        draw_cuts(canvas, labels, width, height)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _draw_tag(canvas: Canvas, made: NameTags, name: str, x: float, y: float, labels: Labels) -> None:
    """The garden above, the workshop below, the name between them, or a line to write it on."""
    setter = sheet.Setter()
    width, height = labels.width * mm - 2 * _INSET, labels.height * mm - 2 * _INSET
    middle = x + labels.width * mm / 2
    for text, at in ((made.garden, y + _INSET + height - _SMALL), (made.title, y + _INSET + 3)):
        short = fonts.shortened(setter.plain(text), _SMALL, width)
        canvas.setFillColor(ink.QUIET)
        fonts.draw(canvas, middle, at, short, _SMALL, anchor="middle")
    floor, ceiling = y + _INSET + 2 * _SMALL, y + _INSET + height - 2 * _SMALL
    if not name:
        canvas.setStrokeColor(ink.RULE)
        canvas.setLineWidth(0.8)
        canvas.line(x + _INSET, floor + 14, x + _INSET + width, floor + 14)
        return
    size, lines = largest(setter.plain(name), width, ceiling - floor)
    if size < _LEAST:  # one word longer than the tag is wide: on several lines rather than too small
        size, lines = _LEAST, fonts.broken(setter.plain(name), _LEAST, width, fonts.BOLD)
    size = min(size, _MOST)
    at = (floor + ceiling) / 2 + len(lines) * size / 2 - size * 0.84
    canvas.setFillColor(ink.INK)
    for line in lines:
        fonts.draw(canvas, middle, at, line, size, font=fonts.BOLD, anchor="middle")
        at -= size
