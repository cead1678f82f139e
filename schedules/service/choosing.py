"""What a choice of nerve, day or crop means in a garden, out of its dates and plans."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db import transaction
from django.utils import timezone

from crops.facts import CropFacts
from crops.models import Crop, Planting
from crops.queries import crops_for
from crops.wording.names import crop_name
from plots.access import own_plots
from plots.models import Garden, Membership, Plot, User
from plots.service.history import fields_of, record_fields
from schedules.chance import Chance, NoChance, Odds, chances, likely_days
from schedules.entries import BEGINNINGS
from schedules.fits import CropFits, Room, what_fits
from schedules.months import month_starts
from schedules.nerve import Choice, Cost, Costs, Move
from schedules.queries import plantings_of
from schedules.seasons import Hemisphere
from schedules.service.calendar import GardenDates, PlantingDates
from schedules.windows import Nerve, Start, Turn, Window
from schedules.windows.growth import starts
from schedules.windows.ripening import Pace
from schedules.years import span_of, year_of


@dataclass(frozen=True)
class NerveOfPlanting:
    """Which nerve a planting follows, and what each would cost and save."""

    planting: Planting
    turn: Turn
    choice: Choice
    costs: tuple[Cost, ...]
    moves: tuple[Move, ...]
    begins: date | None  # the best day, or the one on which it was begun

    @property
    def frost_decides(self) -> bool:
        """Whether a bolder nerve gains any day at all."""
        return any(cost.gained_days for cost in self.costs)

    @property
    def held_back(self) -> bool:
        """Whether the boldest nerve gains no more than the one before it."""
        return self.frost_decides and self.costs[-1].gained_days == self.costs[-2].gained_days


def nerve_of(dated: PlantingDates, dates: GardenDates) -> NerveOfPlanting:
    """What nerve means for one planting; no costs where its dates do not rest on frost, or all is begun."""
    planting, way = dated.planting, dated.way
    costs = Costs(
        dates.facts_of_planting(planting), dates.climate, way.turn, way.start, dates.cover_c(planting)
    )
    begins = way.beginning
    planned = None if begins is None or begins.done else begins.best
    begun = all(window.done for window in _beginnings(dated))
    return NerveOfPlanting(
        planting,
        way.turn,
        dates.choice_for(planting),
        () if begun else costs.of_each(planting.year),
        costs.moves(planned) if planned is not None else (),
        None if begins is None else begins.best,
    )


def _beginnings(dated: PlantingDates) -> list[Window]:
    """The windows of its sowings or transplantings that have dates."""
    return [one for one in dated.windows if one.operation in BEGINNINGS and one.best is not None]


@dataclass(frozen=True)
class ChanceOfSowing:
    """How likely one sowing of a planting is to ripen, of its own variety and under its own cover."""

    planting: Planting
    succession: int
    start: Start
    begins: date  # the best day, or the one on which it was begun
    quick: Chance | NoChance
    slow: Chance | NoChance


def chances_of(dated: PlantingDates, dates: GardenDates) -> list[ChanceOfSowing]:
    """The chances of each sowing of a planting that is not lost or cleared; empty where none can be told."""
    planting = dated.planting
    odds = Odds(
        dates.facts_of_planting(planting),
        dates.climate,
        dated.way.start,
        cover_c=dates.cover_c(planting),
    )
    found: list[ChanceOfSowing] = []
    for window in _beginnings(dated):
        told = dated.told.happened.get(window.succession)
        if window.best is None or (told is not None and told.ended is not None):
            continue
        row = _row(odds, window.best)
        if isinstance(row.quick, Chance):
            found.append(
                ChanceOfSowing(planting, window.succession, odds.start, row.day, row.quick, row.slow)
            )
    return found


def chances_in_plot(plot: Plot, crop: Crop, day: date, dates: GardenDates) -> list[ChanceOfSowing]:
    """The same for what stands of a crop in a plot's plan, begun in the growing year about `day`."""
    first, last = _growing_year(day, dates.climate.hemisphere)
    years = sorted({first.year, last.year})
    found = plantings_of(plot.garden, [plot], years).filter(crop=crop)
    known = [one for planting in found for one in chances_of(dates.planting(planting), dates)]
    return sorted((one for one in known if first <= one.begins <= last), key=lambda one: one.begins)


def nerve_of_own(user: User, garden: Garden, dates: GardenDates, year: int) -> list[NerveOfPlanting]:
    """The same for what stands in the plans of somebody's own plots in a year."""
    found = plantings_of(garden, own_plots(user, garden), [year])
    known = [nerve_of(dates.planting(planting), dates) for planting in found]
    return [one for one in known if one.costs]


@transaction.atomic
def choose_nerve(*, membership: Membership, nerve: str, by: User) -> None:
    """Keeps how much frost risk a member accepts; the plantings whose dates it moves count as changed."""
    before = fields_of(Membership.objects.select_for_update().get(pk=membership.pk), ["nerve"])
    if before["nerve"] == nerve:
        return
    membership.nerve = nerve
    membership.save(update_fields=["nerve"])
    garden = membership.garden
    held = garden.plots.filter(assignments__in=membership.user.assignments.standing(garden.today()))
    moved = Planting.objects.filter(plot__in=held, nerve="", removed_at=None)
    moved.update(changed_at=timezone.now())
    record_fields(garden=garden, by=by, about=membership, what="nerve-changed", before=before)


@dataclass(frozen=True)
class CropThatFits:
    """A crop of the garden's list that still makes a harvest."""

    crop: Crop
    name: str
    fits: CropFits


def crops_that_fit(
    garden: Garden, dates: GardenDates, room: Room, *, nerve: Nerve, covered: bool
) -> list[CropThatFits]:
    """The garden's crops that still fit, best first."""
    crops = {crop.slug: crop for crop in crops_for(garden)}
    known = [dates.facts_of(crop, None) for crop in crops.values()]
    cover_c = garden.row_cover_c if covered else 0.0
    found = what_fits(known, dates.climate, room, nerve=nerve, cover_c=cover_c)
    return [CropThatFits(crops[one.facts.slug], crop_name(one.facts.name), one) for one in found]


@dataclass(frozen=True, slots=True)
class ChanceRow:
    """One day of the season: of a quick and of a slow variety begun on it."""

    day: date
    quick: Chance | NoChance
    slow: Chance | NoChance


@dataclass(frozen=True)
class SeasonOfChances:
    """The chances of a crop begun in one way, through the year about a day.

    `likely` are the stretches of days on which a quick variety has the chance that a nerve asks for; `None`
    without a nerve, or where no chance can be told.
    """

    start: Start
    asked: ChanceRow
    quick: list[tuple[date, float]]
    slow: list[tuple[date, float]]
    rows: tuple[ChanceRow, ...]
    likely: list[tuple[date, date]] | None


def seasons_of_chances(
    facts: CropFacts, dates: GardenDates, day: date, *, nerve: Nerve, covered: bool
) -> list[SeasonOfChances]:
    """For each way of beginning a crop, its chances on `day` and through the growing year about it."""
    cover_c = dates.garden.row_cover_c if covered else 0.0
    first, last = _growing_year(day, dates.climate.hemisphere)
    return [
        _season(Odds(facts, dates.climate, start, cover_c=cover_c), day, first, last, nerve)
        for start in starts(facts)
    ]


def _season(odds: Odds, day: date, first: date, last: date, nerve: Nerve) -> SeasonOfChances:
    rows = [_row(odds, one) for one in _tenths(first, last)]
    daily = [] if nerve.percent is None else chances(odds, first, last, Pace.QUICK, step=1)
    return SeasonOfChances(
        odds.start,
        _row(odds, day),
        chances(odds, first, last, Pace.QUICK),
        chances(odds, first, last, Pace.SLOW),
        tuple(row for row in rows if any(_any(one) for one in (row.quick, row.slow))),
        likely_days(daily, 1 - nerve.percent / 100) if nerve.percent is not None and daily else None,
    )


def _row(odds: Odds, day: date) -> ChanceRow:
    return ChanceRow(day, odds.on(day, Pace.QUICK), odds.on(day, Pace.SLOW))


def _any(chance: Chance | NoChance) -> bool:
    return isinstance(chance, Chance) and chance.share > 0


def _growing_year(day: date, hemisphere: Hemisphere) -> tuple[date, date]:
    """From winter to winter, as logs are read back."""
    return span_of(year_of(day, hemisphere), hemisphere)


def _tenths(first: date, last: date) -> Iterable[date]:
    """The 1st, 11th and 21st of each month."""
    return (month.replace(day=day) for month in month_starts(first, last) for day in (1, 11, 21))


def nerve_at(dates: GardenDates, plot: Plot | None, asked: str) -> Choice:
    """The nerve that was asked for, else that of a plot's holder, else the garden's."""
    if plot is not None:
        return dates.choice(plot, planting=asked)
    return dates.choice_of_garden(asked)
