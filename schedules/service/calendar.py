"""The one door to the derivation of windows: pages, paper, feeds and commands all get their dates here."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from crops.facts import CropFacts
from crops.models import Crop, Planting, Variety
from crops.wording.names import crop_label
from plots.models import Garden, Plot
from schedules.anchors import Logged, grown_as, happened
from schedules.climate import Climate
from schedules.entries import BEGINNINGS, Entry, Way, by_date, entries_of, windows_of_way
from schedules.jobs import monday_of
from schedules.learned import Taught
from schedules.nerve import Choice, choice
from schedules.queries import (
    Lessons,
    lessons_of,
    logged,
    nerve_of_holder,
    plantings_of,
    telling_logs,
)
from schedules.service.climate import garden_climate
from schedules.service.scouting import holds_on
from schedules.windows import (
    Nerve,
    Start,
    Turn,
    Window,
    anchored,
    course_of,
    derive,
)
from schedules.windows.course import Course
from schedules.windows.growth import starts
from schedules.windows.happened import Happened
from schedules.wording.calendar import row_name


def effective_nerve(garden: Garden, climate: Climate) -> Nerve:
    """The garden's own choice; else what its frost dates suggest."""
    return choice(climate.basis, garden=garden.nerve).nerve


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

    def __init__(
        self, garden: Garden, climate: Climate, nerve: Nerve, lessons: Lessons | None = None
    ) -> None:
        self.garden = garden
        self.climate = climate
        self.nerve = nerve
        self.lessons = lessons or Lessons()
        self._derived: dict[tuple[CropFacts, int, Nerve, float], tuple[Window, ...]] = {}

    @classmethod
    def of(cls, garden: Garden, *, taught: bool = True) -> GardenDates | None:
        """`None` for a garden that has not said where its frost dates come from.

        Days to maturity are the garden's own where it was `taught` them, else the published ones.
        """
        climate = garden_climate(garden)
        if climate is None:
            return None
        lessons = lessons_of(garden) if taught else None
        return cls(garden, climate, effective_nerve(garden, climate), lessons)

    def facts_of(self, crop: Crop, variety: Variety | None) -> CropFacts:
        """The facts of a crop or a variety, with what this garden taught."""
        published = crop.facts() if variety is None else variety.facts()
        return self.lessons.facts(published, crop.pk, None if variety is None else variety.pk)

    def facts_of_planting(self, planting: Planting) -> CropFacts:
        """The same of what a planting is."""
        return self.lessons.facts(planting.facts(), planting.crop_id, planting.variety_id)

    def lesson(self, planting: Planting) -> Taught | None:
        """What this garden was taught of what a planting is."""
        return self.lessons.lesson(planting.facts(), planting.crop_id, planting.variety_id)

    def choice_of_garden(self, asked: str = "") -> Choice:
        """The nerve that was `asked` for, else the garden's."""
        return choice(self.climate.basis, garden=self.garden.nerve, planting=asked)

    def choice(self, plot: Plot, *, planting: str = "") -> Choice:
        """The nerve that counts at a plot: that of a `planting`, else its holder's, else the garden's."""
        holder = "" if planting else nerve_of_holder(plot)
        return choice(self.climate.basis, garden=self.garden.nerve, holder=holder, planting=planting)

    def choice_for(self, planting: Planting) -> Choice:
        """The nerve that counts for a planting; without a query after `plantings_of`."""
        known = getattr(planting, "holder_nerve", None)
        if known is None:
            return self.choice(planting.plot, planting=planting.nerve)
        return choice(self.climate.basis, garden=self.garden.nerve, holder=known, planting=planting.nerve)

    def cover_c(self, planting: Planting) -> float:
        """How much frost (°C) is kept off a planting by its row cover."""
        return self.garden.row_cover_c if planting.covered else 0.0

    def windows(
        self, facts: CropFacts, year: int, *, nerve: Nerve | None = None, cover_c: float = 0.0
    ) -> tuple[Window, ...]:
        """Every window of a crop or variety in `year`: both turns, both starts, all successions.

        Without a `nerve` it is the garden's; a row cover keeps off `cover_c` (°C).
        """
        key = facts, year, nerve or self.nerve, cover_c
        if key not in self._derived:
            self._derived[key] = derive(facts, self.climate, year=year, nerve=key[2], cover_c=cover_c)
        return self._derived[key]

    def course_for(self, planting: Planting, turn: Turn, start: Start) -> Course:
        """One way of growing what is planted, at the planting's own nerve and under its cover."""
        return course_of(
            self.facts_of_planting(planting),
            self.climate,
            year=planting.year,
            nerve=self.choice_for(planting).nerve,
            turn=turn,
            start=start,
            cover_c=self.cover_c(planting),
        )

    def all_windows_of(self, planting: Planting) -> tuple[Window, ...]:
        """Every window of what is planted in its year, at the planting's own nerve and under its cover."""
        nerve, cover_c = self.choice_for(planting).nerve, self.cover_c(planting)
        return self.windows(self.facts_of_planting(planting), planting.year, nerve=nerve, cover_c=cover_c)

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
        turn, start = Turn(planting.turn), told.start
        known = self.all_windows_of(planting)
        planned = windows_of_way(known, turn, start, successions=planting.successions)
        if not told.happened and not told.plot_cleared:
            return planned
        return anchored(planned, self.course_for(planting, turn, start), told.happened, told.plot_cleared)

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
