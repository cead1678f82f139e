"""When a planting of the autumn turn may begin, counted back from the first killing freeze."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from crops.facts import CropFacts
from schedules.seasons import DAYS_IN_YEAR, Side
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
from schedules.windows.growth import dies_at
from schedules.windows.ripening import Pace, Ripening, ripening
from schedules.windows.spring import BEST_SHARE, frost_free_span, spring_span, weather_allows
from schedules.windows.types import Edge, Reason, Start, Turn
from schedules.windows.warmth import growth_ends, heat_ends, soil_stays_too_cold

# Common practice, no source: where the frost-free season is at least this long, a second crop can follow.
LONG_SEASON_DAYS = 200
# For crops without a published margin: ripe this long before the mean first frost if freezing kills them.
TENDER_MARGIN_DAYS = 14


def autumn_span(facts: CropFacts, start: Start, year: GrowingYear) -> Span | NoSpan:
    """The days on which this year's autumn planting may begin, or why there are none."""
    frost = year.first_frost(Turn.AUTUMN)
    frost_unknown = year.curve(Side.FIRST, 0.0) is None
    weeks = (facts.autumn_weeks_early, facts.autumn_weeks_late)
    if weeks[0] is not None and weeks[1] is not None:
        if frost is None:
            return no_span("first-frost-unknown" if frost_unknown else "frost-too-rare")
        return _overwintering_span(year, frost, weeks[0], weeks[1])
    ripens = ripening(facts, start, Turn.AUTUMN, year)
    if ripens is None or facts.perennial:
        return no_span("not-planted-in-autumn")
    if frost_unknown:
        return no_span("first-frost-unknown")
    if soil_stays_too_cold(facts, start, year):
        return no_span("soil-never-warm-enough", celsius=facts.soil_min_c)
    if frost is None:
        return frost_free_span(facts, start, year, Turn.AUTUMN)
    if not facts.fall_crop and _frost_free_days(year, frost) < LONG_SEASON_DAYS:
        return no_span("autumn-needs-long-season", days=LONG_SEASON_DAYS)
    if ripens.never:
        return no_span("too-little-warmth", days=ripens.days[Pace.QUICK])
    return _Autumn(facts, start, year, frost, ripens).span()


def _frost_free_days(year: GrowingYear, first_frost: int) -> int:
    """Days between the mean dates before `first_frost`; a whole year where a last frost is too rare."""
    last = year.last_frost()
    return DAYS_IN_YEAR if last is None else (first_frost - last) % DAYS_IN_YEAR


def ripe_by(facts: CropFacts, year: GrowingYear, frost: int) -> Iterator[Bound]:
    """The days by which an autumn crop has to be ripe: by a published margin from the mean first `frost`
    where no record is known, by the freeze that ends it, and by when it grows too cold.
    """
    if not year.has_normals:
        margin = facts.fall_margin_days
        if margin is None:
            margin = TENDER_MARGIN_DAYS if dies_at(facts) >= 0 else 0
        yield Bound(frost - margin, "published-margin", {"margin": margin, "frost": year.date(frost)})
        if year.nerve.percent is None:
            return
    freeze, values = year.ending_freeze(Turn.AUTUMN, dies_at(facts))
    if freeze is not None:
        yield Bound(freeze, "killing-freeze", values)
    ends = growth_ends(facts, year)
    if ends is not None:
        yield Bound(ends, "growth-ends", {"ends": year.date(ends), "celsius": facts.growth_min_c})


@dataclass(frozen=True, slots=True)
class _Autumn:
    """An autumn planting where the mean first frost is known, `frost`, and how it `ripens`."""

    facts: CropFacts
    start: Start
    year: GrowingYear
    frost: int
    ripens: Ripening

    def span(self) -> Span | NoSpan:
        ripe = min(ripe_by(self.facts, self.year, self.frost), key=lambda bound: bound.day, default=None)
        if ripe is None:  # nothing ends it before the spring turn takes over
            return frost_free_span(self.facts, self.start, self.year, Turn.AUTUMN)
        latest, why_latest = latest_allowed([self._back_from(ripe, "counted-back-latest", Pace.QUICK, 0)])
        earliest, why_earliest = earliest_allowed(self._earliest_bounds(ripe))
        if latest < earliest:
            date = self.year.date
            return NoSpan(nothing_between((date(earliest), why_earliest[0]), (date(latest), why_latest[0])))
        best = earliest + round((latest - earliest) * BEST_SHARE)
        return Span(earliest, best, latest, (*why_earliest, Reason("a-third-in", Edge.BEST), *why_latest))

    def _back_from(self, last: Bound, code: str, pace: Pace, picking: int) -> Bound:
        """The day to begin for `picking` days of harvest before the `last` day."""
        ripe = last.day - picking
        begun = self.ripens.begun_by(ripe, pace)
        values = {"picking_days": picking, "ripe_by": self.year.date(last.day), "because": last.code}
        return Bound(begun, code, {**last.values, **values, **self.ripens.told(begun, ripe, pace)})

    def _earliest_bounds(self, ripe: Bound) -> Iterator[Bound]:
        picking = self.facts.harvest_days_high or 0
        back = self._back_from(ripe, "counted-back-earliest", Pace.SLOW, picking)
        yield back
        yield from (bound for bound in self._after_winter() if bound.day > back.day)
        spring = spring_span(self.facts, self.start, self.year)
        if isinstance(spring, Span):
            ended = spring.latest - (DAYS_IN_YEAR if self.year.south else 0)
            yield Bound(ended + 1, "after-spring-window", {"spring_latest": self.year.date(ended)})
        cool = heat_ends(self.facts, self.year)
        if cool is not None:
            heat: dict[str, object] = {"heat": self.year.date(cool), "celsius": self.facts.growth_max_c}
            yield Bound(self.ripens.begun_by(cool, Pace.QUICK), "matures-after-heat", heat)

    def _after_winter(self) -> Iterator[Bound]:
        """Where summers are so cool that the way to the harvest leads back into the winter before them."""
        spring, ahead = self.year, 0
        if self.year.south:
            spring, ahead = replace(self.year, year=self.year.year - 1), DAYS_IN_YEAR
        for bound in weather_allows(self.facts, self.start, spring):
            yield replace(bound, day=bound.day - ahead)


def _overwintering_span(year: GrowingYear, frost: int, weeks_early: float, weeks_late: float) -> Span:
    """Crops set in autumn to be picked next summer (garlic)."""
    earliest, latest = frost + round(7 * weeks_early), frost + round(7 * weeks_late)
    date = year.date(frost)
    reasons = (
        Reason("set-around-first-frost", Edge.EARLIEST, True, {"weeks": weeks_early, "frost": date}),
        Reason("a-third-in", Edge.BEST),
        Reason("set-before-ground-freezes", Edge.LATEST, True, {"weeks": weeks_late, "frost": date}),
    )
    return Span(earliest, earliest + round((latest - earliest) * BEST_SHARE), latest, reasons)
