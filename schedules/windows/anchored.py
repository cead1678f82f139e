"""The windows of a planting as logs move them: what happened beats what was planned.

A day that was logged takes the place of the span that was reckoned, and all that follows is reckoned from it
with the same rules. What lies behind what was logged, or behind the clearing, has no window any more and says
so.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from crops.emergence import GIVE_UP_DAYS
from crops.facts import Method
from schedules.seasons import day_number
from schedules.windows.bounds import Span
from schedules.windows.course import Course
from schedules.windows.growth import HARDEN_OFF_DAYS, emergence, indoor_days, needs_thinning
from schedules.windows.happened import ENDS, STAGES, Happened, Stage, is_begun
from schedules.windows.types import Done, Edge, Operation, Reason, Start, Window

_EDGES = (Edge.EARLIEST, Edge.BEST, Edge.LATEST)
# What later dates are counted from; thinning moves nothing.
_ANCHORS = frozenset({Stage.START_INDOORS, Stage.HARDEN_OFF, Stage.SOW, Stage.CAME_UP, Stage.TRANSPLANT})
BEHIND = frozenset({"passed-by", "cleared"})


@dataclass(frozen=True, slots=True)
class Anchor:
    """A day that was logged, from which others are counted."""

    stage: Stage
    day: date


def anchored(
    planned: Iterable[Window],
    course: Course,
    happened: Mapping[int, Happened],
    plot_cleared: Collection[date] = (),
) -> tuple[Window, ...]:
    """The windows `planned` for a planting in one way, moved by what `happened` at each of its sowings.

    What had not begun when its plot was cleared is begun after that.
    """
    plans: dict[int, dict[Operation, Window]] = {}
    for window in planned:
        plans.setdefault(window.succession, {})[window.operation] = window
    first = _span_of(plans.get(1, {}).get(course.main), course)
    found: list[Window] = []
    before: Sowing | None = None
    for number in range(1, max([*plans, *happened], default=0) + 1):
        plan = plans.get(number, {})
        told = happened.get(number, Happened())
        if not plan and not told.days:
            continue
        span, anchor = _span_of(plan.get(course.main), course), None
        if before is not None and before.anchor is not None and first is not None:
            span, anchor = course.again(before.begun, first) if before.begun else None, before.anchor
        free = None if span is None or is_begun(told, course.start) else _freed(span, course, plot_cleared)
        before = Sowing(course, number, plan, free or span, anchor, told)
        if told.days or anchor or free:
            found += before.windows()
        else:
            found += plan.values()
    return tuple(found)


def lies_behind(window: Window) -> bool:
    """Whether it has no dates because it was passed by or cleared away, and not because it cannot be done."""
    return any(reason.code in BEHIND for reason in window.reasons)


def _freed(span: Span, course: Course, plot_cleared: Collection[date]) -> Span | None:
    """What is left of a time to begin of which the plot was cleared after the best day; else `None`."""
    days = {day_number(day, course.year.year): day for day in plot_cleared}
    first = max((number for number in days if span.best < number <= span.latest), default=None)
    if first is None:
        return None
    reasons = []
    for edge in (Edge.EARLIEST, Edge.BEST):
        reasons += _outweighed(span, edge, Reason("plot-cleared", edge, True, {"day": days[first]}))
    reasons += [reason for reason in span.reasons if reason.edge is Edge.LATEST]
    return Span(first, first, span.latest, tuple(reasons))


def _span_of(window: Window | None, course: Course) -> Span | None:
    if window is None or window.earliest is None or window.best is None or window.latest is None:
        return None
    dates = (window.earliest, window.best, window.latest)
    earliest, best, latest = (day_number(day, course.year.year) for day in dates)
    return Span(earliest, best, latest, window.reasons)


@dataclass(frozen=True, slots=True)
class Sowing:
    """One sowing: its `plan`, the `span` in which it was to begin, and what was `told` of it.

    The span is counted from the day that was logged of an earlier sowing, `counted`, if there is one.
    """

    course: Course
    number: int
    plan: Mapping[Operation, Window]
    span: Span | None
    counted: Anchor | None
    told: Happened

    def windows(self) -> Iterator[Window]:
        """A window for each operation that was planned, is reckoned or was logged."""
        reckoned = {window.operation: window for window in self._reckoned()}
        for operation in Operation:
            if operation in reckoned or operation in self.plan or Stage(operation) in self.told.days:
                yield self._as_told(operation, reckoned.get(operation))

    @property
    def begun(self) -> Span | None:
        """When it begins where it grows: by its log, by its seedlings, or as reckoned."""
        return self._set_out() if self.course.start is Start.TRANSPLANT else self._sown()

    @property
    def anchor(self) -> Anchor | None:
        """The logged day that moves the sowings after this one."""
        return self._anchor(self.course.main, inclusive=True)

    def _reckoned(self) -> Iterator[Window]:
        begun, up = self.begun, self.told.on(Stage.CAME_UP)
        if begun is None:
            return
        yield from self.course.under_cover(begun, self.number)
        yield self.course.beginning(begun, self.number)
        if up is None:
            yield from self.course.thin(begun, self.number)
        elif self.course.start is Start.SOW and needs_thinning(self.course.facts):
            shows = self._number(up.day)
            yield self.course.thin_after(shows, shows, shows, self.number)
        # Lengthening days ripen what stood over winter, whenever it was set.
        ripens = self.span if self.course.overwinters and self.span is not None else begun
        yield self.course.harvest(ripens, self.number)

    def _number(self, day: date) -> int:
        return day_number(day, self.course.year.year)

    def _on(self, number: int) -> Span:
        return Span(number, number, number, ())

    def _sown(self) -> Span | None:
        """The day of sowing; where it came up sooner or later than reckoned, that much sooner or later."""
        sown, up = self.told.on(Stage.SOW), self.told.on(Stage.CAME_UP)
        if up is None:
            return self.span if sown is None else self._on(self._number(sown.day))
        shows = self._number(up.day)
        if sown is not None:
            expected = self._shows(self._number(sown.day))
            return self._on(self._number(sown.day) + (0 if expected is None else shows - expected))
        for day in range(shows, shows - GIVE_UP_DAYS, -1):
            expected = self._shows(day)
            if expected is not None and expected <= shows:
                return self._on(day)
        return self._on(shows)

    def _shows(self, sown: int) -> int | None:
        return emergence(self.course.facts, self.course.year.soil_c, sown)

    def _set_out(self) -> Span | None:
        """When seedlings are set out: as logged, or from when those that were started are ready."""
        done, hardened = self.told.on(Stage.TRANSPLANT), self.told.on(Stage.HARDEN_OFF)
        if done is not None:
            return self._on(self._number(done.day))
        if hardened is not None:
            low, high = HARDEN_OFF_DAYS
            day = self._number(hardened.day)
            days = {"days_low": low, "days_high": high}
            return self._when_ready(day + low, day + high, "before-transplanting", days)
        started = self._started()
        fewest, middle, most = indoor_days(self.course.facts)
        if started is None or not most:
            return self.span
        weeks = {"weeks_low": fewest / 7, "weeks_high": most / 7}
        return self._when_ready(started + fewest, started + middle, "weeks-under-cover", weeks)

    def _started(self) -> int | None:
        """The day from which seedlings count their weeks: their emergence tells more than their sowing."""
        started, up = self.told.on(Stage.START_INDOORS), self.told.on(Stage.CAME_UP)
        waits = emergence(self.course.facts, None, 0)
        if up is not None and (started is None or waits is not None):
            return self._number(up.day) - (waits or 0)
        return None if started is None else self._number(started.day)

    def _when_ready(self, soonest: int, best: int, code: str, values: Mapping[str, object]) -> Span:
        """Not before the seedlings are ready, nor before the reckoned span allows it."""
        ready = {edge: Reason(code, edge, True, values) for edge in _EDGES}
        span = self.span
        if span is None:
            unknown = Reason("against-plan", Edge.LATEST)
            return Span(soonest, best, best, (ready[Edge.EARLIEST], ready[Edge.BEST], unknown))
        earliest = max(soonest, span.earliest)
        late = earliest > span.latest
        latest = max(best, earliest) if late else span.latest
        sooner = soonest <= span.earliest
        found = _outweighed(span, Edge.EARLIEST, None if sooner else ready[Edge.EARLIEST])
        found.append(ready[Edge.BEST])
        last = {"latest": self.course.year.date(span.latest)}
        found += _outweighed(
            span, Edge.LATEST, Reason("seedlings-late", Edge.LATEST, True, last) if late else None
        )
        return Span(earliest, min(max(best, earliest), latest), latest, tuple(found))

    def _as_told(self, operation: Operation, reckoned: Window | None) -> Window:
        done, later = self.told.on(Stage(operation)), self._later(operation)
        if operation is Operation.HARVEST and done is not None:
            return self._picked(reckoned, done)
        if done is not None:
            return self._done(operation, done, done)
        if later is not None and not self._was_over(reckoned, later):
            code = "cleared" if later.stage in ENDS else "passed-by"
            return self._none(operation, Reason(code, Edge.NONE, True, self._values(later)))
        if reckoned is None:
            return self._refused(operation)
        return self._after(reckoned)

    def _was_over(self, reckoned: Window | None, later: Anchor) -> bool:
        """Whether it was lost or cleared only after its time of picking, of which nothing was told."""
        if reckoned is None or reckoned.latest is None or later.stage not in ENDS:
            return False
        return reckoned.operation is Operation.HARVEST and reckoned.latest < later.day

    def _done(self, operation: Operation, first: Done, last: Done) -> Window:
        """What was done from one day to another; its reason keeps what had been planned."""
        window = self.plan.get(operation)
        values = self._values(Anchor(Stage(operation), first.day))
        for edge in _EDGES:
            values[edge.value] = None if window is None else getattr(window, edge.value)
        found = self._none(operation, Reason("logged", Edge.DONE, True, values))
        return replace(found, earliest=first.day, best=first.day, latest=last.day, done=last)

    def _picked(self, reckoned: Window | None, first: Done) -> Window:
        """Picking goes on for its time from the first day, or until it is lost or cleared."""
        last = self.told.last_picked or first
        if self.told.ended is not None:
            return self._done(Operation.HARVEST, first, last)
        begins, course = self._number(first.day), self.course
        days = course.facts.harvest_days_high or 0
        span = None if reckoned is None else _span_of(reckoned, course)
        since = {edge: Reason("picked-since", edge, True, {"day": first.day}) for edge in _EDGES}
        latest, why = begins + days, Reason("picking-period", Edge.LATEST, True, {"days": days})
        if span is not None and (not days or begins < span.earliest):
            # Picked before it can be ripe, as thinnings are, it says nothing about its end.
            latest = max(latest, span.latest)
        if not course.overwinters and (course.facts.first_harvest_year or 1) == 1:
            cut, freeze = course.picked_until(latest, begins, days)
            if begins < cut < latest:
                latest, why = cut, freeze
        if self._number(last.day) > latest:
            latest, why = self._number(last.day), Reason("picked-since", Edge.LATEST, True, {"day": last.day})
        best = begins if span is None else min(max(span.best, begins), latest)
        why_best = [since[Edge.BEST]]
        if reckoned is not None and best > begins:  # the first handful does not bring it forward
            why_best = [reason for reason in reckoned.reasons if reason.edge is Edge.BEST]
        dates = {"best": course.year.date(best), "latest": max(last.day, course.year.date(latest))}
        found = replace(
            self._none(Operation.HARVEST, since[Edge.EARLIEST]),
            earliest=first.day,
            best=max(first.day, dates["best"]),
            latest=max(first.day, dates["latest"]),
            reasons=(since[Edge.EARLIEST], *why_best, why),
            last_picked=last,
        )
        return self._moved(found)

    def _after(self, window: Window) -> Window:
        """A window still to come: not before what was logged, and told what it is counted from."""
        if window.earliest is None or window.best is None or window.latest is None:
            return window
        anchor, floor = self._anchor(window.operation), self._before(window.operation)
        counts = anchor is not None and not (
            window.operation is Operation.HARVEST and self.course.overwinters and self.span is not None
        )
        reasons = window.reasons if window.operation is not Operation.HARVEST else _honest(window)
        if anchor is not None and counts:
            code = "counted-from-earlier" if anchor is self.counted else "counted-from"
            values = self._values(anchor)
            reasons = (*(Reason(code, edge, True, values) for edge in _EDGES), *reasons)
        if floor is not None and window.earliest < floor.day:
            reasons = (Reason("after-logged", Edge.EARLIEST, True, self._values(floor)), *reasons)
            first, best, last = (max(floor.day, day) for day in (window.earliest, window.best, window.latest))
            window = replace(window, earliest=first, best=best, latest=last)
        return self._moved(replace(window, reasons=reasons))

    def _moved(self, window: Window) -> Window:
        plan = self.plan.get(window.operation)
        if plan is None or plan.best is None or window.best is None:
            return window
        return replace(window, moved_days=(window.best - plan.best).days)

    def _refused(self, operation: Operation) -> Window:
        """What cannot be dated: as planned, or because the sowing before came too late for another."""
        plan = self.plan.get(operation)
        if plan is not None and (self.counted is None or plan.best is None):
            return plan
        days = {"days": self.course.facts.succession_days}
        return self._none(operation, Reason("too-late-for-another", Edge.NONE, True, days))

    def _none(self, operation: Operation, *reasons: Reason) -> Window:
        return self.course.no_window(operation, self.number, reasons)

    def _values(self, anchor: Anchor) -> dict[str, object]:
        set_in_place = anchor.stage is Stage.SOW and self.course.facts.method is Method.VEGETATIVE
        return {"work": "set" if set_in_place else anchor.stage.value, "day": anchor.day}

    def _later(self, operation: Operation) -> Anchor | None:
        """The first stage after an operation that a log tells of."""
        stages = STAGES[self.course.start]
        own = Stage(operation)
        after = stages[stages.index(own) + 1 :] if own in stages else stages
        return next((Anchor(stage, done.day) for stage in after if (done := self.told.on(stage))), None)

    def _before(self, operation: Operation) -> Anchor | None:
        """The last stage before an operation that a log tells of."""
        stages = STAGES[self.course.start]
        told = (stage for stage in stages[: stages.index(Stage(operation))] if stage in self.told.days)
        last = max(told, key=stages.index, default=None)
        return None if last is None else Anchor(last, self.told.days[last].day)

    def _anchor(self, operation: Operation, *, inclusive: bool = False) -> Anchor | None:
        """What an operation is counted from: the last such stage before it, or the sowing before."""
        stages = STAGES[self.course.start]
        before = stages[: stages.index(Stage(operation)) + inclusive]
        for stage in reversed(before):
            if stage in _ANCHORS and stage in self.told.days:
                return Anchor(stage, self.told.days[stage].day)
        return self.counted


def _outweighed(span: Span, edge: Edge, by: Reason | None) -> list[Reason]:
    """The reasons of an edge, behind the one that outweighs them."""
    own = [reason for reason in span.reasons if reason.edge is edge]
    return own if by is None else [by, *(replace(reason, decisive=False) for reason in own)]


def _honest(window: Window) -> tuple[Reason, ...]:
    """The reasons of a harvest; one that would ripen only after the freeze that ends it says that."""
    return tuple(
        replace(reason, code="ripe-after-freeze")
        if reason.code == "killed-by-freeze" and reason.values["freeze"] != window.latest
        else reason
        for reason in window.reasons
    )
