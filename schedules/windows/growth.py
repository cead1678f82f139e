"""What a planting needs between its first day and its harvest: temperatures it stands, days it takes."""

from __future__ import annotations

from collections.abc import Sequence

from crops.emergence import emergence_day
from crops.facts import CountedFrom, CropFacts, Hardiness, Method
from schedules.windows.types import Start

YOUNG_PLANT_DIES_AT_C = {
    Hardiness.VERY_TENDER: 0.0,
    Hardiness.TENDER: 0.0,
    Hardiness.HALF_HARDY: -2.2,
    Hardiness.HARDY: -4.4,
}
# Days to emerge on seed packets are about twice those of the laboratory at the optimum (common practice).
FIELD_EMERGENCE_FACTOR = 2
# Common practice, no source: the first true leaves open about ten days after the seed leaves.
TRUE_LEAVES_DAYS = 10
THINNING_DAYS = 10
_THINNED_ABOVE = 2 - 1e-9  # times the distance when sown; a foot and two feet in metres are hardly twice
HARDEN_OFF_DAYS = (7, 10)
# A seedling set out has at least this share of its growing still to do, however long it stood under cover.
LEAST_SHARE_AFTER_TRANSPLANTING = 0.5


def starts(facts: CropFacts) -> tuple[Start, ...]:
    """The ways a crop is started; what is set in the ground (tubers, sets, crowns, slips) counts as sown."""
    match facts.method:
        case Method.DIRECT | Method.VEGETATIVE:
            return (Start.SOW,)
        case Method.TRANSPLANT:
            return (Start.TRANSPLANT,)
        case Method.EITHER:
            return (Start.SOW, Start.TRANSPLANT)


def spring_weeks(facts: CropFacts, start: Start) -> tuple[float, float] | None:
    """Published weeks from the mean last frost, early and late; `None` where none are published."""
    sown = (facts.sow_weeks_early, facts.sow_weeks_late)
    transplanted = (facts.transplant_weeks_early, facts.transplant_weeks_late)
    order = [transplanted, sown] if start is Start.TRANSPLANT else [sown]
    if facts.method is Method.VEGETATIVE:
        order = [sown, transplanted]
    for early, late in order:
        if early is not None and late is not None:
            return early, late
    return None


def dies_at(facts: CropFacts) -> float:
    """Air temperature (°C) that ends the harvest of the grown plant, never read above freezing."""
    kill = YOUNG_PLANT_DIES_AT_C[facts.hardiness] if facts.kill_c is None else facts.kill_c
    return min(kill, 0.0)


def indoor_days(facts: CropFacts) -> tuple[int, int, int]:
    """Days under cover before transplanting: fewest, middle, most."""
    low = facts.indoor_weeks_low or 0.0
    high = facts.indoor_weeks_high or low
    return round(7 * low), round(7 * (low + high) / 2), round(7 * high)


def maturity_days(facts: CropFacts, start: Start) -> tuple[int, int, int] | None:
    """Days from sowing (or transplanting) to the first harvest: quick, middling and slow varieties.

    A source that counts from the other end is corrected by the weeks under cover.
    """
    if facts.maturity_days_low is None or facts.maturity_days_high is None:
        return None
    low, high = facts.maturity_days_low, facts.maturity_days_high
    under_cover, _, longest = indoor_days(facts)
    if facts.method is not Method.VEGETATIVE:
        if start is Start.TRANSPLANT and facts.maturity_from is CountedFrom.SOW:
            low, high = (
                max(days - under_cover, round(days * LEAST_SHARE_AFTER_TRANSPLANTING)) for days in (low, high)
            )
        elif start is Start.SOW and facts.maturity_from is CountedFrom.TRANSPLANT:
            low, high = low + under_cover, high + longest
    return low, round((low + high) / 2), high


def emergence(facts: CropFacts, soil_c: Sequence[float] | None, sown: int) -> int | None:
    """The day number on which seedlings show, by soil temperature or, without it, by the seed packet."""
    if facts.method is Method.VEGETATIVE:
        return None
    if soil_c is not None:
        return emergence_day(facts, soil_c, sown)
    if facts.emergence_days_optimum is None:
        return None
    return sown + round(FIELD_EMERGENCE_FACTOR * facts.emergence_days_optimum)


def exposed_from(facts: CropFacts, soil_c: Sequence[float] | None, sown: int) -> int | None:
    """The day number from which frost reaches what is sown or set; `None` where that is not known.

    Seed from when it shows; shoots of tubers from the fewest days that they take in any soil, for in colder
    ground they only stay hidden for longer.
    """
    if facts.method is not Method.VEGETATIVE:
        return emergence(facts, soil_c, sown)
    days = facts.emergence_days_optimum
    return None if days is None else sown + round(days)


def needs_thinning(facts: CropFacts) -> bool:
    """Whether seedlings have to go, so that those that stay stand as far apart as they should.

    Taking out every second one doubles the distance at least. Peas and beans, whose sources give 3 and 4
    inches, say, are sown where they stay: nothing can be taken out without leaving them too far apart.
    """
    if facts.method is Method.VEGETATIVE:
        return False
    sown, final = facts.seedling_spacing_m, facts.spacing_m
    return sown is not None and final is not None and final > _THINNED_ABOVE * sown
