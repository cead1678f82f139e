"""The course of a planting: everything that follows from the days on which it may begin."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from crops.facts import CropFacts
from schedules.windows.bounds import NoSpan, Span
from schedules.windows.growing_year import GrowingYear
from schedules.windows.growth import (
    HARDEN_OFF_DAYS,
    THINNING_DAYS,
    TRUE_LEAVES_DAYS,
    dies_at,
    emergence,
    indoor_days,
    needs_thinning,
)
from schedules.windows.ripening import Pace, Ripening, ripening
from schedules.windows.types import Edge, Operation, Reason, Start, Turn, Window


@dataclass(frozen=True, slots=True)
class Course:
    """One way of growing a crop in one turn of one year; writes its windows."""

    facts: CropFacts
    turn: Turn
    start: Start
    year: GrowingYear

    def windows(self, span: Span | NoSpan) -> Iterator[Window]:
        """All windows of all successions, or the one that says why there is none."""
        if isinstance(span, NoSpan):
            yield self.no_window(self.main, 1, span.reasons)
            return
        for number, begun in enumerate(self._successions(span), start=1):
            yield from self.under_cover(begun, number)
            yield self.beginning(begun, number)
            yield from self.thin(begun, number)
            yield self.harvest(begun, number)

    @property
    def main(self) -> Operation:
        """The operation that puts the crop where it grows."""
        return Operation.SOW if self.start is Start.SOW else Operation.TRANSPLANT

    def beginning(self, begun: Span, number: int) -> Window:
        """The window of sowing or transplanting itself."""
        return self._window(self.main, number, begun.earliest, begun.best, begun.latest, begun.reasons)

    def _successions(self, span: Span) -> Iterator[Span]:
        yield span
        later = self.again(span, span)
        while later is not None:
            yield later
            later = self.again(later, span)

    def again(self, before: Span, first: Span) -> Span | None:
        """When to begin once more after `before`; `None` past the last day of the `first` time."""
        interval = self.facts.succession_days
        if not interval or before.best + interval > first.latest:
            return None
        reasons = (
            Reason("succession", Edge.EARLIEST, True, {"days": interval}),
            Reason("succession", Edge.BEST, True, {"days": interval}),
            *(reason for reason in first.reasons if reason.edge is Edge.LATEST),
        )
        earliest, best = (max(first.earliest, day + interval) for day in (before.earliest, before.best))
        return Span(earliest, best, first.latest, reasons)

    def under_cover(self, begun: Span, number: int) -> Iterator[Window]:
        """Starting indoors and hardening off, where seedlings stand under cover before they are set out."""
        fewest, middle, most = indoor_days(self.facts)
        if not most or self.start is Start.SOW:
            return
        weeks = {"weeks_low": fewest / 7, "weeks_high": most / 7}
        yield self._window(
            Operation.START_INDOORS,
            number,
            begun.earliest - most,
            begun.best - middle,
            begun.latest - fewest,
            tuple(Reason("weeks-under-cover", edge, True, weeks) for edge in _EDGES),
        )
        shortest, longest = HARDEN_OFF_DAYS
        days = {"days_low": shortest, "days_high": longest}
        yield self._window(
            Operation.HARDEN_OFF,
            number,
            begun.earliest - longest,
            begun.best - longest,
            begun.latest - shortest,
            tuple(Reason("before-transplanting", edge, True, days) for edge in _EDGES),
        )

    def thin(self, begun: Span, number: int) -> Iterator[Window]:
        """Thinning of what is sown closer than it finally stands, counted from when it shows."""
        if self.start is not Start.SOW or not needs_thinning(self.facts):
            return
        sown = (begun.earliest, begun.best, begun.latest)
        up = [emergence(self.facts, self.year.soil_c, day) for day in sown]
        waits = [shows - day for shows, day in zip(up, sown, strict=True) if shows is not None]
        if not waits:
            return
        # Where the soil is too cold or too hot on one of the days, seed waits about as long as on the others.
        first, best, last = (
            day + max(waits) if shows is None else shows for shows, day in zip(up, sown, strict=True)
        )
        best = max(first, best)
        yield self.thin_after(first, best, max(best, last), number, emergence_days=best - begun.best)

    def thin_after(
        self, first: int, best: int, last: int, number: int, *, emergence_days: int | None = None
    ) -> Window:
        """Thinning of what shows on these days; without `emergence_days` they were not reckoned but seen."""
        values = {
            "emergence_days": emergence_days,
            "leaf_days": TRUE_LEAVES_DAYS,
            "thinning_days": THINNING_DAYS,
            "spacing_m": self.facts.spacing_m,
            "when": self.facts.thin_when,
        }
        return self._window(
            Operation.THIN,
            number,
            first + TRUE_LEAVES_DAYS,
            best + TRUE_LEAVES_DAYS,
            last + TRUE_LEAVES_DAYS + THINNING_DAYS,
            tuple(Reason("true-leaves", edge, True, values) for edge in _EDGES),
        )

    def harvest(self, begun: Span, number: int) -> Window:
        """From the first picking to the last."""
        ripens = ripening(self.facts, self.start, self.turn, self.year)
        picking = self.facts.harvest_days_high or 0
        if ripens is None or (self.facts.first_harvest_year or 1) > 1:
            values = {"year": self.facts.first_harvest_year, "days": picking}
            return self.no_window(
                Operation.HARVEST, number, (Reason("harvest-in-later-year", Edge.NONE, True, values),)
            )
        if self.overwinters:
            return self._summer_harvest(begun, number, ripens.days, picking)
        return self._harvest_by_growth(begun, number, ripens, picking)

    def _harvest_by_growth(self, begun: Span, number: int, ripens: Ripening, picking: int) -> Window:
        """From when a quick variety is ripe, if begun early, to the last picking of a slow one begun late."""
        if ripens.never:
            cold = Reason("too-little-warmth", Edge.NONE, True, {"days": ripens.days[Pace.QUICK]})
            return self.no_window(Operation.HARVEST, number, (cold,))
        quick, best = ripens.ripe(begun.earliest, Pace.QUICK), ripens.ripe(begun.best, Pace.MIDDLING)
        latest = ripens.ripe(begun.latest, Pace.SLOW) + picking
        latest, last = self.picked_until(latest, quick, picking)
        growing = {
            "days_low": ripens.days[Pace.QUICK],
            "days_high": ripens.days[Pace.SLOW],
            "takes": best - begun.best,
            "counted": ripens.counted,
            "base_c": ripens.base_c,
            "best_c": ripens.best_c,
        }
        reasons = (
            Reason("days-to-maturity", Edge.EARLIEST, True, growing),
            Reason("days-to-maturity", Edge.BEST, True, growing),
            last,
        )
        return self._window(Operation.HARVEST, number, quick, min(best, latest), latest, reasons)

    def picked_until(self, latest: int, earliest: int, picking: int) -> tuple[int, Reason]:
        """The last day of picking, `latest` or the freeze before it that ends the crop, and why."""
        freeze, values = self.year.ending_freeze(self.turn, dies_at(self.facts))
        if freeze is None or freeze >= latest:
            return latest, Reason("picking-period", Edge.LATEST, True, {"days": picking})
        return max(freeze, earliest), Reason("killed-by-freeze", Edge.LATEST, True, values)

    def _summer_harvest(self, begun: Span, number: int, days: tuple[int, int, int], picking: int) -> Window:
        """The length of day ripens a bulb set in autumn, so its harvest counts from the best day alone."""
        values = {"days_low": days[0], "days_high": days[2], "picking_days": picking}
        reasons = tuple(Reason("ripens-next-summer", edge, True, values) for edge in _EDGES)
        earliest, best, latest = (begun.best + count for count in (days[0], days[1], days[2] + picking))
        return self._window(Operation.HARVEST, number, earliest, best, latest, reasons)

    @property
    def overwinters(self) -> bool:
        """Whether it is set in autumn and picked the summer after."""
        return self.turn is Turn.AUTUMN and self.facts.autumn_weeks_early is not None

    def _window(
        self,
        operation: Operation,
        number: int,
        earliest: int,
        best: int,
        latest: int,
        reasons: tuple[Reason, ...],
    ) -> Window:
        date = self.year.date
        return Window(
            crop=self.facts.slug,
            operation=operation,
            turn=self.turn,
            start=self.start,
            succession=number,
            earliest=date(earliest),
            best=date(best),
            latest=date(latest),
            reasons=reasons,
        )

    def no_window(self, operation: Operation, number: int, reasons: tuple[Reason, ...]) -> Window:
        """A window without dates, which says why."""
        return Window(
            crop=self.facts.slug,
            operation=operation,
            turn=self.turn,
            start=self.start,
            succession=number,
            earliest=None,
            best=None,
            latest=None,
            reasons=reasons,
        )


_EDGES = (Edge.EARLIEST, Edge.BEST, Edge.LATEST)
