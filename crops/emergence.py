"""How long seed takes to come up in soil of a given temperature, and on which day it does.

Between two neighbouring temperatures of a published table it is the rate (the share of the way gained in a
day, 1/days) that is interpolated in a straight line, because that is how it runs: predicted from its two
neighbours, an inner cell is missed by 10 % at the median, and by 20 % when the days themselves are
interpolated (99 cells; `tests/crops/test_emergence.py` measures it).

Outside the temperatures at which the table saw seedlings, nothing is assumed beyond the crop's own limits.
Below the coldest of them, down to the crop's minimum or a cell in which none came up, the rate falls with
the warmth left above that limit; above the warmest, up to the crop's maximum or such a cell, it stays what it
was. Cells that were not tested are passed over.

A crop without a table has its days at the middle of its optimum range, and its rate falls with the warmth
above its minimum. Tried on the crops that have a table, that rule is right at the median and misses by 20 %.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise

from crops.facts import CropFacts

GIVE_UP_DAYS = 60  # common practice, no source: seed that shows nothing for two months is sown again
USUAL_OPTIMUM_C = 25.0  # common practice, no source: near the quickest for most rows of the published table
_WHOLE = 1 - 1e-9  # seven sevenths fall short of one by the noise of floats


def days_to_emerge(facts: CropFacts, celsius: float) -> float | None:
    """Days from sowing to emergence in soil that stays at `celsius` °C; `None` where none come up or unknown.

    Source: the crop's emergence table (Harrington and Minges 1954, as printed in Knott's Handbook).

    >>> from crops.catalogue import load_catalogue
    >>> carrot = load_catalogue().crops["carrot"]
    >>> days_to_emerge(carrot, 10.0), round(days_to_emerge(carrot, 12.5), 1), days_to_emerge(carrot, 0.0)
    (17.0, 12.6, None)
    """
    if any(point.days for point in facts.emergence):
        return _from_table(facts, celsius)
    return _from_optimum(facts, celsius)


def _days_until_whole(shares: Iterable[float]) -> int | None:
    """How many of the shares of the way, each gained in a day, make up the whole of it."""
    progress = 0.0
    for count, share in enumerate(shares, start=1):
        progress += share
        if progress >= _WHOLE:
            return count
    return None


def _share_of_a_day(facts: CropFacts, celsius: float) -> float:
    days = days_to_emerge(facts, celsius)
    return 1 / days if days else 0.0


@lru_cache(maxsize=256)
def _shares_of_the_year(facts: CropFacts, soil_c: tuple[float, ...]) -> tuple[float, ...]:
    """For each day of the year; a window asks for one day of sowing after another."""
    return tuple(_share_of_a_day(facts, celsius) for celsius in soil_c)


def emergence_day(facts: CropFacts, soil_c: Sequence[float], sown: int) -> int | None:
    """The day number on which seed sown on day number `sown` comes up.

    `soil_c` holds the year's normals of soil temperature at seed depth in °C, 1 January first. Day 1 is
    1 January; numbers run on below 1 and past the year's end. `None` when nothing shows in `GIVE_UP_DAYS`.
    """
    year = len(soil_c)
    shares = _shares_of_the_year(facts, tuple(soil_c))
    days = _days_until_whole(shares[(sown - 1 + day) % year] for day in range(GIVE_UP_DAYS))
    return None if days is None else sown + days


def _from_table(facts: CropFacts, celsius: float) -> float | None:
    up = [(point.celsius, point.days) for point in facts.emergence if point.days]
    (coldest, days_coldest), (warmest, days_warmest) = up[0], up[-1]
    if celsius < coldest:
        limit = _limit_below(facts, coldest)
        return _slowed(days_coldest, celsius, coldest, limit) if limit is not None else None
    if celsius > warmest:
        return days_warmest if _within_top(facts, celsius, warmest) else None
    for (low, days_low), (high, days_high) in pairwise(up):
        if low < celsius < high:
            share = (celsius - low) / (high - low)
            return 1 / ((1 - share) / days_low + share / days_high)
    return dict(up)[celsius]


def _limit_below(facts: CropFacts, coldest: float) -> float | None:
    """The temperature at which nothing comes up any more, if one is known below the coldest success."""
    none_up = [point.celsius for point in facts.emergence if point.days is None and point.celsius < coldest]
    if facts.soil_min_c is None:
        return None
    return max([facts.soil_min_c, *none_up])


def _within_top(facts: CropFacts, celsius: float, warmest: float) -> bool:
    none_up = [point.celsius for point in facts.emergence if point.days is None and point.celsius > warmest]
    if facts.soil_max_c is None or celsius > facts.soil_max_c:
        return False
    return not none_up or celsius < none_up[0]


def _from_optimum(facts: CropFacts, celsius: float) -> float | None:
    if facts.emergence_days_optimum is None or facts.soil_min_c is None:
        return None
    if facts.soil_max_c is not None and celsius > facts.soil_max_c:
        return None
    low, high = facts.soil_optimum_low_c, facts.soil_optimum_high_c
    optimum = USUAL_OPTIMUM_C if low is None or high is None else (low + high) / 2
    if celsius >= optimum:
        return facts.emergence_days_optimum
    return _slowed(facts.emergence_days_optimum, celsius, optimum, facts.soil_min_c)


def _slowed(days: float, celsius: float, reference: float, limit: float) -> float | None:
    """`days` at `reference` °C stretched by the share of warmth above `limit` that is left at `celsius`."""
    return days * (reference - limit) / (celsius - limit) if celsius > limit else None
