"""When a planting of the spring turn may begin."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from crops.facts import CropFacts, Method
from schedules.seasons import Side
from schedules.windows.bounds import (
    Bound,
    NoSpan,
    Span,
    earliest_allowed,
    latest_allowed,
    no_span,
    nothing_between,
)
from schedules.windows.growing_year import GrowingYear
from schedules.windows.growth import (
    YOUNG_PLANT_DIES_AT_C,
    dies_at,
    exposed_from,
    spring_weeks,
)
from schedules.windows.practice import COOL_SEASON
from schedules.windows.ripening import Pace, Ripening, ripening
from schedules.windows.types import Edge, Reason, Start, Turn
from schedules.windows.warmth import (
    GROUND_WORKABLE_C,
    MONTH_MEAN_TOLERANCE_C,
    first_day_soil_reaches,
    first_day_warm_enough,
    heat_begins,
    soil_stays_too_cold,
    warm_and_cool_enough,
)

# Common practice, no source: early enough for a second try, late enough for the ground to have settled.
BEST_SHARE = 1 / 3
# Common practice, no source: so soon must be begun what ripens in the heat, whenever it is begun.
IN_HEAT_DAYS = 14
RIPENS_IN_HEAT = "ripens-in-heat"
# The growing season that a garden can count on, in the reason for too short a one: reached in 7 years of 10.
SEASON_PERCENT = 70


def spring_span(facts: CropFacts, start: Start, year: GrowingYear) -> Span | NoSpan:
    """The days on which this year's spring planting may begin, or why there are none."""
    weeks = spring_weeks(facts, start)
    if weeks is None:
        return no_span("not-planted-in-spring")
    if year.curve(Side.LAST, 0.0) is None:
        return no_span("last-frost-unknown")
    if soil_stays_too_cold(facts, start, year):
        return no_span("soil-never-warm-enough", celsius=facts.soil_min_c)
    frost = year.last_frost()
    if frost is None:
        return frost_free_span(facts, start, year, Turn.SPRING)
    if year.has_normals and first_day_warm_enough(facts, year) is None:
        return no_span("never-warm-enough", celsius=facts.growth_min_c)
    ripens = None if facts.perennial else ripening(facts, start, Turn.SPRING, year)
    if ripens is not None and ripens.never:
        return no_span("too-little-warmth", days=ripens.days[Pace.QUICK])
    return _Spring(facts, start, year, weeks, frost, ripens).span()


@dataclass(frozen=True, slots=True)
class _Spring:
    """A spring planting where the mean last frost is known: `frost`, and the published `weeks` from it.

    `ripens` is `None` for perennials, and where no source gives the days.
    """

    facts: CropFacts
    start: Start
    year: GrowingYear
    weeks: tuple[float, float]
    frost: int
    ripens: Ripening | None

    def span(self) -> Span | NoSpan:
        earliest, why_earliest = earliest_allowed(self._earliest_bounds())
        latest, why_latest = latest_allowed(self._latest_bounds(earliest))
        if latest < earliest:
            date = self.year.date
            clash = nothing_between((date(earliest), why_earliest[0]), (date(latest), why_latest[0]))
            return NoSpan((*self._too_short(), *clash))
        best, why_best = self._best(earliest, latest)
        return Span(earliest, best, latest, (*why_earliest, why_best, *why_latest, *self._unknowns()))

    def _earliest_bounds(self) -> Iterator[Bound]:
        yield from self._published_earliest()
        yield from weather_allows(self.facts, self.start, self.year)

    def _published_earliest(self) -> Iterator[Bound]:
        """Published weeks keep crops that frost kills safe from it, so a row cover moves them.

        Where hardly a frost reaches through the cover and warmth is known, warmth decides alone.
        """
        celsius = self.year.killing(Side.LAST, 0.0)
        if self.facts.hardiness in COOL_SEASON or not celsius:
            yield self._uncovered_earliest()
            return
        covered, weeks = self.year.last_frost(celsius), self.weeks[0]
        if covered is not None:
            values = {"weeks": weeks, "frost": self.year.date(covered), "cover_c": -celsius}
            yield Bound(covered + round(7 * weeks), "published-earliest-covered", values)
        elif not self.year.has_normals:
            yield self._uncovered_earliest()

    def _uncovered_earliest(self) -> Bound:
        weeks = self.weeks[0]
        shift = self.year.practice.early_shift(self.facts, self.year.northern(self.frost))
        values = {"weeks": weeks, "frost": self.year.date(self.frost), "shift_days": shift}
        return Bound(self.frost + round(7 * weeks) + shift, "published-earliest", values)

    def _published_latest(self, earliest: int) -> Bound:
        """Where risk or cold ground holds the start back, the published window moves with it whole.

        Soil that was read warmer than usual opens it sooner, and closes it no sooner for that.
        """
        weeks = self.weeks[1]
        shift = self.year.practice.late_shift(self.facts, self.year.northern(self.frost))
        values = {"weeks": weeks, "frost": self.year.date(self.frost), "shift_days": shift}
        day = self.frost + round(7 * weeks) + shift
        if self.year.unread is not self.year:
            usual, _why = earliest_allowed(replace(self, year=self.year.unread)._earliest_bounds())
            earliest = max(earliest, usual)
        delay = earliest - self._uncovered_earliest().day
        if delay > 0:
            return Bound(day + delay, "published-latest-delayed", {**values, "delay_days": delay})
        return Bound(day, "published-latest", values)

    def _latest_bounds(self, earliest: int) -> Iterator[Bound]:
        yield self._published_latest(earliest)
        freeze, values = self.year.ending_freeze(Turn.SPRING, dies_at(self.facts))
        if freeze is not None:
            yield from self._ripe_before(freeze, "ripens-before-freeze", values)
        heat = heat_begins(self.facts, self.year)
        if heat is not None:
            yield from self._about_heat(heat, earliest)

    def _ripe_before(self, day: int, code: str, values: Mapping[str, object]) -> Iterator[Bound]:
        """The last day on which a quick variety can begin that is to be ripe by `day`."""
        if self.ripens is not None:
            begun = self.ripens.begun_by(day, Pace.QUICK)
            yield Bound(begun, code, {**values, **self.ripens.told(begun, day, Pace.QUICK)})

    def _about_heat(self, heat: int, earliest: int) -> Iterator[Bound]:
        """Ripe before the heat; where no start is early enough for that, as early as it can be.

        Calendars of hot places print potatoes, parsnips and celery all the same.
        """
        limit: dict[str, object] = {"heat": self.year.date(heat), "celsius": self.facts.growth_max_c}
        for bound in self._ripe_before(heat, "matures-before-heat", limit):
            if self.ripens is not None and bound.day < earliest < heat:
                told = self.ripens.told(earliest, self.ripens.ripe(earliest, Pace.QUICK), Pace.QUICK)
                yield Bound(earliest + IN_HEAT_DAYS, RIPENS_IN_HEAT, {**limit, **told})
            else:
                yield bound

    def _best(self, earliest: int, latest: int) -> tuple[int, Reason]:
        """A third into the window, or later in it when the soil comes into the seed's best range."""
        third = earliest + round((latest - earliest) * BEST_SHARE)
        optimum = self.facts.soil_optimum_low_c
        if self.year.has_normals and self.start is Start.SOW and optimum is not None:
            warm = first_day_soil_reaches(optimum, self.year)
            if warm is not None and third < warm <= latest:
                return warm, Reason("soil-best-range", Edge.BEST, True, {"celsius": optimum})
        return third, Reason("a-third-in", Edge.BEST)

    def _too_short(self) -> Iterator[Reason]:
        ripe = None if self.ripens is None else self.ripens.ripe(self.frost, Pace.QUICK)
        first = self.year.first_frost(Turn.SPRING)
        if ripe is None or first is None or first >= ripe:
            return
        lengths = None if self.year.climate.freeze_free is None else self.year.climate.freeze_free(0.0)
        season = None if lengths is None else lengths.reached_in(SEASON_PERCENT)
        values = {"days": ripe - self.frost, "season_days": season, "percent": SEASON_PERCENT}
        yield Reason("season-too-short", Edge.NONE, True, values)

    def _unknowns(self) -> Iterator[Reason]:
        if self.year.curve(Side.FIRST, 0.0) is None:
            yield Reason("first-frost-unknown", Edge.LATEST, False)
        dies = YOUNG_PLANT_DIES_AT_C[self.facts.hardiness]
        if self.year.cover_c and self.year.killing(Side.LAST, dies) == dies:
            yield Reason("cover-not-counted", Edge.EARLIEST, False)


def weather_allows(facts: CropFacts, start: Start, year: GrowingYear) -> Iterator[Bound]:
    """The days from which frost, ground and air of spring allow to begin, whatever is published."""
    yield from _after_killing_risk(facts, start, year)
    if not year.has_normals:
        return
    soil_limit = facts.soil_min_c if start is Start.SOW else None
    for code, celsius in (("soil-warm-enough", soil_limit), ("ground-workable", GROUND_WORKABLE_C)):
        day = None if celsius is None else first_day_soil_reaches(celsius, year)
        if day is not None:
            yield Bound(day, code, {"celsius": celsius, **year.soil_read_near(day)})
    warm_air = first_day_warm_enough(facts, year)
    if warm_air is not None and facts.growth_min_c is not None:
        values = {"celsius": facts.growth_min_c, "tolerance_c": MONTH_MEAN_TOLERANCE_C}
        yield Bound(warm_air, "air-warm-enough", values)


def _after_killing_risk(facts: CropFacts, start: Start, year: GrowingYear) -> Iterator[Bound]:
    """A transplant is exposed from the day it is set out, a sown seed only from emergence.

    Published practice alone has no nerve and minds no risk.
    """
    dies, percent = YOUNG_PLANT_DIES_AT_C[facts.hardiness], year.nerve.percent
    celsius = year.killing(Side.LAST, dies)
    safe = None if percent is None else year.last_frost(celsius, percent)
    if safe is None:
        return
    cover = round(dies - celsius, 2)
    values = {"percent": percent, "celsius": celsius, "safe": year.date(safe), "cover_c": cover}
    if start is Start.TRANSPLANT:
        yield Bound(safe, "frost-risk-transplant", values)
        return
    sown, soil = safe, year.hiding_soil_c
    while (shows := exposed_from(facts, soil, sown - 1)) is not None and shows >= safe:
        sown -= 1
    told = {"days": safe - sown, "set_in_place": facts.method is Method.VEGETATIVE}
    yield Bound(sown, "frost-risk-emergence", {**values, **told})


def frost_free_span(facts: CropFacts, start: Start, year: GrowingYear, turn: Turn) -> Span | NoSpan:
    """The days of a turn on which warmth alone allows a planting, where frost is too rare to count from."""
    if not year.has_normals:
        return no_span("frost-too-rare")
    if turn is Turn.SPRING:
        half_year = range(year.coldest_day, year.hottest_day(turn) + 1)
    else:
        half_year = range(year.hottest_day(turn), year.midwinter_after(turn))
    days = warm_and_cool_enough(facts, start, turn, year, half_year)
    values = {"low": facts.growth_min_c, "high": facts.growth_max_c}
    if not days:
        return no_span("never-right-warmth", **values)
    rare = [] if turn is Turn.AUTUMN else _after_killing_risk(facts, start, year)
    earliest, why_earliest = earliest_allowed([Bound(days[0], "right-warmth-begins", values), *rare])
    ends = _before_rare_freeze(facts, start, turn, year)
    latest, why_latest = latest_allowed([Bound(days[-1], "right-warmth-ends", values), *ends])
    if latest < earliest:
        edges = (year.date(earliest), why_earliest[0]), (year.date(latest), why_latest[0])
        return NoSpan(nothing_between(*edges))
    best = earliest + round((latest - earliest) * BEST_SHARE)
    return Span(earliest, best, latest, (*why_earliest, Reason("a-third-in", Edge.BEST), *why_latest))


def _before_rare_freeze(facts: CropFacts, start: Start, turn: Turn, year: GrowingYear) -> Iterator[Bound]:
    """Where half of the years have no freeze, a careful nerve may still mind those that have."""
    freeze, values = year.ending_freeze(turn, dies_at(facts))
    ripens = None if facts.perennial else ripening(facts, start, turn, year)
    if freeze is not None and ripens is not None:
        begun = ripens.begun_by(freeze, Pace.QUICK)
        yield Bound(begun, "ripens-before-freeze", {**values, **ripens.told(begun, freeze, Pace.QUICK)})
