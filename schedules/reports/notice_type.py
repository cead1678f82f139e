"""The type of a notice: as large as its page has room for, so that it is read from some steps away."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable

from schedules.reports import fonts, sheet

SIZES = (60.0, 54.0, 48.0, 42.0, 38.0, 34.0, 30.0, 27.0, 24.0)  # points
SMALLEST = SIZES[-1]


@cache
def loud(size: float) -> ParagraphStyle:
    """Of what it says."""
    after = size * 0.6
    return ParagraphStyle(f"loud {size:g}", sheet.BODY, fontSize=size, leading=size * 1.35, spaceAfter=after)


@cache
def title(size: float) -> ParagraphStyle:
    """Of the title above it."""
    size = max(size, sheet.TITLE.fontSize)
    leading, after = size * 1.15, size * 0.1
    return ParagraphStyle(f"title {size:g}", sheet.TITLE, fontSize=size, leading=leading, spaceAfter=after)


def fits(story: Sequence[Flowable], words: Iterable[str], size: float, width: float, height: float) -> bool:
    """Whether it stands on one page of these points, and none of its legible words has to be broken."""
    if any(fonts.width_of(word, size) > width for word in words):
        return False
    heights = (part.getSpaceBefore() + part.wrap(width, height)[1] + part.getSpaceAfter() for part in story)
    return bool(sum(heights) <= height)
