"""Planting again what a frost took, or what was cleared before its time."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from schedules.entries import ways
from schedules.replant import Again, open_ways
from schedules.service.calendar import GardenDates, PlantingDates
from schedules.windows import Done
from schedules.windows.happened import Stage


@dataclass(frozen=True)
class Ended:
    """A planting of which nothing is left: since when, whether a frost took it, and what is still open."""

    on: Done
    by_frost: bool
    again: tuple[Again, ...]


def ended(dated: PlantingDates, dates: GardenDates, *, today: date) -> Ended | None:
    """What may be planted again this year; `None` while something stands, or where its time was over."""
    planting = dated.planting
    sowings = list(dated.told.happened.values())
    ends = [one.ended for one in sowings if one.ended is not None]
    if not ends or len(ends) < len(sowings) or len(ends) < planting.successions:
        return None
    last = max(ends, key=lambda one: one.day)
    by_frost = any(Stage.KILLED in one.days for one in sowings)
    known = ways(dates.all_windows_of(planting))
    own = [way.harvest for way in known if way.turn == planting.turn and way.start == dated.told.start]
    over = [harvest.latest for harvest in own if harvest is not None and harvest.latest is not None]
    if not by_frost and over and last.day >= max(over):
        return None
    again = open_ways(
        known,
        lambda way: dates.course_for(planting, way.turn, way.start),
        since=max(last.day, today),
    )
    return Ended(last, by_frost, again) if again or planting.year == today.year else None
