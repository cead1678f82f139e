"""What a garden's own pickings teach about days to maturity.

A sowing was expected to ripen after so many days, by the published days and all that the rules know of its
season; it took so many. The published figure counts as much as `PUBLISHED_WORTH` of the garden's own records
(common practice, no source), so that one late picking moves little and ten make the figure the garden's.
Because each record is compared with what was expected of its own season, slow autumns and warm springs
teach the same thing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from statistics import fmean

from crops.facts import CropFacts

PUBLISHED_WORTH = 3
_LEAST, _MOST = 0.5, 2.0
"""A record this much quicker or slower than expected is a slip, or another crop (common practice)."""


@dataclass(frozen=True, slots=True)
class Grown:
    """One sowing: the days it was expected to take to its first picking by published figures, and took."""

    expected: int
    took: int

    @property
    def ratio(self) -> float:
        return self.took / self.expected

    @property
    def is_likely(self) -> bool:
        """Whether the crop alone can explain it."""
        return _LEAST <= self.ratio <= _MOST


@dataclass(frozen=True, slots=True)
class Taught:
    """The published days to maturity, those learned, and from how many records; `left_out` were unlikely."""

    published: tuple[int, int]
    learned: tuple[int, int]
    records: int
    left_out: int

    @property
    def days_changed(self) -> int:
        """By how many days the middle of the range moved; below 0: quicker here."""
        return round((sum(self.learned) - sum(self.published)) / 2)


def taught(facts: CropFacts, grown: Iterable[Grown]) -> Taught | None:
    """What records of one crop or variety teach; `None` without records or published days.

    >>> from crops.catalogue import load_catalogue
    >>> radish = load_catalogue().crops["radish"]
    >>> taught(radish, [Grown(30, 36), Grown(30, 39)]).records
    2
    """
    low, high = facts.maturity_days_low, facts.maturity_days_high
    records = [one for one in grown if one.expected > 0]
    if low is None or high is None or not records:
        return None
    likely = [one for one in records if one.is_likely]
    factor = _factor(likely)
    return Taught(
        (low, high), (round(low * factor), round(high * factor)), len(likely), len(records) - len(likely)
    )


def as_taught(facts: CropFacts, lesson: Taught | None) -> CropFacts:
    """The facts with their days to maturity as this garden has them."""
    if lesson is None or lesson.learned == lesson.published:
        return facts
    low, high = lesson.learned
    return replace(facts, maturity_days_low=low, maturity_days_high=high)


def _factor(likely: Collection[Grown]) -> float:
    return round(fmean([*[1.0] * PUBLISHED_WORTH, *(one.ratio for one in likely)]), 9)
