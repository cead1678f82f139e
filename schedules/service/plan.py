"""What a member is offered when a crop is chosen, and what a garden's crops do in a year."""

from __future__ import annotations

from dataclasses import dataclass

from crops.models import Crop, Variety
from crops.queries import crops_for
from crops.wording.names import crop_label, crop_name
from plots.models import Garden
from plots.spelling import folded
from schedules.entries import Span, Way, spans_of_turn, ways
from schedules.service.calendar import GardenDates
from schedules.windows import Nerve, Reason, Turn, Window
from schedules.windows.growth import starts


@dataclass(frozen=True)
class Offer:
    """A crop or one of its varieties as it can be planted in a garden in a year."""

    crop: Crop
    variety: Variety | None
    year: int
    ways: tuple[Way, ...]

    @property
    def name(self) -> str:
        return crop_label(self.crop, self.variety)

    @property
    def dated_first(self) -> list[Way]:
        """The ways, those without dates here last."""
        return sorted(self.ways, key=lambda way: way.beginning is None)

    @property
    def has_dates(self) -> bool:
        """Whether any way has dates here."""
        return any(way.beginning is not None for way in self.ways)

    def way(self, key: str) -> Way | None:
        return next((way for way in self.ways if way.key == key), None)


def offer(
    crop: Crop,
    variety: Variety | None,
    year: int,
    dates: GardenDates | None,
    *,
    nerve: Nerve | None = None,
    cover_c: float = 0.0,
) -> Offer:
    """The ways to plant a crop; without frost dates every way that the crop allows, with no windows.

    Without a `nerve` the dates follow the garden's; a row cover keeps off `cover_c` (°C).
    """
    if dates is not None:
        known = dates.windows(dates.facts_of(crop, variety), year, nerve=nerve, cover_c=cover_c)
        return Offer(crop, variety, year, ways(known))
    facts = crop.facts() if variety is None else variety.facts()
    return Offer(crop, variety, year, tuple(Way(turn, start, ()) for turn in Turn for start in starts(facts)))


@dataclass(frozen=True)
class CropDates:
    """A crop of the garden's list with all its windows of a year."""

    crop: Crop
    name: str
    windows: tuple[Window, ...]

    @property
    def ways(self) -> tuple[Way, ...]:
        return ways(self.windows)

    @property
    def turns(self) -> list[tuple[Turn, tuple[Span | None, ...]]]:
        """The turns in which it has dates, each with its spans."""
        known = [(turn, spans_of_turn(self.windows, turn)) for turn in Turn]
        return [(turn, spans) for turn, spans in known if any(spans)]

    @property
    def refusal(self) -> tuple[Reason, ...]:
        """Why it has no dates in any turn; empty where it has."""
        refused = [way.refusal for way in self.ways]
        return refused[0] if refused and all(refused) else ()


def crops_dates(
    garden: Garden, dates: GardenDates | None, year: int, query: str = "", *, nerve: Nerve | None = None
) -> list[CropDates]:
    """The crops whose name or family holds `query`, by name; without frost dates they have no windows.

    Without a `nerve` the dates follow the garden's.
    """
    wanted = folded(query)
    named = sorted((folded(crop_name(crop.name)), crop.pk, crop) for crop in crops_for(garden))
    return [
        CropDates(
            crop,
            crop_name(crop.name),
            () if dates is None else dates.windows(dates.facts_of(crop, None), year, nerve=nerve),
        )
        for name, _, crop in named
        if wanted in name or wanted in folded(crop.family)
    ]
