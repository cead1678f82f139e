"""Judging a record as a whole: can its values be what the file declares, and which stretches were filled
in?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import timedelta
from itertools import groupby, pairwise

from schedules.days import DayWeather
from schedules.stations.findings import Fault, Findings, RefusedFileError, Run

_SUMMER_DAYS_TO_JUDGE = 20
_WARMEST_DAY_AT_LEAST_C = 15
_WARMEST_NIGHT_AT_LEAST_C = 2
_WARMEST_NIGHT_OF_TENTHS_C = 9  # whole °F read as tenths run from about -4 to 9
_COLDEST_NIGHT_OF_TENTHS_C = -6
_SHARE_IMPOSSIBLE = 1 / 1000
_RUN_OF_BOTH = 4
_RUN_OF_MINIMUM = 7
_ONE_DAY = timedelta(days=1)


def refuse_unless_credible(
    days: Sequence[DayWeather], lines: Sequence[int], findings: Findings, *, south: bool | None
) -> None:
    """Raise `RefusedFileError` when values, dates or columns cannot be what the file declares.

    `lines` holds the line on which each day stands. `south` is `None` when the hemisphere is not known.
    """
    bad = findings.unused_count
    impossible = findings.counts[Fault.IMPOSSIBLE_VALUE]
    if impossible > len(days) * _SHARE_IMPOSSIBLE:
        first = next(found for found in findings.unused if found.fault is Fault.IMPOSSIBLE_VALUE)
        raise RefusedFileError(Fault.IMPOSSIBLE_VALUES, first.line, count=impossible, because=first)
    if not any(day.tmin_c is not None for day in days):
        because = findings.unused[0] if findings.unused else None
        raise RefusedFileError(Fault.NO_MINIMUMS, because.line if because else None, because=because)
    if bad * 2 > len(days):
        first = findings.unused[0]
        raise RefusedFileError(Fault.MOSTLY_UNREADABLE, first.line, count=bad, because=first)
    both = sum(day.tmin_c is not None and day.tmax_c is not None for day in days)
    swapped = findings.doubtful_count
    if swapped * 2 > both:
        raise RefusedFileError(Fault.COLUMNS_SWAPPED, findings.doubtful[0].line, count=swapped, days=both)
    _refuse_if_never_warm(days, lines, south)


def _refuse_if_never_warm(days: Sequence[DayWeather], lines: Sequence[int], south: bool | None) -> None:
    """No garden lies where the warmest day of a summer stays under 15 °C.

    Whole °F or °C under GHCN-Daily's names (which promise tenths), and °C declared as °F, both come out
    like that.
    """
    summers = (1, 7) if south is None else (1,) if south else (7,)
    months = Counter[tuple[bool, int]]()
    for day in days:
        months[True, day.day.month] += day.tmax_c is not None
        months[False, day.day.month] += day.tmin_c is not None
    for maximum, read in ((True, _tmax), (False, _tmin)):
        if min(months[maximum, summer] for summer in summers) < _SUMMER_DAYS_TO_JUDGE:
            continue
        known = [
            (value, line) for day, line in zip(days, lines, strict=True) if (value := read(day)) is not None
        ]
        (warmest, line), (coldest, _) = max(known), min(known)
        if maximum:
            refused = warmest < _WARMEST_DAY_AT_LEAST_C
        else:
            refused = warmest < _WARMEST_NIGHT_AT_LEAST_C or (
                warmest < _WARMEST_NIGHT_OF_TENTHS_C and coldest > _COLDEST_NIGHT_OF_TENTHS_C
            )
        if refused:
            raise RefusedFileError(Fault.NEVER_WARM, line, celsius=warmest, maximum=maximum)


def _tmin(day: DayWeather) -> float | None:
    return day.tmin_c


def _tmax(day: DayWeather) -> float | None:
    return day.tmax_c


def filler_runs(days: Iterable[DayWeather]) -> tuple[Run, ...]:
    """Stretches of consecutive days with the same minimum: seven or more, or four with the same maximum too.

    Thresholds are common practice, no source; in 37 years at Champion, Nebraska, only real filler meets them.
    """
    runs = []
    for stretch in _consecutive(day for day in days if day.tmin_c is not None):
        for minimum, same_minimum in groupby(stretch, key=_tmin):
            alike = list(same_minimum)
            twins = [alike]
            if len(alike) < _RUN_OF_MINIMUM:
                by_maximum = [(maximum, list(both)) for maximum, both in groupby(alike, key=_tmax)]
                twins = [both for maximum, both in by_maximum if maximum is not None]
                twins = [both for both in twins if len(both) >= _RUN_OF_BOTH]
            runs += [Run(run[0].day, run[-1].day, minimum or 0.0, len(run)) for run in twins]
    return tuple(runs)


def _consecutive(days: Iterable[DayWeather]) -> Iterable[list[DayWeather]]:
    """Days cut into stretches without a gap."""
    ordered = list(days)
    if not ordered:
        return
    stretch = [ordered[0]]
    for before, day in pairwise(ordered):
        if day.day - before.day != _ONE_DAY:
            yield stretch
            stretch = []
        stretch.append(day)
    yield stretch
