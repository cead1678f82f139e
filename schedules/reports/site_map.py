"""The site map on one sheet, to a scale that a ruler can follow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.formats import number_format
from django.utils.translation import gettext
from reportlab.graphics.shapes import Drawing
from reportlab.platypus import Flowable, Spacer, Table

from plots.sketch import Sketch
from schedules.reports import fonts, ink, sheet
from schedules.reports.sketch_paper import sketch_drawing

POINTS_PER_METRE_FULL_SIZE = 72 / 0.0254
FEET_TO_AN_INCH = (
    2,
    4,
    5,
    8,
    10,
    15,
    20,
    25,
    30,
    40,
    50,
    60,
    80,
    100,
    150,
    200,
    300,
    400,
    600,
    800,
    1000,
    2000,
)
RATIOS = (
    20,
    25,
    50,
    75,
    100,
    125,
    150,
    200,
    250,
    300,
    400,
    500,
    750,
    1000,
    1500,
    2000,
    2500,
    5000,
    10000,
    20000,
)
KEY_SCALE = 14.0  # points to a metre of the small drawings
KEY_COLUMNS = 3
KEY_LINE = 29.0
HEAD = 62.0  # title and scale


@dataclass(frozen=True, slots=True)
class SiteSheet:
    """All that the sheet shows; `key` pairs small drawings with their words, `units` are the garden's."""

    garden: str
    title: str
    subtitle: str
    sketch: Sketch
    key: Sequence[tuple[Sketch, str]]
    units: str
    paper: str
    language: str
    printed_on: date


def site_map_pdf(site: SiteSheet) -> bytes:
    """One page, upright or across, whichever lets the map be larger."""
    fonts.register()
    setter = sheet.Setter()
    scales = {across: _scale(site, across) for across in (False, True)}
    across = scales[True] < scales[False]
    ratio = scales[across]
    story: list[Flowable] = [
        setter.paragraph(site.title, sheet.TITLE),
        setter.paragraph(f"{site.subtitle} {scale_sentence(ratio, site.units)}", sheet.BODY),
        Spacer(0, 6),
        sketch_drawing(site.sketch, POINTS_PER_METRE_FULL_SIZE / ratio),
        Spacer(0, 4),
        _key(site.key, setter, sheet.room_on(site.paper, across=across)[0]),
    ]
    foot = sheet.Foot(site.garden, site.title, "", site.printed_on)
    return sheet.to_pdf(story, paper=site.paper, language=site.language, foot=foot, across=across)


def scale_sentence(ratio: float, units: str) -> str:
    """The scale as it is read off with a ruler."""
    if units == "us":
        feet = number_format(round(ratio / 12))
        return gettext("Scale: 1 inch on paper is {feet} feet.").format(feet=feet)
    return gettext("Scale 1 : {ratio}.").format(ratio=number_format(round(ratio), force_grouping=True))


def _scale(site: SiteSheet, across: bool) -> float:
    """The smallest usual ratio at which the map fits on the page with its title and key."""
    width, height = sheet.room_on(site.paper, across=across)
    lines = -(-len(site.key) // KEY_COLUMNS)
    height -= HEAD + 12 + lines * KEY_LINE
    ratios = [feet * 12.0 for feet in FEET_TO_AN_INCH] if site.units == "us" else [float(r) for r in RATIOS]
    needed = POINTS_PER_METRE_FULL_SIZE * max(site.sketch.width / width, site.sketch.height / height)
    return next((ratio for ratio in ratios if ratio >= needed), needed)


def _key(key: Sequence[tuple[Sketch, str]], setter: sheet.Setter, width: float) -> Flowable:
    if not key:
        return Spacer(0, 0)
    cells: list[Drawing | object] = []
    for sketch, word in key:
        cells += [sketch_drawing(sketch, KEY_SCALE), setter.paragraph(word, sheet.REASON)]
    per_line = 2 * KEY_COLUMNS
    cells += [""] * (-len(cells) % per_line)
    lines = [cells[start : start + per_line] for start in range(0, len(cells), per_line)]
    mark = 3.0 * KEY_SCALE + 6
    style = [
        ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 6),
        ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
        ("TEXTCOLOR", (0, 0), (-1, -1), ink.INK),
    ]
    return Table(
        lines, colWidths=[mark, width / KEY_COLUMNS - mark] * KEY_COLUMNS, style=style, hAlign="LEFT"
    )
