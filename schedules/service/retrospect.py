"""The real freezes of a garden's years, beside what its curve expected."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from plots.models import Garden
from schedules.climate import Climate, RiskCurve
from schedules.frost import MISSING_DAYS_TO_LEAVE_OUT, THRESHOLDS_C, adjusted, season_bounds
from schedules.models import BasisChoice, GardenClimate
from schedules.retrospect import (
    Minimum,
    Placed,
    RealFreeze,
    is_settled,
    nights_unread,
    placed,
    real_freeze,
)
from schedules.seasons import Hemisphere, Side
from schedules.service.climate import station_days
from schedules.service.offset import learned_offset


@dataclass(frozen=True)
class Ending:
    """One side of a year: its real freeze at a temperature, if one is known, and its place on the curve.

    So many nights are `unread` that it is not placed, if any.
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
        for celsius in THRESHOLDS_C:
            curve = climate.risk(side, celsius)
            if curve is None:
                continue
            freeze = real_freeze(minimums, side, year, climate.hemisphere, celsius=celsius)
            found.append(_ending(curve, freeze, minimums, year, climate.hemisphere, garden.today()))
    return found


def _ending(
    curve: RiskCurve,
    freeze: RealFreeze | None,
    nights: Collection[date],
    year: int,
    hemisphere: Hemisphere,
    today: date,
) -> Ending:
    side, celsius = curve.side, curve.celsius
    settled = side is Side.FIRST or is_settled(curve, year, today)
    if freeze is None:
        return Ending(year, side, celsius, None, None, settled)
    unread = nights_unread(nights, freeze, curve, year, hemisphere=hemisphere, today=today)
    if unread >= MISSING_DAYS_TO_LEAVE_OUT:
        return Ending(year, side, celsius, freeze, None, settled, unread)
    return Ending(year, side, celsius, freeze, placed(curve, freeze.day, year), settled)


def known_minimums(
    garden: Garden, chosen: GardenClimate, hemisphere: Hemisphere, year: int
) -> dict[date, Minimum]:
    """The nights about a year: the station's, moved by the garden's offset; the garden's own beat them.

    Readings that cannot be right, as the station shows, are left out.
    """
    begins = year - 1 if hemisphere is Hemisphere.NORTH else year
    start, end = season_bounds(begins, hemisphere)[0], season_bounds(year, hemisphere)[1]
    found: dict[date, Minimum] = {}
    if chosen.basis == BasisChoice.RECORD:
        for day, row in station_days(garden, chosen).items():
            if start <= day <= end and row.tmin_c is not None:
                found[day] = Minimum(adjusted(row.tmin_c, chosen.offset_c), in_garden=False)
    learned = learned_offset(garden, chosen)
    wrong = [] if learned is None else [night.day for night in learned.flawed]
    own = garden.readings.filter(day__range=(start, end), tmin_c__isnull=False).exclude(day__in=wrong)
    for day, celsius in own.values_list("day", "tmin_c"):
        found[day] = Minimum(celsius, in_garden=True)
    return found


def years_known(garden: Garden, chosen: GardenClimate) -> Sequence[int]:
    """The years of which the garden has nights of its own or its station's, the latest first."""
    years = {day.year for day in garden.readings.filter(tmin_c__isnull=False).dates("day", "year")}
    if chosen.basis == BasisChoice.RECORD and chosen.record is not None:
        years |= set(range(chosen.record.first_day.year, chosen.record.last_day.year + 1))
    return sorted(years, reverse=True)
