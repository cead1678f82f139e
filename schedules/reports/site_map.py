"""The site map on one sheet, to a scale that a ruler can follow; in large print on as many as it takes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from django.utils.formats import number_format
from django.utils.translation import gettext

from plots.sketch import Sketch, Words
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
MOST_PARTS = 30  # sheets of a map in large print, to be put together


Key = Sequence[tuple[Sketch, str]]


def site_map(head: Head, sketch: Sketch, key: Key, *, units: str) -> Document:
    """One page, upright or across, whichever lets the map be larger; in large letters as many as they need.

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
    parted = None
    if head.large and _letters(sketch, ratio) < sheet.LARGE:
        parted = min((_parted(head, sketch, units, side) for side in (False, True)), key=lambda one: one[1])
        ratio, _count, across = parted
    said = " ".join(part for part in (head.subtitle, scale_sentence(ratio, units)) if part)
    page = Page(replace(head, subtitle=said), across=across)
    shown = [(sketch_drawing(part, KEY_SCALE), word) for part, word in key]
    if parted:
        page.text(gettext("The map follows in parts: cut them out along their lines and put them together."))
        page.key(shown, columns=KEY_COLUMNS)
    page.chart(lambda _width: sketch_drawing(sketch, POINTS_PER_METRE_FULL_SIZE / ratio), said, to_scale=True)
    if not parted:
        page.key(shown, columns=KEY_COLUMNS)
    return page.document()


def _letters(sketch: Sketch, ratio: float) -> float:
    """Points of the least letters on the map."""
    shapes = (*sketch.around, *(shape for thing in sketch.things for shape in thing.shapes))
    sizes = [shape.size for shape in shapes if isinstance(shape, Words)]
    return min(sizes, default=sheet.LARGE) * POINTS_PER_METRE_FULL_SIZE / ratio


def _parted(head: Head, sketch: Sketch, units: str, across: bool) -> tuple[float, int, bool]:
    """The greatest ratio at which all letters are large, in how many parts that is, and how these lie.

    A site so wide that there would be too many is drawn smaller than that.
    """
    width, height = sheet.room_on(head.paper, across=across)
    height -= LARGE_HEAD / 2  # what stands above each part, and a foot of several lines
    found = []
    for ratio in _ratios(units):
        scale = POINTS_PER_METRE_FULL_SIZE / ratio
        count = -(-sketch.width * scale // width) * -(-sketch.height * scale // height)
        found.append((ratio, int(count), across))
    few = [one for one in found if one[1] <= MOST_PARTS] or found[-1:]
    return max((one for one in few if _letters(sketch, one[0]) >= sheet.LARGE), default=few[0])


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
    needed = POINTS_PER_METRE_FULL_SIZE * max(sketch.width / width, sketch.height / height)
    return next((ratio for ratio in _ratios(units) if ratio >= needed), needed)


def _ratios(units: str) -> list[float]:
    """Usual scales, the largest drawing first."""
    return [feet * 12.0 for feet in FEET_TO_AN_INCH] if units == "us" else [float(ratio) for ratio in RATIOS]
