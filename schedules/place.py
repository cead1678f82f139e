"""What a handout knows of its place: a garden, or a guest's own by the frost dates they typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from crops.facts import CropFacts
from schedules.climate import Basis
from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.season import FrostChart
from schedules.scouting import Advice
from schedules.seasons import Hemisphere
from schedules.windows import Window


@dataclass(frozen=True, slots=True)
class FreezeDates:
    """The days on or after which (last), on or before which (first) a freeze of `celsius` comes.

    By percent of years: 10, 30, 50, 70 and 90 of a side that is known, else none; `None` where freezes are
    too rare for a date. They are of the season that begins in the spring of the place's year: in the south
    it ends in the year after.
    """

    celsius: float
    last: Mapping[int, date | None]
    first: Mapping[int, date | None]


@dataclass(frozen=True, slots=True)
class PlaceCrop:
    """One crop there: its facts, its name in the reader's language, its windows of the year.

    `rows` are the same windows in words, those without dates among them.
    """

    facts: CropFacts
    name: str
    rows: tuple[CalendarRow, ...]
    windows: tuple[Window, ...] = ()


@dataclass(frozen=True, slots=True)
class MonthNormals:
    """Usual temperatures of a calendar month, °C; the soil's at seed depth."""

    month: int
    low_c: float
    high_c: float
    soil_c: float | None


@dataclass(frozen=True, slots=True)
class Bed:
    """The bed that sums are worked for, in metres."""

    width_m: float
    length_m: float

    @property
    def area_m2(self) -> float:
        return self.width_m * self.length_m


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Plain values, worked out once for all sheets of a pack.

    `record` says in a line where the dates came from; `guest` is a place other than the garden, of which no
    more is known than frost dates. `nerve_percent` is the risk of frost that the dates accept, `None` where
    published practice itself was followed. `freeze` is coldest last; `season_days` the length of the season
    between freezes of 0 °C that half of the years have. `hoses` pairs names with litres a minute.
    `latitude` (degrees) and the `guidance` about pests are a garden's; of a guest's place neither is known.
    """

    name: str
    guest: bool
    units: str
    hemisphere: Hemisphere
    year: int
    today: date
    record: str
    basis: Basis | None
    nerve_percent: float | None
    freeze: tuple[FreezeDates, ...]
    season_days: int | None
    charts: tuple[FrostChart, ...]
    crops: tuple[PlaceCrop, ...]
    months: tuple[MonthNormals, ...]
    bed: Bed
    hoses: tuple[tuple[str, float], ...]
    can_litres: float | None
    latitude: float | None = None
    guidance: tuple[Advice, ...] = ()

    @property
    def last_frost(self) -> date | None:
        """The day that half of the years have their last freeze by."""
        return self._middle(last=True)

    @property
    def first_frost(self) -> date | None:
        """The day that half of the years have their first freeze by."""
        return self._middle(last=False)

    def _middle(self, *, last: bool) -> date | None:
        freezing = next((one for one in self.freeze if one.celsius == 0.0), None)
        if freezing is None:
            return None
        return (freezing.last if last else freezing.first).get(50)
