"""Places that every topic is set for: known well, by typed dates, southern, a guest's, without crops."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from functools import cache

from crops.facts import CropFacts
from crops.wording.names import crop_name
from schedules.bases import TableDate, from_mean, from_record, from_table
from schedules.climate import Climate
from schedules.entries import is_dated, spans_of_turn
from schedules.place import Place, PlaceCrop
from schedules.scouting import Advice
from schedules.seasons import Hemisphere, Side
from schedules.service.place import place_in
from schedules.windows import AS_PUBLISHED, MIDDLING, Operation, Turn
from tests.schedules.records import catalogue, champion, small_record

TODAY = date(2026, 3, 2)
# As long as a garden may write it.
GUIDANCE = tuple(
    Advice(
        f"{n} things with a name as long as names can be, or nearly so, on beans",
        *(["look again " * 180] * 5),
    )
    for n in range(9)
)
MOST_CROPS = 30
RECORD = {"record": "Frost dates counted in the record of Champion, 1982 to 2018", "latitude": 40.4}
SOUTHERN = (
    (Side.LAST, 90, 9, 22), (Side.LAST, 50, 10, 16), (Side.LAST, 10, 11, 9),
    (Side.FIRST, 10, 4, 8), (Side.FIRST, 50, 5, 3), (Side.FIRST, 90, 5, 27),
)  # fmt: skip


def _crops(count: int) -> list[tuple[CropFacts, str]]:
    """Of the catalogue, those with the longest names first."""
    every = catalogue().values()
    longest = sorted(every, key=lambda facts: (-len(facts.name), facts.slug))[:count]
    return [(facts, crop_name(facts.name)) for facts in sorted(longest, key=lambda facts: facts.name)]


def _dated(crop: PlaceCrop) -> int:
    """How many cells of a table of dates it fills, of both halves of the year."""
    return sum(span is not None for turn in Turn for span in spans_of_turn(crop.windows, turn))


def _rows(crop: PlaceCrop) -> tuple[int, int, int]:
    """How many rows it takes, one for each half of the year; then how full and how long they are."""
    return sum(any(spans_of_turn(crop.windows, turn)) for turn in Turn), _dated(crop), len(crop.name)


def _seedlings(crop: PlaceCrop) -> tuple[bool, int, int]:
    """Whether it is raised in pots and hardened off; then how full and how long its rows are."""
    raised = any(one.operation is Operation.HARDEN_OFF and is_dated(one) for one in crop.windows)
    return raised, _dated(crop), len(crop.name)


def _refusals(crop: PlaceCrop) -> tuple[bool, int]:
    """Whether it has no dates at all; then how long the reason is."""
    refused = not any(row.window for row in crop.rows)
    return refused, max((len(one) for row in crop.rows for one in row.reasons), default=0)


def _fullest(place: Place, demands: Callable[[PlaceCrop], tuple[int, ...]]) -> Place:
    """The place with as many of its crops as a sheet holds, those that demand most of it."""
    most = sorted(place.crops, key=demands, reverse=True)[:MOST_CROPS]
    return replace(place, crops=tuple(sorted(most, key=lambda crop: crop.name)))


def _place(
    name: str, climate: Climate | None, crops: Sequence[tuple[CropFacts, str]], **known: object
) -> Place:
    told = {"units": "us", "hemisphere": Hemisphere.NORTH, "record": "Made up for this test", **known}
    return place_in(climate, name=name, crops=crops, today=TODAY, **told)


@cache
def places() -> dict[str, Place]:
    """By what is special about each."""
    champion_climate = from_record(champion().days, Hemisphere.NORTH)
    south = from_table((TableDate(0.0, *row) for row in SOUTHERN), Hemisphere.SOUTH)
    us = _place("Linnet Lane Garden", champion_climate, _crops(MOST_CROPS), nerve=MIDDLING, **RECORD)
    mild = from_record(small_record(minimum=6.0, seasons=6).days, Hemisphere.NORTH)
    one_date = from_mean(Hemisphere.NORTH, last=(4, 20))
    return {
        "of a record": replace(us, hoses=(("North tap", 15.0),), guidance=GUIDANCE),
        "metric": _place("Garden", champion_climate, _crops(8), nerve=MIDDLING, units="metric", **RECORD),
        "southern": _place(
            "Southern garden", south, _crops(12), nerve=MIDDLING, units="metric", hemisphere=Hemisphere.SOUTH
        ),
        "of a guest with one date": replace(_place("Ida’s yard", one_date, _crops(10)), guest=True),
        "of a guest with an autumn date": replace(
            _place("Ida’s yard", from_mean(Hemisphere.NORTH, first=(10, 1)), _crops(5), nerve=AS_PUBLISHED),
            guest=True,
        ),
        "without freezes": _place("Shore garden", mild, _crops(9), nerve=MIDDLING, record="Made up"),
        "without crops": _place("Garden", champion_climate, [], nerve=MIDDLING, **RECORD),
        "without frost dates": _place("Garden", None, _crops(MOST_CROPS)),
        "without anything": _place("Garden", None, []),
    }


@cache
def fullest_places() -> dict[str, Place]:
    """By what its crops demand most of: out of the whole catalogue, as many as a sheet holds."""
    every = _crops(len(catalogue()))
    climate = from_record(champion().days, Hemisphere.NORTH)
    garden = _place("Linnet Lane Garden", climate, every, nerve=MIDDLING, **RECORD)
    garden = replace(garden, hoses=(("North tap", 15.0),), guidance=GUIDANCE)
    spring = from_mean(Hemisphere.NORTH, last=(4, 20))
    short = from_mean(Hemisphere.NORTH, last=(6, 20), first=(8, 25))
    long = from_mean(Hemisphere.NORTH, last=(2, 10), first=(12, 10))
    guest, late, mild = (
        replace(_place("Ida’s yard", one, every), guest=True) for one in (spring, short, long)
    )
    return {
        "of the most rows": _fullest(garden, _rows),
        "of the most seedlings": _fullest(garden, _seedlings),
        "of a guest with the most seedlings": _fullest(guest, _seedlings),
        "of a guest with a short season": _fullest(late, _refusals),
        "of a guest with a long season": _fullest(mild, _rows),
    }
