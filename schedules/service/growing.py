"""What grows at which plot on a day, by plans and logs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from plots.models import Garden, Plot
from schedules.entries import BEGINNINGS
from schedules.service.calendar import GardenDates, PlantingDates, dated_plantings, years_around
from schedules.standing import Standing, standing_on

_AHEAD = timedelta(days=270)  # what is planned for a later season is no news to who walks past now


@dataclass(frozen=True, slots=True)
class Grown:
    """A planting that stands, or that is still to be begun from the day `begins`, where that is known."""

    dated: PlantingDates
    standing: Standing | None
    begins: date | None = None


def growing_at(garden: Garden, plots: Sequence[Plot], day: date) -> list[tuple[Plot, list[Grown]]]:
    """Plot by plot in the given order, what stands first, then what is begun in the nine months to come."""
    dated = dated_plantings(garden, plots, years_around(day), GardenDates.of(garden))
    found: dict[int, list[Grown]] = {plot.pk: [] for plot in plots}
    for one in dated:
        row = _grown(one, day)
        if row is not None:
            found[one.planting.plot_id].append(row)
    return [(plot, sorted(found[plot.pk], key=_order)) for plot in plots]


def _grown(dated: PlantingDates, day: date) -> Grown | None:
    told = dated.told
    stands = standing_on(day, told.start, told.happened, dated.windows, told.plot_cleared)
    if stands is not None:
        return Grown(dated, stands)
    ahead = [
        entry.earliest
        for entry in dated.entries
        if entry.operation in BEGINNINGS and entry.done is None and entry.latest >= day
    ]
    if ahead and min(ahead) <= day + _AHEAD:
        return Grown(dated, None, min(ahead))
    return None


def _order(row: Grown) -> tuple[bool, date, str]:
    since = row.standing.since if row.standing else row.begins or date.max
    return row.standing is None, since, row.dated.name
