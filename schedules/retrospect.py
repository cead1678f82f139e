"""A season in retrospect: the year's real freezes placed on the curve of the years before."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from schedules.climate import RiskCurve
from schedules.frost import RecordCurve, season_bounds, season_of
from schedules.seasons import Hemisphere, Side, day_number

_KNOWN_TO_COME = 0.01


@dataclass(frozen=True, slots=True)
class Minimum:
    """A night's minimum in °C; `in_garden` when the garden's own thermometer read it."""

    celsius: float
    in_garden: bool


@dataclass(frozen=True, slots=True)
class RealFreeze:
    """The last freeze of a year's spring, or the first of its autumn, as far as the nights are known."""

    side: Side
    day: date
    minimum: Minimum
    nights: int  # known of its season


@dataclass(frozen=True, slots=True)
class Placed:
    """How a date lies among the years: in which share (0 to 1) the freeze came earlier, and later.

    With a record, `earlier` and `later` are also counted in `years` others; the rest froze on the same day.
    A season without a freeze counts as one whose last came earlier, or whose first came later.
    """

    day: date
    side: Side
    earlier_share: float
    later_share: float
    earlier: int | None = None
    later: int | None = None
    years: int | None = None

    @property
    def is_late(self) -> bool:
        """Whether it came later than in most years."""
        return self.earlier_share >= self.later_share


def real_freeze(
    minimums: Mapping[date, Minimum], side: Side, year: int, hemisphere: Hemisphere, *, celsius: float = 0.0
) -> RealFreeze | None:
    """The freeze at or below `celsius` that ended a year's spring (last) or its growing season (first)."""
    begins = year - 1 if side is Side.LAST and hemisphere is Hemisphere.NORTH else year
    start, end = season_bounds(begins, hemisphere)
    nights = [day for day in minimums if start <= day <= end]
    frozen = [day for day in nights if minimums[day].celsius <= celsius]
    if not frozen:
        return None
    day = max(frozen) if side is Side.LAST else min(frozen)
    return RealFreeze(side, day, minimums[day], len(nights))


def nights_unread(
    read: Collection[date],
    freeze: RealFreeze,
    curve: RiskCurve,
    year: int,
    *,
    hemisphere: Hemisphere,
    today: date,
) -> int:
    """How many nights nobody read on which a later last freeze, or an earlier first one, has been known.

    From `frost.MISSING_DAYS_TO_LEAVE_OUT` on nobody can say that this freeze was the last, or the first.
    """
    start, end = season_bounds(season_of(freeze.day, hemisphere), hemisphere)
    step = timedelta(days=1 if freeze.side is Side.LAST else -1)
    unread, night = 0, freeze.day + step
    while start <= night <= min(end, today) and curve.chance(day_number(night, year)) >= _KNOWN_TO_COME:
        unread += night not in read
        night += step
    return unread


def placed(curve: RiskCurve, day: date, year: int) -> Placed | None:
    """Where a freeze of a label year lies on a curve; that year itself is left out of the count.

    `None` where a record has no other year.
    """
    number = day_number(day, year)
    if isinstance(curve, RecordCurve):
        return _counted(curve, day, number, year)
    share = curve.chance(number)  # on or after it (last), on or before it (first)
    rest = 1 - share
    earlier, later = (rest, share) if curve.side is Side.LAST else (share, rest)
    return Placed(day, curve.side, earlier, later)


def is_settled(curve: RiskCurve, year: int, today: date) -> bool:
    """Whether no later freeze is to be feared in that spring: none came so late in the years known."""
    return curve.chance(day_number(today, year)) < _KNOWN_TO_COME


def _counted(curve: RecordCurve, day: date, number: int, year: int) -> Placed | None:
    others = [day_number(other, label) for label, other in curve.dates.items() if label != year]
    never = sum(label != year for label in curve.free)
    years = len(others) + never
    if not years:
        return None
    earlier = sum(other < number for other in others) + (never if curve.side is Side.LAST else 0)
    later = sum(other > number for other in others) + (never if curve.side is Side.FIRST else 0)
    return Placed(day, curve.side, earlier / years, later / years, earlier, later, years)
