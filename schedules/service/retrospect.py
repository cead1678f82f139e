"""The real freezes of a garden's years, beside what its curve expected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from plots.models import Garden
from schedules.climate import Climate
from schedules.frost import adjusted, season_bounds
from schedules.models import BasisChoice, GardenClimate
from schedules.retrospect import Minimum, Placed, RealFreeze, is_settled, placed, real_freeze, unread_nights
from schedules.seasons import Hemisphere, Side
from schedules.service.climate import station_days

DAMAGING_C = (0.0, -2.2, -4.4)


@dataclass(frozen=True)
class Ending:
    """One side of a year: its real freeze at a temperature, if one is known, and its place on the curve.

    `unread` nights may hide a later one (last) or an earlier one (first).
    """

    year: int
    side: Side
    celsius: float
    freeze: RealFreeze | None
    placed: Placed | None
    settled: bool
    unread: int = 0


def endings(garden: Garden, chosen: GardenClimate, climate: Climate, year: int) -> list[Ending]:
    """The last and first freezes of a year, at each temperature that the climate knows."""
    minimums = known_minimums(garden, chosen, climate.hemisphere, year)
    found = []
    for side in Side:
        for celsius in DAMAGING_C:
            curve = climate.risk(side, celsius)
            if curve is None:
                continue
            freeze = real_freeze(minimums, side, year, climate.hemisphere, celsius=celsius)
            place = None if freeze is None else placed(curve, freeze.day, year)
            settled = side is Side.FIRST or is_settled(curve, year, garden.today())
            unread = 0 if freeze is None else unread_nights(curve, minimums, freeze, year)
            found.append(Ending(year, side, celsius, freeze, place, settled, unread))
    return found


def known_minimums(
    garden: Garden, chosen: GardenClimate, hemisphere: Hemisphere, year: int
) -> dict[date, Minimum]:
    """The nights about a year: the station's, moved by the garden's offset; the garden's own beat them."""
    begins = year - 1 if hemisphere is Hemisphere.NORTH else year
    start, end = season_bounds(begins, hemisphere)[0], season_bounds(year, hemisphere)[1]
    found: dict[date, Minimum] = {}
    if chosen.basis == BasisChoice.RECORD:
        for day, row in station_days(garden, chosen).items():
            if start <= day <= end and row.tmin_c is not None:
                found[day] = Minimum(adjusted(row.tmin_c, chosen.offset_c), in_garden=False)
    own = garden.readings.filter(day__range=(start, end), tmin_c__isnull=False)
    for day, celsius in own.values_list("day", "tmin_c"):
        found[day] = Minimum(celsius, in_garden=True)
    return found


def years_known(garden: Garden, chosen: GardenClimate) -> Sequence[int]:
    """The years of which the garden has nights of its own or its station's, the latest first."""
    spans = list(garden.readings.order_by("day").values_list("day", flat=True))
    years = {day.year for day in spans}
    if chosen.basis == BasisChoice.RECORD and chosen.record is not None:
        years |= set(range(chosen.record.first_day.year, chosen.record.last_day.year + 1))
    return sorted(years, reverse=True)
