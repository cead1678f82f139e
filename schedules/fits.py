"""What still fits: the crops that, begun on a day, still make a harvest in the space and time that is free.

A crop fits when a quick variety of it is ripe by the freeze that ends it, at the chosen nerve, by when months
are too cold to grow in, and by when the space is needed again; the last sensible day is counted back from the
first of these, by the rules of the autumn turn of `schedules.windows`. Crops that dislike heat must not ripen
in it unless every start of spring would, and the young plant must not meet a freeze of spring that kills it.
Where neither frost nor cold ends it, the windows of both turns, which warmth opens and closes, tell alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from math import floor

from crops.facts import CropFacts, Method
from schedules.chance import Chance, NoChance, Odds, ending_year, turn_of
from schedules.climate import Climate
from schedules.seasons import Hemisphere, day_number
from schedules.windows import Edge, Nerve, Reason, Start, Turn
from schedules.windows.autumn import autumn_span, ripe_by
from schedules.windows.bounds import Bound, NoSpan, Span, earliest_allowed, latest_allowed
from schedules.windows.growing_year import GrowingYear
from schedules.windows.growth import emergence, indoor_days, starts
from schedules.windows.practice import FITTED
from schedules.windows.ripening import Pace, Ripening, ripening
from schedules.windows.spring import RIPENS_IN_HEAT, spring_span
from schedules.windows.warmth import heat_begins, heat_ends

# Common practice, no source: what is picked again and again is worth its space from a week of picking on.
LEAST_PICKING_DAYS = 7


@dataclass(frozen=True, slots=True)
class Room:
    """What is free: from a day on, until a day or, without one, to the end of the season; so many metres."""

    day: date
    until: date | None = None
    row_m: float | None = None


@dataclass(frozen=True, slots=True)
class Fit:
    """One way of beginning a crop that still makes it.

    It may begin on `begins`, the asked day or the first possible one after it, and sensibly not after
    `latest`. A seedling raised from seed sown under cover on the asked day could be set out on `raised`,
    where that is early enough, and would be ripe on `raised_ripe`. `chance` and `ripe` are of a quick
    variety begun on `begins`.
    """

    start: Start
    begins: date
    latest: date
    ripe: date
    chance: Chance | NoChance
    reasons: tuple[Reason, ...]
    raised: date | None = None
    raised_ripe: date | None = None

    @property
    def percent(self) -> int | None:
        """The chance of success in whole percent; `None` where it is not known."""
        return self.chance.percent if isinstance(self.chance, Chance) else None

    @property
    def spare_days(self) -> int:
        """Days between its first and its last sensible day."""
        return (self.latest - self.begins).days

    def waits(self, day: date) -> bool:
        """Whether it cannot begin on `day` yet."""
        return self.begins > day


@dataclass(frozen=True, slots=True)
class CropFits:
    """The ways in which a crop still fits, the better one first; `plants` stand in the row that is free."""

    facts: CropFacts
    fits: tuple[Fit, ...]
    plants: int | None = None

    @property
    def best(self) -> Fit:
        return self.fits[0]


def what_fits(
    crops: Iterable[CropFacts], climate: Climate, room: Room, *, nerve: Nerve, cover_c: float = 0.0
) -> list[CropFits]:
    """The crops that still make it, best first: those that may begin at once, by chance, by spare days."""
    found = [
        CropFits(facts, fits, _plants(facts, room))
        for facts in crops
        if _plants(facts, room) != 0 and (fits := fits_of(facts, climate, room, nerve=nerve, cover_c=cover_c))
    ]
    return sorted(found, key=lambda one: (*_rank(one.best, room), one.facts.name))


def fits_of(
    facts: CropFacts, climate: Climate, room: Room, *, nerve: Nerve, cover_c: float = 0.0
) -> tuple[Fit, ...]:
    """The ways in which one crop still makes it, the better one first; empty where there is none."""
    tried = (_Fitting(facts, climate, room, start, nerve, cover_c).fit() for start in starts(facts))
    return tuple(sorted((fit for fit in tried if fit is not None), key=lambda fit: _rank(fit, room)))


def _rank(fit: Fit, room: Room) -> tuple[bool, bool, int, int]:
    known = fit.percent
    return fit.waits(room.day), known is None, -(known or 0), -fit.spare_days


def _plants(facts: CropFacts, room: Room) -> int | None:
    if room.row_m is None or not facts.spacing_m:
        return None
    return floor(round(room.row_m / facts.spacing_m, 6))


@dataclass(frozen=True, slots=True)
class _Warm:
    """Days of one turn, or of two that meet, on which a crop may begin, and why not before or after them."""

    first: int
    last: int
    why_first: tuple[Reason, ...]
    why_last: tuple[Reason, ...]


def _decisive(span: Span, edge: Edge) -> tuple[Reason, ...]:
    return tuple(reason for reason in span.reasons if reason.edge is edge and reason.decisive)


@dataclass(frozen=True)
class _Fitting:
    """One crop begun in one way in the room that is free; day numbers are of the autumn that ends it."""

    facts: CropFacts
    climate: Climate
    room: Room
    start: Start
    nerve: Nerve
    cover_c: float

    def fit(self) -> Fit | None:
        ripens = self._ripens
        if (
            ripens is None
            or ripens.never
            or self.facts.perennial
            or self.facts.autumn_weeks_early is not None
        ):
            return None
        opened = self._opens(ripens)
        if opened is None:
            return None
        begins, why_first = opened
        ends = list(self._last_days(ripens, begins))
        if not ends:
            return None
        latest, why_last = latest_allowed(ends)
        begins, why_up = self._comes_up(begins, latest)
        if begins > latest:
            return None
        day, raised = self._year.date(begins), self._raised(begins, latest)
        return Fit(
            start=self.start,
            begins=day,
            latest=self._year.date(latest),
            ripe=self._year.date(ripens.ripe(begins, Pace.QUICK)),
            chance=Odds(self.facts, self.climate, self.start, cover_c=self.cover_c).on(day),
            reasons=(*why_last, *(why_up or why_first)),
            raised=None if raised is None else self._year.date(raised),
            raised_ripe=None if raised is None else self._year.date(ripens.ripe(raised, Pace.QUICK)),
        )

    def _opens(self, ripens: Ripening) -> tuple[int, Sequence[Reason]] | None:
        """The first day from the asked one on which frost and cold, then heat, let it begin, and why then."""
        begins = self._asked
        reasons: Sequence[Reason] = ()
        if not self._ended:
            warm = self._warm
            return (
                None
                if warm is None
                else (max(begins, warm.first), warm.why_first if warm.first > begins else ())
            )
        span = self._spring
        if isinstance(span, NoSpan):
            return None
        if span is not None:
            first = self._number(self._spring_year.date(span.earliest))
            if first > begins:
                begins, reasons = first, _decisive(span, Edge.EARLIEST)
        hot = None if self._in_heat(begins) else self._heat
        if hot is not None and hot[0] < ripens.ripe(begins, Pace.QUICK) < hot[1]:
            values = {"heat": self._year.date(hot[1]), "celsius": self.facts.growth_max_c}
            bound = Bound(ripens.begun_by(hot[1], Pace.QUICK), "matures-after-heat", values)
            begins, reasons = earliest_allowed([bound])
        return begins, reasons

    def _last_days(self, ripens: Ripening, begins: int) -> Iterator[Bound]:
        for bound in self._ended:
            begun = ripens.begun_by(bound.day, Pace.QUICK)
            told = ripens.told(begun, bound.day, Pace.QUICK)
            by = {"ripe_by": self._year.date(bound.day), "because": bound.code, "picking_days": 0}
            yield Bound(begun, "counted-back-latest", {**bound.values, **by, **told})
        hot = self._heat if self._ended else None
        if self._warm is not None and not self._ended:
            yield from (Bound(self._warm.last, why.code, why.values) for why in self._warm.why_last)
        if hot is not None and ripens.ripe(begins, Pace.QUICK) <= hot[0]:
            begun = ripens.begun_by(hot[0], Pace.QUICK)
            values = {"heat": self._year.date(hot[0]), "celsius": self.facts.growth_max_c}
            yield Bound(begun, "matures-before-heat", {**values, **ripens.told(begun, hot[0], Pace.QUICK)})
        yield from self._in_heat(begins) if self._ended else ()
        if self.room.until is not None:
            picking = min(self.facts.harvest_days_low or 0, LEAST_PICKING_DAYS)
            ripe = self._number(self.room.until) - picking
            begun = ripens.begun_by(ripe, Pace.QUICK)
            told = ripens.told(begun, ripe, Pace.QUICK)
            yield Bound(begun, "space-needed", {"until": self.room.until, "picking_days": picking, **told})

    def _in_heat(self, begins: int) -> list[Bound]:
        """The last day of a spring in which it ripens in the heat whenever it is begun; none after it."""
        span = self._spring
        if not isinstance(span, Span):
            return []
        latest = self._number(self._spring_year.date(span.latest))
        told = [reason for reason in span.reasons if reason.code == RIPENS_IN_HEAT]
        return [Bound(latest, RIPENS_IN_HEAT, reason.values) for reason in told if begins <= latest]

    def _comes_up(self, begins: int, latest: int) -> tuple[int, Sequence[Reason]]:
        """The first day from `begins` on which seed comes up; past `latest` where there is none."""
        sown = self.start is Start.SOW and self.facts.method is not Method.VEGETATIVE
        soil = self._year.soil_c
        if not sown or soil is None:
            return begins, ()
        days = range(begins, latest + 1)
        up = next((day for day in days if emergence(self.facts, soil, day) is not None), latest + 1)
        return earliest_allowed([Bound(up, "soil-right-for-seed")]) if up > begins else (begins, ())

    def _raised(self, begins: int, latest: int) -> int | None:
        fewest, _middle, _most = indoor_days(self.facts)
        if self.start is Start.SOW or self._asked + fewest > latest:
            return None
        return max(begins, self._asked + fewest)

    @property
    def _ripens(self) -> Ripening | None:
        turn = turn_of(self.room.day, self.climate.hemisphere)
        return ripening(self.facts, self.start, turn, self._year)

    @cached_property
    def _ended(self) -> tuple[Bound, ...]:
        """The days by which frost or cold ends what is begun on the asked day; none where neither does."""
        frost = self._year.first_frost(Turn.AUTUMN)
        return () if frost is None else tuple(ripe_by(self.facts, self._year, frost))

    @cached_property
    def _warm(self) -> _Warm | None:
        """When it may begin from the asked day on, where neither frost nor cold ends it."""
        turns = (
            (spring_span(self.facts, self.start, self._spring_year), self._spring_year),
            (autumn_span(self.facts, self.start, self._year), self._year),
        )
        found = [
            _Warm(
                self._number(year.date(span.earliest)),
                self._number(year.date(span.latest)),
                _decisive(span, Edge.EARLIEST),
                _decisive(span, Edge.LATEST),
            )
            for span, year in turns
            if isinstance(span, Span)
        ]
        if len(found) > 1 and found[1].first <= found[0].last + 1:
            found = [replace(found[1], first=found[0].first, why_first=found[0].why_first)]
        return next((one for one in found if one.last >= self._asked), None)

    @cached_property
    def _spring(self) -> Span | NoSpan | None:
        """When it may begin this spring; `None` where the asked day lies past it."""
        if turn_of(self.room.day, self.climate.hemisphere) is not Turn.SPRING:
            return None
        return spring_span(self.facts, self.start, self._spring_year)

    @cached_property
    def _year(self) -> GrowingYear:
        """The year of the first freeze that ends what is begun on the asked day."""
        label = ending_year(self.room.day, self.climate.hemisphere)
        return GrowingYear(self.climate, label, self.nerve, FITTED, self.cover_c)

    @cached_property
    def _spring_year(self) -> GrowingYear:
        """The year of the spring before that freeze."""
        south = self.climate.hemisphere is Hemisphere.SOUTH
        return GrowingYear(self.climate, self._year.year - south, self.nerve, FITTED, self.cover_c)

    @cached_property
    def _heat(self) -> tuple[int, int] | None:
        """From when to when the months of the summer about the asked day are too hot for the crop."""
        begins, ends = heat_begins(self.facts, self._spring_year), heat_ends(self.facts, self._year)
        if begins is None or ends is None:
            return None
        return self._number(self._spring_year.date(begins)), ends

    @property
    def _asked(self) -> int:
        return self._number(self.room.day)

    def _number(self, day: date) -> int:
        return day_number(day, self._year.year)
