"""The one door to the derivation of windows: pages, paper, feeds and commands all get their dates here."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from crops.facts import CropFacts
from crops.models import Planting
from crops.wording.names import crop_label
from plots.models import Garden, Plot
from schedules.anchors import Logged, grown_as, happened
from schedules.climate import Basis, Climate
from schedules.entries import BEGINNINGS, Entry, Way, by_date, entries_of, windows_of_way
from schedules.jobs import monday_of
from schedules.queries import logged, plantings_of, telling_logs
from schedules.service.climate import garden_climate
from schedules.service.scouting import holds_on
from schedules.windows import (
    AS_PUBLISHED,
    BOLD,
    CAREFUL,
    MIDDLING,
    Nerve,
    Start,
    Turn,
    Window,
    anchored,
    course_of,
    derive,
)
from schedules.windows.growth import starts
from schedules.windows.happened import Happened
from schedules.wording.calendar import row_name

_CHOSEN = {"careful": CAREFUL, "middling": MIDDLING, "bold": BOLD}


def effective_nerve(garden: Garden, climate: Climate) -> Nerve:
    """The garden's own choice; else middling, or published practice where there is only one pair of dates."""
    if garden.nerve:
        return _CHOSEN[garden.nerve]
    return AS_PUBLISHED if climate.basis is Basis.MEAN else MIDDLING


@dataclass(frozen=True)
class Told:
    """What logs tell of a planting: how it is grown, what each sowing came to, when its plot was cleared."""

    start: Start
    happened: Mapping[int, Happened]
    plot_cleared: tuple[date, ...]


@dataclass(frozen=True)
class PlantingDates:
    """A planting with its windows, and its dated ones as rows of a calendar."""

    planting: Planting
    told: Told
    windows: tuple[Window, ...] = ()
    entries: tuple[Entry, ...] = ()

    @classmethod
    def undated(cls, planting: Planting) -> PlantingDates:
        """Without frost dates: what logs tell is all that is known."""
        return cls(planting, _told(planting, logged(telling_logs(planting))))

    @property
    def name(self) -> str:
        return crop_label(self.planting.crop, self.planting.variety)

    @property
    def way(self) -> Way:
        """How it is grown, with its windows; logs may tell of another way than was planned."""
        return Way(Turn(self.planting.turn), self.told.start, self.windows)


class GardenDates:
    """The dates of one garden: its climate and nerve, with the windows of each crop and year derived once."""

    def __init__(self, garden: Garden, climate: Climate, nerve: Nerve) -> None:
        self.garden = garden
        self.climate = climate
        self.nerve = nerve
        self._derived: dict[tuple[CropFacts, int], tuple[Window, ...]] = {}

    @classmethod
    def of(cls, garden: Garden) -> GardenDates | None:
        """`None` for a garden that has not said where its frost dates come from."""
        climate = garden_climate(garden)
        return None if climate is None else cls(garden, climate, effective_nerve(garden, climate))

    def windows(self, facts: CropFacts, year: int) -> tuple[Window, ...]:
        """Every window of a crop or variety in `year`: both turns, both starts, all successions."""
        key = facts, year
        if key not in self._derived:
            self._derived[key] = derive(facts, self.climate, year=year, nerve=self.nerve)
        return self._derived[key]

    def planting(self, planting: Planting) -> PlantingDates:
        """The windows of one planting, only those of its own way and number, as its logs move them."""
        logs = telling_logs(planting)
        told, windows = self._moved(planting, logged(logs))
        entries = entries_of(
            windows,
            planting=planting.pk,
            plot=planting.plot_id,
            plot_label=planting.plot.label,
            name=row_name(crop_label(planting.crop, planting.variety), Turn(planting.turn)),
            successions=max([planting.successions, *(window.succession for window in windows)]),
            changed_at=max([planting.changed_at, *(log.changed_at for log in logs)]),
        )
        return PlantingDates(planting, told, windows, entries)

    def _moved(self, planting: Planting, logs: list[Logged]) -> tuple[Told, tuple[Window, ...]]:
        """What logs tell, and the windows as they move them.

        What a cleared plot ended is known only when it is known what had begun there.
        """
        own = [one for one in logs if not one.whole_plot]
        told = _told(planting, own)
        windows = self._windows_of(planting, told)
        if len(own) < len(logs):
            begins = [one for one in windows if one.operation in BEGINNINGS]
            told = _told(planting, logs, {one.succession: one.latest for one in begins if one.latest})
            windows = self._windows_of(planting, told)
        return told, windows

    def _windows_of(self, planting: Planting, told: Told) -> tuple[Window, ...]:
        facts, year, turn, start = planting.facts(), planting.year, Turn(planting.turn), told.start
        planned = windows_of_way(self.windows(facts, year), turn, start, successions=planting.successions)
        if not told.happened and not told.plot_cleared:
            return planned
        course = course_of(facts, self.climate, year=year, nerve=self.nerve, turn=turn, start=start)
        return anchored(planned, course, told.happened, told.plot_cleared)

    def entries(self, plots: Iterable[Plot], years: Collection[int]) -> list[Entry]:
        """The rows of the calendar of all plantings of `plots` in `years`, in the order of dates."""
        return entries_in_order(dated_plantings(self.garden, plots, years, self))


def _told(planting: Planting, logs: Iterable[Logged], begun_by: Mapping[int, date] | None = None) -> Told:
    known, facts = list(logs), planting.facts()
    start = grown_as(known, Start(planting.start), starts(facts)) if known else Start(planting.start)
    days = facts.harvest_days_high or 0
    done = happened(known, start, sowings=planting.successions, picking_days=days, begun_by=begun_by or {})
    return Told(start, done, tuple(one.day for one in known if one.whole_plot))


@dataclass(frozen=True)
class PlotCalendar:
    """What a plot's plan for one year holds; its plantings have no windows in a garden without frost dates.

    `standing` are plantings of the year before that are still to be worked or picked in this one.
    """

    year: int
    plantings: tuple[PlantingDates, ...]
    standing: tuple[PlantingDates, ...]

    @classmethod
    def of_year(cls, year: int, known: Iterable[PlantingDates]) -> PlotCalendar:
        """What of the `known` plantings belongs to a year."""
        found = list(known)
        return cls(
            year,
            plantings=tuple(one for one in found if one.planting.year == year),
            standing=tuple(
                one
                for one in found
                if one.planting.year == year - 1 and any(row.latest.year >= year for row in one.entries)
            ),
        )

    @property
    def shown(self) -> tuple[PlantingDates, ...]:
        """Every planting of which something falls into the year."""
        return self.plantings + self.standing

    def entries_of(self, dated: PlantingDates) -> tuple[Entry, ...]:
        """The rows of one planting; of the year before, only what reaches into this one."""
        of_year = dated.planting.year == self.year
        return tuple(row for row in dated.entries if of_year or row.latest.year >= self.year)

    @property
    def entries(self) -> list[Entry]:
        """Every row in the order of dates."""
        return sorted((row for dated in self.shown for row in self.entries_of(dated)), key=by_date)


def dated_plantings(
    garden: Garden, plots: Iterable[Plot], years: Collection[int], dates: GardenDates | None
) -> list[PlantingDates]:
    """The plantings of `plots` in `years`, with their windows where the garden has frost dates."""
    plantings = list(plantings_of(garden, plots, years))
    if dates is None:
        return [PlantingDates.undated(planting) for planting in plantings]
    known = [dates.planting(planting) for planting in plantings]
    rows: dict[int, list[Entry]] = defaultdict(list)
    for row in holds_on([row for one in known for row in one.entries], plantings):
        rows[row.planting].append(row)
    return [replace(one, entries=tuple(rows[one.planting.pk])) for one in known]


def entries_in_order(dated: Iterable[PlantingDates]) -> list[Entry]:
    """The rows of several plantings as one calendar, in the order of dates."""
    return sorted((row for one in dated for row in one.entries), key=by_date)


def years_around(day: date) -> range:
    """The years whose plantings may have a job in the week of `day`: windows reach into the years beside."""
    monday = monday_of(day)
    return range(monday.year - 1, (monday + timedelta(days=6)).year + 2)
