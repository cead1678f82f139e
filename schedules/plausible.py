"""What cannot have happened as it was told: refused with the reason, never silently changed.

The limits are wide, common practice without a source: they catch a slipped comma, not a good harvest.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from crops.facts import MOST_SUCCESSIONS
from schedules.amounts import HARVEST_UNITS, WATER_UNITS, Unit
from schedules.work import OF_A_PLANTING, Work

OLDEST_DAYS = 3660  # older than that, the year is a slip
DEEPEST_MM = 250.0  # one watering: no soil takes up more
MOST_WATER_LITRES = 20_000.0  # one watering of a plot whose size nobody wrote down
MOST_GRAMS_PER_M2 = 25_000.0  # one picking
LEAST_LIMIT_GRAMS, MOST_GRAMS = 100_000.0, 1_000_000.0  # whatever the size of the plot
MOST_PIECES = 20_000
DAY_MINUTES = 1440
_CARRIED = (Unit.CANS, Unit.LITRES, Unit.GALLONS)
# Feed and mulch are told as people have them: by the can, by the kilogram, by the piece.
UNITS: Mapping[str, frozenset[str]] = {
    Work.WATER: frozenset(WATER_UNITS),
    Work.PICK: frozenset(HARVEST_UNITS),
    Work.FEED: frozenset({*_CARRIED, Unit.KILOGRAMS, Unit.GRAMS, Unit.POUNDS, Unit.OUNCES}),
    Work.MULCH: frozenset({*_CARRIED, Unit.MILLIMETRES, Unit.INCHES, Unit.KILOGRAMS, Unit.POUNDS}),
    **dict.fromkeys(
        (Work.START_INDOORS, Work.SOW, Work.CAME_UP, Work.TRANSPLANT, Work.THIN),
        frozenset({Unit.PIECES, Unit.GRAMS, Unit.OUNCES}),
    ),
}
AFTER_CLEARING = frozenset({Work.NOTE, Work.HOURS})


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One log as somebody tells it, with its amount worked out."""

    work: str
    day: date
    succession: int | None = None
    amount: float | None = None
    unit: str = ""
    litres: float | None = None
    grams: float | None = None
    pieces: int | None = None
    minutes: int | None = None
    given_away: bool = False
    given_to: str = ""
    names_a_crop: bool = False


@dataclass(frozen=True, slots=True)
class Done:
    """Work that is known of the same planting already."""

    work: str
    day: date
    succession: int | None = None


@dataclass(frozen=True, slots=True)
class Days:
    """From day to day, both counted; without a last day until further notice."""

    first: date
    last: date | None = None

    def __contains__(self, day: date) -> bool:
        return self.first <= day and (self.last is None or day <= self.last)


@dataclass(frozen=True, slots=True)
class Sown:
    """The planting that a log is about, and what is known of it."""

    year: int
    successions: int
    done: Sequence[Done] = ()
    perennial: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What is known of the plot; `days` are those of which the person may tell, `None` for all of them.

    `plantings` are asked for where the whole plot was cleared: what is known of each of them.
    """

    today: date
    area_m2: float | None = None
    given_up_on: date | None = None
    days: Sequence[Days] | None = None
    planting: Sown | None = None
    plantings: Sequence[Sequence[Done]] = ()


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a log is refused: the field `where` it stands, a code, and the values that its sentence needs."""

    where: str
    code: str
    values: Mapping[str, object] = field(default_factory=dict)


def cleared_with_plot(done: Sequence[Done], days: Iterable[date]) -> list[Done]:
    """What clearing the whole plot on these days ended: each sowing that stood in the ground before.

    >>> done = [Done("sow", date(2024, 5, 1)), Done("sow", date(2024, 7, 1), 2)]
    >>> cleared_with_plot(done, [date(2024, 6, 1)])
    [Done(work='clear', day=datetime.date(2024, 6, 1), succession=1)]
    """
    began: dict[int, date] = {}
    for one in done:
        if one.work in {Work.SOW, Work.TRANSPLANT}:
            number = one.succession or 1
            began[number] = min(one.day, began.get(number, one.day))
    return [
        Done(Work.CLEAR.value, day, number) for day in days for number, first in began.items() if first < day
    ]


def doubts(told: Told, ground: Ground) -> list[Doubt]:
    """Everything that cannot be; empty for a log that may be kept."""
    found = [*_day(told, ground), *_amount(told, ground), *_extras(told)]
    if ground.planting:
        found += _planting(told, ground.planting)
    elif told.succession is not None:
        found.append(Doubt("succession", "succession-without-planting"))
    for done in ground.plantings:
        found += _still_worked(told, done)
    if told.work in OF_A_PLANTING and ground.planting is None and not told.names_a_crop:
        found.append(Doubt("planting", "which-planting", {"work": told.work}))
    return found


def _day(told: Told, ground: Ground) -> list[Doubt]:
    if told.day > ground.today:
        return [Doubt("day", "not-yet", {"today": ground.today})]
    if told.day < ground.today - timedelta(days=OLDEST_DAYS):
        return [Doubt("day", "too-old", {"day": told.day})]
    if ground.given_up_on and told.day > ground.given_up_on:
        return [Doubt("day", "given-up", {"on": ground.given_up_on})]
    if ground.days is None or any(told.day in days for days in ground.days):
        return []
    later = [days.first for days in ground.days if told.day < days.first]
    if later:
        return [Doubt("day", "before-yours", {"since": min(later)})]
    return [Doubt("day", "after-yours", {"until": max(days.last or days.first for days in ground.days)})]


def _amount(told: Told, ground: Ground) -> list[Doubt]:
    if told.amount is None:
        return []
    if told.amount <= 0:
        return [Doubt("amount", "nothing")]
    if not told.unit:
        return [Doubt("unit", "which-unit")]
    if told.unit not in UNITS.get(told.work, frozenset()):
        code = "unit-of-other-work" if told.work in UNITS else "no-amount"
        return [Doubt("unit" if told.work in UNITS else "amount", code, {"work": told.work})]
    area, typed = ground.area_m2, {"amount": told.amount, "unit": told.unit}
    most_litres = MOST_WATER_LITRES if area is None else max(500.0, area * DEEPEST_MM)
    if told.litres is not None and told.litres > most_litres:
        return [Doubt("amount", "too-much-water", {**typed, "most_litres": most_litres})]
    most_grams = LEAST_LIMIT_GRAMS
    if area is not None:
        most_grams = min(MOST_GRAMS, max(LEAST_LIMIT_GRAMS, area * MOST_GRAMS_PER_M2))
    if told.grams is not None and told.grams > most_grams:
        return [Doubt("amount", "too-heavy", typed)]
    if told.pieces is not None and told.pieces > MOST_PIECES:
        return [Doubt("amount", "too-many", {"most": MOST_PIECES})]
    return []


def _extras(told: Told) -> list[Doubt]:
    found = []
    if told.work == Work.HOURS and told.minutes is None:
        found.append(Doubt("minutes", "how-long"))
    if told.minutes is not None and not 0 < told.minutes <= DAY_MINUTES:
        found.append(Doubt("minutes", "longer-than-a-day"))
    if told.given_away and told.work != Work.PICK:
        found.append(Doubt("given_away", "only-harvest-is-given"))
    if told.given_to and not told.given_away:
        found.append(Doubt("given_to", "kept-not-given"))
    return found


def _planting(told: Told, planting: Sown) -> list[Doubt]:
    if told.succession is not None and not 1 <= told.succession <= MOST_SUCCESSIONS:
        return [Doubt("succession", "no-such-sowing", {"of": MOST_SUCCESSIONS})]
    # What is planned for a spring may be started in the summer before, south of the equator.
    if told.day < date(planting.year - 1, 7, 1):
        return [Doubt("day", "before-its-year", {"year": planting.year})]
    if told.day > date(planting.year + 1, 12, 31) and not planting.perennial:
        return [Doubt("day", "long-after-its-year", {"year": planting.year})]
    cleared = _cleared_on(told, planting)
    if cleared and told.work not in AFTER_CLEARING and (told.day > cleared or told.work == Work.CLEAR):
        return [Doubt("day", "cleared", {"on": cleared})]
    later = [
        one
        for one in planting.done
        if one.day > told.day and one.work not in {*AFTER_CLEARING, Work.CLEAR} and _meets(told, one)
    ]
    if told.work == Work.CLEAR and later:
        last = max(later, key=lambda one: one.day)
        return [Doubt("day", "worked-after-clearing", {"work": last.work, "on": last.day})]
    return []


def _still_worked(told: Told, done: Sequence[Done]) -> list[Doubt]:
    """Whether a planting that grew when the whole plot was cleared was worked later, and not begun anew."""
    begun = [one.day for one in done if one.work in {Work.SOW, Work.TRANSPLANT}]
    if not begun or max(begun) >= told.day:
        return []
    later = [one for one in done if one.day > told.day and one.work not in {*AFTER_CLEARING, Work.CLEAR}]
    if not later:
        return []
    last = max(later, key=lambda one: one.day)
    return [Doubt("day", "worked-after-clearing", {"work": last.work, "on": last.day})]


def _meets(told: Told, done: Done) -> bool:
    """Whether both are about the same sowing; what names none is about all of them."""
    return told.succession is None or done.succession in (None, told.succession)


def _cleared_on(told: Told, planting: Sown) -> date | None:
    """The day on which there was nothing left of what is told about."""
    clears = [one for one in planting.done if one.work == Work.CLEAR]
    days: list[date] = []
    for number in [told.succession] if told.succession else range(1, planting.successions + 1):
        own = [one.day for one in clears if one.succession in (None, number)]
        if not own:
            return None
        days.append(min(own))
    return max(days)
