"""The water that roots can reach, day by day (FAO-56, chapters 6 and 8, single crop coefficient)."""

from __future__ import annotations

from dataclasses import dataclass

LEAST_SHARE, MOST_SHARE = 0.1, 0.8
_RAIN_THAT_COUNTS = 0.2  # of the day's reference: less only wets leaves and dries off (FAO-56, chapter 8)


@dataclass(frozen=True, slots=True)
class Day:
    """One day's end. All in millimetres: `used` is what the crop took, `drained` what ran through below."""

    need: float
    ready: float
    stress: float  # 1 as long as the crop finds all it needs, less when it does not
    used: float
    rain_counted: float
    drained: float
    depletion: float


def share_ready(table_share: float, need_mm: float) -> float:
    """The share of the ground's water that a crop takes without effort, on a day of this need.

    Footnote of FAO-56, Table 22: the table holds for 5 mm a day.

    >>> share_ready(0.4, 8)
    0.28
    """
    return round(min(MOST_SHARE, max(LEAST_SHARE, table_share + 0.04 * (5 - need_mm))), 9)


def counted_rain(rain_mm: float, reference_mm: float) -> float:
    """What of a day's rain reaches roots: all, or nothing if it is under a fifth of the day's reference.

    >>> counted_rain(0.9, 5.0), counted_rain(1.0, 5.0)
    (0.0, 1.0)
    """
    return 0.0 if rain_mm < _RAIN_THAT_COUNTS * reference_mm else rain_mm


def stress_at(depletion: float, *, total: float, ready: float) -> float:
    """How much of its need a crop still finds (Ks, equation 84), by the depletion at the day's start."""
    if depletion <= ready:
        return 1.0
    return max(0.0, (total - depletion) / (total - ready))


def next_day(
    depletion: float, *, reference: float, kc: float, total: float, share: float, rain: float, water: float
) -> Day:
    """The balance at a day's end from the one of the evening before, all in millimetres.

    `total` is the water that the root zone holds between full and wilting, `share` the table's share of it
    that is easily had. Water below the roots is lost to them; they never miss more than there is.
    """
    need = kc * reference
    ready = share_ready(share, need) * total
    stress = stress_at(depletion, total=total, ready=ready)
    used = stress * need
    counted = counted_rain(rain, reference)
    left = depletion - counted - water + used
    return Day(
        need=need,
        ready=ready,
        stress=stress,
        used=used,
        rain_counted=counted,
        drained=max(0.0, -left),
        depletion=min(total, max(0.0, left)),
    )
