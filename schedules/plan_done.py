"""What was planned against what was done, and what that suggests for the next year."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from statistics import median

from schedules.figures import Share, Totals
from schedules.summary import Figure, Figures, WorkshopHeld


@dataclass(frozen=True, slots=True, kw_only=True)
class Sowing:
    """One sowing as it was planned and as it went; plan days are `None` where it had no window."""

    name: str
    plot: str
    succession: int = 1
    successions: int = 1
    planned: tuple[date, date] | None = None
    picking_planned: date | None = None
    begun: date | None = None
    first_picked: date | None = None
    lost: date | None = None

    @property
    def days_off(self) -> int | None:
        """How many days it was begun before (negative) or after its planned window; 0 within."""
        if self.begun is None or self.planned is None:
            return None
        first, last = self.planned
        return min(0, (self.begun - first).days) + max(0, (self.begun - last).days)

    def was_due(self, today: date) -> bool:
        """Whether its time to begin is over, or it was begun."""
        return self.begun is not None or (self.planned is not None and self.planned[1] < today)


@dataclass(frozen=True, slots=True)
class PlanAgainstDone:
    """Sowings whose time had come: how many were begun, begun in their window, picked from, lost to frost."""

    due: int
    begun: int
    in_time: int
    picked: int
    lost: int


def plan_against_done(sowings: Iterable[Sowing], today: date) -> PlanAgainstDone:
    due = [one for one in sowings if one.was_due(today)]
    return PlanAgainstDone(
        due=len(due),
        begun=sum(one.begun is not None for one in due),
        in_time=sum(one.days_off == 0 for one in due),
        picked=sum(one.first_picked is not None for one in due),
        lost=sum(one.lost is not None for one in due),
    )


class Change(StrEnum):
    """What a year suggests to do otherwise in the next."""

    HANG_SHEETS = "hang-sheets"
    MEASURE_HOSE = "measure-hose"
    WEIGH_BUNCHES = "weigh-bunches"
    PLAN_LESS = "plan-less"
    BEGIN_EARLIER = "begin-earlier"
    BEGIN_LATER = "begin-later"
    WAIT_OR_COVER = "wait-or-cover"
    NOTE_PICKING = "note-picking"
    OFFER_FREE_PLOTS = "offer-free-plots"
    WRITE_ATTENDANCE = "write-attendance"


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A change with the numbers it rests on; `names` are crops, the one it is most often about first."""

    change: Change
    part: int
    whole: int
    names: tuple[str, ...] = ()
    days: int = 0


_MANY = 3  # fewer than this prove nothing
_WEEK = 7


def suggestions(
    sums: Totals,
    sowings: Sequence[Sowing],
    today: date,
    *,
    share: Share | None = None,
    figures: Figures | None = None,
    workshops: Sequence[WorkshopHeld] = (),
) -> list[Suggestion]:
    """What to change next year, each where the period's own numbers give a reason for it.

    Of a whole garden, which has a `share`, one late sowing is nobody's business and proves nothing. The
    bounds (half of the plots, a third of the amounts, a week, three cases): common practice, no source.
    """
    found: list[Suggestion] = []
    if share is not None and share.whole and 2 * share.part < share.whole:
        found.append(Suggestion(Change.HANG_SHEETS, share.part, share.whole))
    if 3 * sums.unmeasured > sums.waterings and sums.unmeasured >= _MANY:
        found.append(Suggestion(Change.MEASURE_HOSE, sums.unmeasured, sums.waterings))
    if 3 * sums.unweighed > sums.pickings and sums.unweighed >= _MANY:
        found.append(Suggestion(Change.WEIGH_BUNCHES, sums.unweighed, sums.pickings))
    found += _of_plan(sowings, today, least=1 if share is None else _MANY)
    free = int((figures or {}).get(Figure.FREE) or 0)
    waiting = int((figures or {}).get(Figure.WAITING_LAST) or 0)
    if free and waiting:
        found.append(Suggestion(Change.OFFER_FREE_PLOTS, free, waiting))
    over = [one for one in workshops if one.day < today]
    if unknown := sum(one.attended is None for one in over):
        found.append(Suggestion(Change.WRITE_ATTENDANCE, unknown, len(over)))
    return found


def _of_plan(sowings: Sequence[Sowing], today: date, *, least: int) -> list[Suggestion]:
    due = [one for one in sowings if one.was_due(today)]
    never = [one for one in due if one.begun is None]
    late = [one for one in due if (one.days_off or 0) > _WEEK]
    early = [one for one in due if (one.days_off or 0) < -_WEEK]
    lost = [one for one in due if one.lost is not None]
    unpicked = [
        one
        for one in due
        if one.begun and not one.first_picked and not one.lost
        and one.picking_planned and one.picking_planned + timedelta(days=4 * _WEEK) < today
    ]  # fmt: skip
    found = []
    for change, own, needed in (
        (Change.PLAN_LESS, never, _MANY),
        (Change.BEGIN_EARLIER, late, least),
        (Change.BEGIN_LATER, early, least),
        (Change.WAIT_OR_COVER, lost, 1),
        (Change.NOTE_PICKING, unpicked, least),
    ):
        if len(own) >= needed:
            names = tuple(name for name, _times in Counter(one.name for one in own).most_common())
            days = [abs(one.days_off) for one in own if one.days_off]
            found.append(Suggestion(change, len(own), len(due), names, round(median(days)) if days else 0))
    return found
