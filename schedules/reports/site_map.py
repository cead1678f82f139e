"""The site map on one sheet, to a scale that a ruler can follow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from django.utils.formats import number_format
from django.utils.translation import gettext

from plots.sketch import Sketch
from schedules.reports import sheet
from schedules.reports.document import Document, Head, Page
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
HEAD = 80.0  # title, scale and the room about them
LARGE_KEY_LINE, LARGE_HEAD = 50.0, 130.0


Key = Sequence[tuple[Sketch, str]]


def site_map(head: Head, sketch: Sketch, key: Key, *, units: str) -> Document:
    """One page, upright or across, whichever lets the map be larger.

    `key` pairs small drawings with their words, one for each kind of thing that is drawn; `units` are the
    garden's, "us" or "metric".
    """
    if not key:
        page = Page(replace(head, subtitle=""))
        page.text(gettext("Nothing stands on the map yet."))
        return page.document()
    scales = {across: _scale(head, sketch, key, units, across) for across in (False, True)}
    across = scales[True] < scales[False]
    ratio = scales[across]
    said = " ".join(part for part in (head.subtitle, scale_sentence(ratio, units)) if part)
    page = Page(replace(head, subtitle=said), across=across)
    page.chart(lambda _width: sketch_drawing(sketch, POINTS_PER_METRE_FULL_SIZE / ratio), said, to_scale=True)
    page.key(((sketch_drawing(part, KEY_SCALE), word) for part, word in key), columns=KEY_COLUMNS)
    return page.document()


def scale_sentence(ratio: float, units: str) -> str:
    """The scale as it is read off with a ruler."""
    if units == "us":
        feet = number_format(round(ratio / 12))
        return gettext("Scale: 1 inch on paper is {feet} feet.").format(feet=feet)
    return gettext("Scale 1 : {ratio}.").format(ratio=number_format(round(ratio), force_grouping=True))


def _scale(head: Head, sketch: Sketch, key: Key, units: str, across: bool) -> float:
    """The smallest usual ratio at which the map fits on the page with its title and key."""
    width, height = sheet.room_on(head.paper, across=across)
    lines = -(-len(key) // (KEY_COLUMNS - 1 if head.large else KEY_COLUMNS))
    height -= LARGE_HEAD + lines * LARGE_KEY_LINE if head.large else HEAD + lines * KEY_LINE
    ratios = (
        [feet * 12.0 for feet in FEET_TO_AN_INCH] if units == "us" else [float(ratio) for ratio in RATIOS]
    )
    needed = POINTS_PER_METRE_FULL_SIZE * max(sketch.width / width, sketch.height / height)
    return next((ratio for ratio in ratios if ratio >= needed), needed)
