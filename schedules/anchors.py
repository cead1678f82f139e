"""What the logs of one planting say was done at each of its sowings.

Logs are read in the order of their days. One that says which sowing it tells of counts there; another goes to
the first sowing at which that is still to be done. Beginning again before anything was picked starts a sowing
anew; beginning again later is one sowing more. Clearing the whole plot ends what had begun there, and leaves
alone what is to be begun later; a frost takes what stood in the ground that day, and what it took may be
begun anew. A step after a later one was taken (hardening off what stands
in the ground already) stays in the diary and moves nothing, so that the days of a sowing are always in order.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from types import MappingProxyType

from crops.facts import MOST_SUCCESSIONS
from schedules.windows import Done, Start
from schedules.windows.happened import ENDS, IN_THE_GROUND, STAGES, Happened, Stage
from schedules.work import Work

TELLING = frozenset(stage.value for stages in STAGES.values() for stage in stages)
_MAIN = {Start.SOW: Stage.SOW, Start.TRANSPLANT: Stage.TRANSPLANT}
_ORDER = tuple(Stage)
_A_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Logged:
    """A log that stands: its primary key, its work and day, and which sowing it tells of if it says so.

    One of the `whole_plot` names no planting: everything that grew there was cleared.
    """

    log: int
    work: str
    day: date
    sowing: int | None = None
    whole_plot: bool = False


def grown_as(logs: Collection[Logged], planned: Start, ways: Collection[Start]) -> Start:
    """How a planting is grown by its logs: what was to be sown may have been raised under cover instead."""
    works = {one.work for one in logs}
    under_cover = bool(works & {Work.START_INDOORS, Work.TRANSPLANT}) and Work.SOW not in works
    return Start.TRANSPLANT if under_cover and Start.TRANSPLANT in ways else planned


def happened(
    logs: Iterable[Logged],
    start: Start,
    *,
    sowings: int,
    picking_days: int = 0,
    begun_by: Mapping[int, date] = MappingProxyType({}),
) -> dict[int, Happened]:
    """What was done at each sowing of which anything is told, by its number, 1 first.

    `sowings` were planned. A picking of an untold sowing goes to the next one `picking_days` after the first.
    A sowing of whose beginning nothing is told counts as begun after its day in `begun_by`.
    """
    known = {number: _Sowing(start, begun_by.get(number)) for number in range(1, sowings + 1)}
    record = _Record(start, known, picking_days)
    told = [(one, stage) for one in logs if (stage := _stage(one.work, start)) is not None]
    for one, stage in sorted(told, key=lambda pair: (pair[0].day, _ORDER.index(pair[1]), pair[0].log)):
        if one.whole_plot:
            record.clear_plot(Done(one.day, one.log))
        else:
            record.take(stage, Done(one.day, one.log), one.sowing)
    return {
        number: Happened(sowing.days, sowing.last_picked)
        for number, sowing in sorted(record.sowings.items())
        if sowing.days
    }


def _stage(work: str, start: Start) -> Stage | None:
    """The stage that a work tells of where a crop is grown so: sown in a tray, or set out as bought."""
    if work not in TELLING:
        return None
    stage = Stage(work)
    if start is Start.TRANSPLANT and stage is Stage.SOW:
        return Stage.START_INDOORS
    if start is Start.SOW and stage is Stage.TRANSPLANT:
        return Stage.SOW
    return stage if stage in STAGES[start] else None


@dataclass(slots=True)
class _Sowing:
    """One sowing as the logs read so far tell of it."""

    start: Start
    begun_by: date | None = None
    days: dict[Stage, Done] = field(default_factory=dict)
    last_picked: Done | None = None

    def grew_before(self, day: date) -> bool:
        """Whether it stood in the ground when the plot was cleared on `day`.

        What was begun on that very day was begun in the cleared ground.
        """
        told = [self.days[stage] for stage in IN_THE_GROUND[self.start] if stage in self.days]
        if told:
            return told != [self.days.get(_MAIN[self.start])] or told[0].day < day
        return self.begun_by is not None and self.begun_by < day

    def accepts(self, stage: Stage) -> bool:
        """Whether the stage is still to come."""
        stages = STAGES[self.start]
        return not any(later in self.days for later in stages[stages.index(stage) :])

    def may_restart(self, stage: Stage) -> bool:
        """Whether it can be begun anew: seed that rotted, seedlings that a frost took."""
        if stage not in (_MAIN[self.start], Stage.START_INDOORS):
            return False
        if self.days.keys() == {Stage.CLEAR}:  # its place was cleared before it was begun
            return True
        over = {Stage.HARVEST, Stage.CLEAR}  # what a frost took may be planted anew
        if over & self.days.keys():
            return False
        return stage is _MAIN[self.start] or Stage.KILLED in self.days or self.accepts(_MAIN[self.start])

    def reach(self, stage: Stage, done: Done) -> None:
        """Takes a stage; whatever came after it is to be done again."""
        stages = STAGES[self.start]
        for later in stages[stages.index(stage) :]:
            self.days.pop(later, None)
        self.days[stage] = done
        if stage is Stage.HARVEST:
            self.last_picked = done


@dataclass(slots=True)
class _Record:
    """The sowings of a planting, while its logs are read."""

    start: Start
    sowings: dict[int, _Sowing]
    picking_days: int

    def take(self, stage: Stage, done: Done, number: int | None) -> None:
        """Reads one log."""
        if stage in ENDS and number is None:
            for sowing in self.sowings.values() if stage is Stage.CLEAR else self._stood(done.day):
                self._tell(sowing, stage, done)
            return
        known = number if number is None or 1 <= number <= MOST_SUCCESSIONS else None
        if known is None:
            known = self._next(stage, done)
        if known is not None:
            self._tell(self.sowings.setdefault(known, _Sowing(self.start)), stage, done)

    def clear_plot(self, done: Done) -> None:
        """Reads that the whole plot was cleared."""
        for sowing in self.sowings.values():
            if sowing.grew_before(done.day):
                self._tell(sowing, Stage.CLEAR, done)

    def _stood(self, day: date) -> list[_Sowing]:
        """What a frost of `day` took: what stood in the ground; where no log tells of any, the first."""
        known = list(self.sowings.values())
        stood = [one for one in known if not ENDS & one.days.keys() and one.grew_before(day + _A_DAY)]
        return stood or known[:1]

    def _tell(self, sowing: _Sowing, stage: Stage, done: Done) -> None:
        if sowing.accepts(stage) or sowing.may_restart(stage):
            sowing.reach(stage, done)
        elif stage is Stage.HARVEST and stage in sowing.days and not ENDS & sowing.days.keys():
            sowing.last_picked = done

    def _next(self, stage: Stage, done: Done) -> int | None:
        """The sowing that a log without a number tells of."""
        if stage is Stage.HARVEST:
            return self._picked(done)
        waiting = [number for number, sowing in self.sowings.items() if sowing.accepts(stage)]
        begun = [number for number in waiting if self.sowings[number].days]
        if stage not in (_MAIN[self.start], Stage.START_INDOORS):
            return min(begun or waiting, default=None)
        again = [number for number, sowing in self.sowings.items() if sowing.may_restart(stage)]
        if waiting or again:
            return min(waiting) if waiting else max(again)
        return max(self.sowings) + 1 if max(self.sowings) < MOST_SUCCESSIONS else None

    def _picked(self, done: Done) -> int | None:
        """The first sowing whose picking is not over; where all are, the last."""
        standing = [number for number, sowing in self.sowings.items() if not ENDS & sowing.days.keys()]
        begun = [number for number in standing if self.sowings[number].days]
        for number in begun:
            first = self.sowings[number].days.get(Stage.HARVEST)
            if first is None or done.day <= first.day + timedelta(days=self.picking_days):
                return number
        return max(begun, default=min(standing, default=None))
