"""What is proposed to be due for plots that are held for a part of a season."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import Prefetch

from plots.dues import SQUARE_METRES, Held, PartRule, Rates, Share, plot_dues, season_share
from plots.models import Assignment, Due, DueKind, DuesPart, Garden, Season
from plots.queries.ground import season_now
from plots.queries.turn import open_round_of
from plots.spelling import natural_key


@dataclass(frozen=True)
class PartDue:
    """A plot held for a part of the season: `due` is what was drawn up for it already."""

    assignment: Assignment
    share: Share
    whole: Decimal
    due: Due | None

    @property
    def amount(self) -> Decimal:
        return self.share.amount(self.whole)

    @property
    def is_open(self) -> bool:
        """Whether a person has still to say: nothing is drawn up, or more than the share and not settled."""
        if self.due is None:
            return True
        return self.due.state == "due" and self.due.amount == self.whole != self.amount


def rates_of(garden: Garden) -> Rates:
    rules = garden.rules
    return Rates(rules.dues_per_plot, rules.dues_per_area, SQUARE_METRES[rules.dues_area])


def share_of(assignment: Assignment, season: Season) -> Share:
    """The part of its season's dues that the garden's rule asks for a plot held on these days."""
    held = Held(assignment.began_on, assignment.ended_on, season.starts_on, season.ends_on)
    return season_share(PartRule(season.garden.rules.dues_part), held)


def whole_dues(assignment: Assignment, rates: Rates) -> Decimal:
    width, length = assignment.plot.width_m, assignment.plot.length_m
    return plot_dues(rates, area_m2=width * length if width and length else None)


def part_dues(seasons: Iterable[Season]) -> list[PartDue]:
    """What is proposed and not confirmed yet, by the stakes of the plots."""
    found: list[PartDue] = []
    drawn_up = Prefetch("dues", Due.objects.filter(kind=DueKind.PLOT), to_attr="drawn_up")
    for season in seasons:
        rates = rates_of(season.garden)
        if season.garden.rules.dues_part == DuesPart.WHOLE or not (rates.per_plot or rates.per_area):
            continue
        for held in season.assignments.select_related("plot", "holder").prefetch_related(drawn_up):
            held.season = season
            row = PartDue(
                held, share_of(held, season), whole_dues(held, rates), next(iter(held.drawn_up), None)
            )
            if row.whole and not row.share.is_whole and row.is_open:
                found.append(row)
    return sorted(found, key=lambda row: (natural_key(row.assignment.plot.label), row.assignment.began_on))


def part_due_of(assignment: Assignment) -> PartDue:
    season = assignment.season
    due = assignment.dues.filter(kind=DueKind.PLOT).first()
    return PartDue(
        assignment, share_of(assignment, season), whole_dues(assignment, rates_of(season.garden)), due
    )


def seasons_to_pay(garden: Garden) -> list[Season]:
    """The season of today, and the one that members are renewing for."""
    round = open_round_of(garden)
    seasons = {one.pk: one for one in (season_now(garden), round and round.season) if one}
    for season in seasons.values():
        season.garden = garden
    return list(seasons.values())
