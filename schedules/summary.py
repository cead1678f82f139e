"""What a period came to: the figures of a garden, of a plot or of a member.

Nothing is filled in. A figure that nobody wrote down is `None` and stays blank on page and paper, however
many plots logged nothing; what was done without an amount is counted beside the sums (`figures.Totals`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from itertools import pairwise

from plots.spelling import folded
from schedules.figures import Logged, Share, Totals, share_that_logged, totals
from schedules.jobs import monday_of
from schedules.work import Work


class Figure(StrEnum):
    """One number of a summary, in the order in which it is printed."""

    PLOTS = "plots"
    AREA = "area"
    HELD = "held"
    FREE = "free"
    CHANGED = "changed"
    MEMBERS = "members"
    NEW = "new"
    WAITING_FIRST = "waiting-first"
    WAITING_LAST = "waiting-last"
    LANGUAGES = "languages"
    HOURS = "hours"
    GUEST_HOURS = "guest-hours"
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


class Measure(StrEnum):
    """What a figure counts, and so how it is shown."""

    COUNT = "count"
    AREA = "square metres"
    TIME = "minutes"
    WEIGHT = "grams"
    VOLUME = "litres"


MEASURES: Mapping[Figure, Measure] = {
    **dict.fromkeys(Figure, Measure.COUNT),
    Figure.AREA: Measure.AREA,
    **dict.fromkeys((Figure.HOURS, Figure.GUEST_HOURS, Figure.AT_PLOTS), Measure.TIME),
    **dict.fromkeys((Figure.PICKED, Figure.GIVEN), Measure.WEIGHT),
    Figure.WATER: Measure.VOLUME,
}
# What can be said of one plot or one member.
OF_LOGS = (
    Figure.HOURS,
    Figure.AT_PLOTS,
    Figure.PICKED,
    Figure.PICKED_PIECES,
    Figure.CROPS,
    Figure.GIVEN,
    Figure.GIVEN_PIECES,
    Figure.RECEIVERS,
    Figure.WATER,
    Figure.WATERINGS,
)
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
    """A plot for members: its square metres where they are known, and from when it was given up."""

    plot: int
    area_m2: float | None = None
    retired: date | None = None


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
    """All that a garden's figures are counted from, of all its years; `languages` are by member.

    Hours are logs of `Work.HOURS`; those of a guest have no person.
    """

    ground: Sequence[Ground]
    tenures: Sequence[Tenure]
    waiting: Sequence[Waiting]
    languages: Mapping[int, str]
    workdays: Sequence[date]
    workshops: Sequence[WorkshopHeld]
    logs: Sequence[Logged]


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
    until = min(period.last, today)
    held = [one for one in known.tenures if one.touches(period)]
    if not held and not of_period(known.logs, period):
        return dict.fromkeys(Figure)  # of a time before the garden wrote anything down
    ground = [one for one in known.ground if one.retired is None or one.retired >= period.first]
    at_end = {one.plot for one in held if one.lasts_on(until)}
    standing = [one.plot for one in ground if one.retired is None or one.retired > until]
    people = {person for one in held for person in one.people}
    before = {
        person for one in known.tenures if one.began < period.first for person in one.people
    }  # had a plot at any time before
    areas = [one.area_m2 for one in ground if one.area_m2 is not None]
    came = [one for one in known.workshops if one.day in period]
    return {
        Figure.PLOTS: len(ground) or None,
        Figure.AREA: sum(areas) if len(areas) == len(ground) and areas else None,
        Figure.HELD: len({one.plot for one in held}),
        Figure.FREE: len(set(standing) - at_end),
        Figure.CHANGED: _changed_hands(held, period),
        Figure.MEMBERS: len(people),
        Figure.NEW: len(people - before),
        Figure.WAITING_FIRST: _waiting(known.waiting, period.first),
        Figure.WAITING_LAST: _waiting(known.waiting, until),
        Figure.LANGUAGES: len({known.languages[one] for one in people if known.languages.get(one)}) or None,
        **figures_of_logs(of_period(known.logs, period)),
        Figure.WORKDAYS: sum(day in period and day <= today for day in known.workdays) or None,
        Figure.WORKSHOPS: len(came) or None,
        Figure.EXPECTED: _sum_known(one.expected for one in came),
        Figure.ATTENDED: _sum_known(one.attended for one in came),
    }


def _changed_hands(held: Iterable[Tenure], period: Period) -> int:
    """Plots that went from one holder to another within the period."""
    by_plot: dict[int, list[Tenure]] = defaultdict(list)
    for one in sorted(held, key=lambda one: one.began):
        by_plot[one.plot].append(one)
    return sum(
        any(
            later.began in period and later.people[:1] != earlier.people[:1]
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


@dataclass(frozen=True, slots=True)
class CropYield:
    """What was picked of one crop; `row_m` is the length of its rows and `row_grams` what these gave.

    Both only of plantings whose row is known and whose pickings were weighed.
    """

    crop: int | None
    sums: Totals
    row_m: float = 0.0
    row_grams: float = 0.0

    @property
    def grams_a_metre(self) -> float | None:
        return self.row_grams / self.row_m if self.row_m else None


@dataclass(frozen=True, slots=True)
class RowPicked:
    """The weighed pickings of one planting and the length of its row in metres."""

    crop: int
    row_m: float
    grams: float


def crop_yields(logs: Iterable[Logged], rows: Iterable[RowPicked] = ()) -> list[CropYield]:
    """By crop, the heaviest first, then by pieces; pickings that name no crop stand last."""
    groups: dict[int | None, list[Logged]] = defaultdict(list)
    for one in logs:
        if one.work == Work.PICK:
            groups[one.crop].append(one)
    metres: dict[int, float] = defaultdict(float)
    grams: dict[int, float] = defaultdict(float)
    for row in rows:
        metres[row.crop] += row.row_m
        grams[row.crop] += row.grams
    found = [
        CropYield(crop, totals(own), metres.get(crop or 0, 0.0), grams.get(crop or 0, 0.0))
        for crop, own in groups.items()
    ]
    return sorted(found, key=lambda one: (one.crop is None, -one.sums.grams, -one.sums.pieces, one.crop or 0))


def litres_a_gram(logs: Iterable[Logged]) -> float | None:
    """Water for each gram picked, of the plots that tell both in full; `None` where none does.

    A plot counts only if all of its waterings and pickings have an amount, and it was watered before its
    first picking: else food would be set against the water of a part of its time.
    """
    groups: dict[int | None, list[Logged]] = defaultdict(list)
    for one in logs:
        groups[one.plot].append(one)
    litres = grams = 0.0
    for plot, own in groups.items():
        sums = totals(own)
        watered = [one.day for one in own if one.work == Work.WATER]
        if plot is None or not watered or not sums.grams or sums.first_picked is None:
            continue
        if sums.unmeasured or sums.unweighed or sums.pieces or min(watered) > sums.first_picked:
            continue
        litres += sums.litres
        grams += sums.grams
    return litres / grams if grams else None


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
