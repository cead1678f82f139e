"""From when to when a planting stands in the ground, by its windows and by what logs tell of it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from schedules.entries import BEGINNINGS
from schedules.windows import Operation, Start, Window
from schedules.windows.happened import IN_THE_GROUND, Happened


@dataclass(frozen=True, slots=True)
class Standing:
    """Since when something grows, and until when it is picked, where that is known."""

    since: date
    until: date | None


def standing_on(
    day: date,
    start: Start,
    happened: Mapping[int, Happened],
    windows: Iterable[Window] = (),
    plot_cleared: Collection[date] = (),
) -> Standing | None:
    """What stands of a planting's sowings on `day`, taken together; `None` where nothing does."""
    found = sowings_on(day, start, happened, windows, plot_cleared).values()
    if not found:
        return None
    ends = [one.until for one in found]
    return Standing(
        min(one.since for one in found),
        None if None in ends else max(end for end in ends if end),
    )


def sowings_on(
    day: date,
    start: Start,
    happened: Mapping[int, Happened],
    windows: Iterable[Window] = (),
    plot_cleared: Collection[date] = (),
) -> dict[int, Standing]:
    """The sowings of a planting that stand in the ground on `day`, by their number.

    Where no log tells when a sowing began, it counts from its best day on; from its last, where the plot was
    cleared in between and it was not there.
    """
    plans: dict[int, dict[Operation, Window]] = {}
    for window in windows:
        plans.setdefault(window.succession, {})[window.operation] = window
    return {
        number: one
        for number in sorted({*plans, *happened})
        if (one := _sowing(start, happened.get(number, Happened()), plans.get(number, {}), plot_cleared))
        and one.since <= day
        and (one.until is None or one.until >= day)
    }


def _sowing(
    start: Start, told: Happened, plan: Mapping[Operation, Window], plot_cleared: Collection[date]
) -> Standing | None:
    """One sowing, unless it was lost or cleared, or nobody can say when it began."""
    if told.ended is not None:
        return None
    since = min((told.days[stage].day for stage in IN_THE_GROUND[start] if stage in told.days), default=None)
    if since is None:
        since = _planned(plan, plot_cleared)
    if since is None:
        return None
    harvest = plan.get(Operation.HARVEST)
    return Standing(since, None if harvest is None else harvest.latest)


def _planned(plan: Mapping[Operation, Window], plot_cleared: Collection[date]) -> date | None:
    begins = next((plan[operation] for operation in BEGINNINGS if operation in plan), None)
    if begins is None or begins.best is None:
        return None
    return begins.latest if any(day >= begins.best for day in plot_cleared) else begins.best
