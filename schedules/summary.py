"""What a period came to: the figures of a garden, of a plot or of a member.

Nothing is filled in. A figure that nobody wrote down is `None` and stays blank on page and paper, however
many plots logged nothing; what was done without an amount is counted beside the sums (`figures.Totals`).
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from itertools import pairwise
from math import fsum

from plots.spelling import folded
from schedules.figures import Logged, Share, share_that_logged, totals
from schedules.jobs import monday_of
from schedules.time_given import TimeGiven
from schedules.work import Work


class Figure(StrEnum):
    """One number of a summary, in the order in which it is printed."""

    PLOTS = "plots"
    AREA = "area"
    HELD = "held"
    FREE = "free"
    CHANGED = "changed"
    BEDS = "beds"
    MEMBERS = "members"
    HOUSEHOLDS = "households"
    NEW = "new"
    RETURNING = "returning"
    WAITING_FIRST = "waiting-first"
    WAITING_LAST = "waiting-last"
    LANGUAGES = "languages"
    HOURS = "hours"
    GUEST_HOURS = "guest-hours"
    WORKED = "worked"
    GUESTS = "guests"
    WORKDAYS = "workdays"
    AT_PLOTS = "at-plots"
    PICKED = "picked"
    PICKED_PIECES = "picked-pieces"
    CROPS = "crops"
    GIVEN = "given"
    GIVEN_PIECES = "given-pieces"
    RECEIVERS = "receivers"
    WATER = "water"
    WATERINGS = "waterings"
    WORKSHOPS = "workshops"
    EXPECTED = "expected"
    ATTENDED = "attended"
    DUES = "dues"


class Measure(StrEnum):
    """What a figure counts, and so how it is shown."""

    COUNT = "count"
    AREA = "square metres"
    TIME = "minutes"
    WEIGHT = "grams"
    VOLUME = "litres"
    MONEY = "money"


MEASURES: Mapping[Figure, Measure] = {
    **dict.fromkeys(Figure, Measure.COUNT),
    Figure.AREA: Measure.AREA,
    **dict.fromkeys((Figure.HOURS, Figure.GUEST_HOURS, Figure.AT_PLOTS), Measure.TIME),
    **dict.fromkeys((Figure.PICKED, Figure.GIVEN), Measure.WEIGHT),
    Figure.WATER: Measure.VOLUME,
    Figure.DUES: Measure.MONEY,
}
Figures = Mapping[Figure, float | None]


@dataclass(frozen=True, slots=True)
class Period:
    """Days from `first` to `last`, both counted."""

    first: date
    last: date

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last

    def within(self, first: date, last: date | None) -> Period | None:
        """Those of its days that lie within others; `None` where none does.

        >>> year = Period(date(2026, 1, 1), date(2026, 12, 31))
        >>> year.within(date(2025, 4, 1), date(2026, 6, 30)), year.within(date(2027, 1, 1), None)
        (Period(first=datetime.date(2026, 1, 1), last=datetime.date(2026, 6, 30)), None)
        """
        first, last = max(self.first, first), min(self.last, last or self.last)
        return Period(first, last) if first <= last else None

    def earlier(self, years: int) -> Period:
        """The same days so many years before; 29 February stands for the 28th.

        >>> Period(date(2024, 2, 29), date(2024, 12, 31)).earlier(1)
        Period(first=datetime.date(2023, 2, 28), last=datetime.date(2023, 12, 31))
        """
        return Period(_years_before(self.first, years), _years_before(self.last, years))


def _years_before(day: date, years: int) -> date:
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return day.replace(year=day.year - years, day=28)


@dataclass(frozen=True, slots=True)
class Tenure:
    """That people have a plot from day to day, both counted, or until somebody ends it."""

    plot: int
    people: tuple[int, ...]
    began: date
    until: date | None = None

    def touches(self, period: Period) -> bool:
        return self.began <= period.last and (self.until is None or self.until >= period.first)

    def lasts_on(self, day: date) -> bool:
        return self.began <= day and (self.until is None or self.until >= day)


@dataclass(frozen=True, slots=True)
class Ground:
    """A plot: its square metres where they are known, from when it stands and from when it was given up.

    `made` is empty for one that stood when the garden began to write down. A `bed` is gardened by all or to
    give away; the others are for members.
    """

    plot: int
    area_m2: float | None = None
    retired: date | None = None
    made: date | None = None
    bed: bool = False

    def stands_on(self, day: date) -> bool:
        return (self.made is None or self.made <= day) and (self.retired is None or self.retired > day)

    def touches(self, period: Period) -> bool:
        return (self.made is None or self.made <= period.last) and (
            self.retired is None or self.retired >= period.first
        )


@dataclass(frozen=True, slots=True)
class Waiting:
    """A stay on the waiting list."""

    joined: date
    left: date | None = None

    def waits_on(self, day: date) -> bool:
        return self.joined <= day and (self.left is None or self.left > day)


@dataclass(frozen=True, slots=True)
class WorkshopHeld:
    """A workshop: its day, who was expected and who came, where that was written down."""

    day: date
    title: str
    place: str = ""
    expected: int | None = None
    attended: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenKnown:
    """All that a garden's figures are counted from, of all its years.

    `languages` and `households` are by person; `paid` are dues, in the garden's currency. Before `since`
    nobody wrote down which plots there were. `logs` hold the hours too, which `hours` tell in full.
    """

    ground: Sequence[Ground]
    tenures: Sequence[Tenure]
    waiting: Sequence[Waiting]
    languages: Mapping[int, str]
    workdays: Sequence[date]
    workshops: Sequence[WorkshopHeld]
    logs: Sequence[Logged]
    hours: Sequence[TimeGiven] = ()
    households: Mapping[int, int] = field(default_factory=dict)
    paid: Sequence[tuple[date, float]] = ()
    since: date = date.min


def of_period(logs: Iterable[Logged], period: Period) -> list[Logged]:
    return [one for one in logs if one.day in period]


def figures_of_logs(logs: Collection[Logged]) -> dict[Figure, float | None]:
    """What logs add up to; a sum of which no part is known is `None`, and not nothing.

    >>> day = date(2026, 7, 9)
    >>> found = figures_of_logs([Logged(day, "harvest"), Logged(day, "water", litres=9.0)])
    >>> found[Figure.PICKED], found[Figure.WATER], found[Figure.HOURS]
    (None, 9.0, None)
    """
    sums = totals(logs)
    picked = [one for one in logs if one.work == Work.PICK]
    to_whom = {folded(one.given_to) for one in picked if one.given_away and one.given_to}
    return {
        Figure.HOURS: sums.garden_minutes or None,
        Figure.GUEST_HOURS: _guest_minutes(logs),
        Figure.AT_PLOTS: sums.minutes or None,
        Figure.PICKED: sums.grams or None,
        Figure.PICKED_PIECES: sums.pieces or None,
        Figure.CROPS: len({one.crop for one in picked if one.crop is not None}) or None,
        Figure.GIVEN: sums.given_grams or None,
        Figure.GIVEN_PIECES: sums.given_pieces or None,
        Figure.RECEIVERS: len(to_whom) or None,
        Figure.WATER: sums.litres or None,
        Figure.WATERINGS: sums.waterings or None,
    }


def _guest_minutes(logs: Iterable[Logged]) -> int | None:
    guests = (one for one in logs if one.work == Work.HOURS and one.person is None)
    return sum(one.minutes or 0 for one in guests) or None


def figures_of_garden(known: GardenKnown, period: Period, today: date) -> dict[Figure, float | None]:
    """Every figure of the garden in a period; one that still runs is counted as far as `today`."""
    if (days := period.within(period.first, today)) is None:
        return dict.fromkeys(Figure)  # of a time to come nothing is known
    held = [one for one in known.tenures if one.touches(days)]
    came = [one for one in known.workshops if one.day in days]
    logs = of_period(known.logs, days)
    if not (held or came or logs):
        return dict.fromkeys(Figure)  # of a time before the garden wrote anything down
    people = {person for one in held for person in one.people}
    given = [one for one in known.hours if one.day in days]
    return {
        **_of_ground(known, days, {one.plot for one in held if one.lasts_on(days.last)}),
        Figure.HELD: len({one.plot for one in held}),
        Figure.CHANGED: _changed_hands(known.tenures, days),
        Figure.MEMBERS: len(people),
        Figure.HOUSEHOLDS: households(held, known.households),
        **_new_and_returning(known.tenures, people, days.first),
        Figure.WAITING_FIRST: _waiting(known.waiting, days.first),
        Figure.WAITING_LAST: _waiting(known.waiting, days.last),
        Figure.LANGUAGES: len(languages_read(known, days)) or None,
        **figures_of_logs(logs),
        Figure.WORKED: len({one.who for one in given if one.person is not None}) or None,
        Figure.GUESTS: len({one.who for one in given if one.person is None}) or None,
        Figure.WORKDAYS: sum(day in days for day in known.workdays) or None,
        Figure.WORKSHOPS: len(came) or None,
        Figure.EXPECTED: _sum_known(one.expected for one in came),
        Figure.ATTENDED: _sum_known(one.attended for one in came),
        Figure.DUES: fsum(amount for day, amount in known.paid if day in days) or None,
    }


def _of_ground(known: GardenKnown, days: Period, held: Collection[int]) -> dict[Figure, float | None]:
    """Plots, their area, those that nobody had at the end, and beds for all."""
    if days.last < known.since:
        return dict.fromkeys((Figure.PLOTS, Figure.AREA, Figure.FREE, Figure.BEDS))
    there = [one for one in known.ground if one.touches(days)]
    plots = [one for one in there if not one.bed]
    areas = [one.area_m2 for one in plots if one.area_m2 is not None]
    return {
        Figure.PLOTS: len(plots) or None,
        Figure.AREA: sum(areas) if len(areas) == len(plots) and areas else None,
        Figure.FREE: sum(one.stands_on(days.last) and one.plot not in held for one in plots),
        Figure.BEDS: (len(there) - len(plots)) or None,
    }


def _new_and_returning(
    tenures: Iterable[Tenure], people: Collection[int], first: date
) -> dict[Figure, float | None]:
    """Who had no plot at any time before, and who had; blank where nobody is known to have had one."""
    before = {person for one in tenures if one.began < first for person in one.people}
    if not before:
        return dict.fromkeys((Figure.NEW, Figure.RETURNING))
    returning = len(before.intersection(people))
    return {Figure.NEW: len(people) - returning, Figure.RETURNING: returning}


def households(held: Iterable[Tenure], by_person: Mapping[int, int]) -> int:
    """How many households have these plots; people who share a plot count as one, as their hours do.

    >>> day = date(2026, 1, 1)
    >>> households([Tenure(1, (1, 2), day), Tenure(2, (2,), day), Tenure(3, (3,), day)], {})
    2
    >>> households([Tenure(1, (1,), day), Tenure(3, (3,), day)], {1: 7, 3: 7})
    1
    """
    groups: list[set[tuple[str, int]]] = []
    for one in held:
        ties = {("person", person) for person in one.people}
        ties |= {("household", by_person[person]) for person in one.people if person in by_person}
        apart = [group for group in groups if not group & ties]
        groups = [*apart, ties.union(*(group for group in groups if group & ties))]
    return len(groups)


def languages_read(known: GardenKnown, days: Period) -> dict[str, int]:
    """How many of those with a plot read each language, the commonest first; who never said is left out."""
    people = {person for one in known.tenures if one.touches(days) for person in one.people}
    counted = Counter(known.languages[one] for one in people if known.languages.get(one))
    return dict(sorted(counted.items(), key=lambda one: (-one[1], one[0])))


def _changed_hands(tenures: Iterable[Tenure], period: Period) -> int:
    """Plots that within the period came to a holder who was not among those who had them before."""
    by_plot: dict[int, list[Tenure]] = defaultdict(list)
    for one in sorted(tenures, key=lambda one: one.began):
        by_plot[one.plot].append(one)
    return sum(
        any(
            later.began in period and later.people[0] not in earlier.people
            for earlier, later in pairwise(own)
        )
        for own in by_plot.values()
    )


def _waiting(waiting: Sequence[Waiting], day: date) -> int | None:
    """How many waited on a day; `None` before anybody was ever written down."""
    known = any(one.joined <= day for one in waiting)
    return sum(one.waits_on(day) for one in waiting) if known else None


def _sum_known(values: Iterable[int | None]) -> int | None:
    known = [value for value in values if value is not None]
    return sum(known) if known else None


def by_week(logs: Iterable[Logged], value: Callable[[Logged], float | None]) -> dict[date, float]:
    """What logs add up to in each week that has any, by its Monday.

    >>> picked = [Logged(date(2026, 7, day), "harvest", grams=100.0) for day in (8, 9, 15)]
    >>> by_week(picked, lambda one: one.grams)
    {datetime.date(2026, 7, 6): 200.0, datetime.date(2026, 7, 13): 100.0}
    """
    weeks: dict[date, float] = defaultdict(float)
    for one in logs:
        if amount := value(one):
            weeks[monday_of(one.day)] += amount
    return dict(sorted(weeks.items()))


def share_of_plots(known: GardenKnown, period: Period) -> Share:
    """How many of the plots that somebody held in the period have a log of it."""
    held = {one.plot for one in known.tenures if one.touches(period)}
    return share_that_logged(of_period(known.logs, period), held)
