"""What a page tells of a garden's frost risk: dates by chance, one asked date, the curves, the years."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from schedules.climate import Climate, RiskCurve
from schedules.frost import THRESHOLDS_C, Freeze, FrostRecord, RecordCurve
from schedules.reports.season import FrostCurve, FrostPoint, dot_heights
from schedules.seasons import DAYS_IN_YEAR, Hemisphere, Side, day_number, from_day_number

PERCENTS = tuple(range(10, 100, 10))
CHART_YEAR = 2001
"""The label year that dates without a year are shown in; it has no 29 February."""

_TAIL_PERCENT = 0.5


@dataclass(frozen=True, slots=True)
class ChanceRow:
    """For one chance, the date at each temperature, in their order; `None` where freezes are too rare."""

    percent: int
    dates: tuple[date | None, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """How often a freeze comes on or after (last), or on or before (first), one day.

    `count` and `used` are plain counts of a record; without a record only `share` (0 to 1) is known.
    """

    side: Side
    celsius: float
    day: date
    share: float
    count: int | None = None
    used: int | None = None

    @property
    def percent(self) -> int:
        """The share in whole percent."""
        return round(100 * self.share)


@dataclass(frozen=True, slots=True)
class YearRow:
    """One label year with its last and first freeze at each temperature."""

    year: int
    freezes: tuple[tuple[Freeze | None, Freeze | None], ...]


def known_thresholds(climate: Climate) -> tuple[float, ...]:
    """Which of the three temperatures the climate knows anything about."""
    return tuple(celsius for celsius in THRESHOLDS_C if any(climate.risk(side, celsius) for side in Side))


def chance_rows(climate: Climate, side: Side, thresholds: Sequence[float]) -> list[ChanceRow]:
    """The dates of one side by chance, ten to ninety percent; none where nothing is known of that side."""
    curves = [climate.risk(side, celsius) for celsius in thresholds]
    if not any(curves):
        return []
    return [ChanceRow(percent, tuple(_date_at(curve, percent) for curve in curves)) for percent in PERCENTS]


def ask(climate: Climate, celsius: float, day: date) -> Asked | None:
    """What the climate knows about `day` at this temperature, on the side of the season that lies nearer.

    `None` when it knows neither side.
    """
    known = [curve for side in Side if (curve := climate.risk(side, celsius)) is not None]
    if not known:
        return None
    half = climate.hemisphere
    curve = min(known, key=lambda one: abs(_near(one, day, half) - _middle(one, half)))
    number = _near(curve, day, half)
    share = curve.chance(number)
    if isinstance(curve, RecordCurve):
        return Asked(curve.side, celsius, day, share, curve.count(number), curve.used)
    return Asked(curve.side, celsius, day, share)


def drawn_curves(climate: Climate, side: Side, names: Iterable[tuple[float, str]]) -> tuple[FrostCurve, ...]:
    """The curves of one side as a chart takes them; `names` are pairs of temperature in °C and its name."""
    curves = [(name, climate.risk(side, celsius)) for celsius, name in names]
    return tuple(_drawn(name, curve) for name, curve in curves if curve is not None and _has_dates(curve))


def year_rows(record: FrostRecord, thresholds: Sequence[float]) -> list[YearRow]:
    """Every label year of the record, the latest first."""
    tables = [{year.year: year for year in record.years(celsius)} for celsius in thresholds]
    labels = sorted({year for table in tables for year in table}, reverse=True)
    return [
        YearRow(label, tuple((table[label].last, table[label].first) for table in tables)) for label in labels
    ]


def asked_in_chart(asked: Asked, climate: Climate) -> date:
    """The asked day in the year that the charts are drawn for."""
    curve = climate.risk(asked.side, asked.celsius)
    if curve is None:
        return asked.day.replace(year=CHART_YEAR)
    return from_day_number(_near(curve, asked.day, climate.hemisphere), CHART_YEAR)


def _date_at(curve: RiskCurve | None, percent: float) -> date | None:
    number = None if curve is None else curve.day(percent)
    return None if number is None else from_day_number(number, CHART_YEAR)


def _middle(curve: RiskCurve, hemisphere: Hemisphere) -> int:
    """The day number about which the curve lies; for want of one, the middle of that half of the year."""
    if isinstance(curve, RecordCurve) and curve.frozen:
        days = sorted(day_number(day, year) for year, day in curve.dates.items())
        return days[len(days) // 2]
    middle = curve.day(50) if not isinstance(curve, RecordCurve) else None
    if middle is not None:
        return middle
    spring = 105 if hemisphere is Hemisphere.NORTH else 288
    autumn = 288 if hemisphere is Hemisphere.NORTH else 105
    return spring if curve.side is Side.LAST else autumn


def _near(curve: RiskCurve, day: date, hemisphere: Hemisphere) -> int:
    """The day number of a month and day, in whichever year brings it nearest to the middle of the curve."""
    within_year = day_number(day, day.year)
    middle = _middle(curve, hemisphere)
    choices = (within_year - DAYS_IN_YEAR, within_year, within_year + DAYS_IN_YEAR)
    return min(choices, key=lambda number: abs(number - middle))


def _has_dates(curve: RiskCurve) -> bool:
    return not isinstance(curve, RecordCurve) or curve.frozen > 0


def _drawn(name: str, curve: RiskCurve) -> FrostCurve:
    """A record's curve runs through its years' dots, for that is how its quantiles are defined."""
    if not isinstance(curve, RecordCurve):
        return FrostCurve(name, _sampled(curve))
    falling = curve.side is Side.LAST
    days = [day_number(day, year) for year, day in curve.dates.items()]
    years = tuple(from_day_number(day, CHART_YEAR) for day in days)
    dots = FrostCurve(name, (), years, curve.used)
    points = sorted(
        dot_heights(dots, falling=falling), key=lambda p: (p.day, -p.chance if falling else p.chance)
    )
    return replace(dots, points=tuple(points))


def _sampled(curve: RiskCurve) -> tuple[FrostPoint, ...]:
    ends = [curve.day(_TAIL_PERCENT), curve.day(100 - _TAIL_PERCENT)]
    numbers = [number for number in ends if number is not None]
    if not numbers:
        return ()
    span = range(min(numbers), max(numbers) + 1)
    return tuple(FrostPoint(from_day_number(number, CHART_YEAR), curve.chance(number)) for number in span)
