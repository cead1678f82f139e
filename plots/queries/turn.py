"""The season turn: who was asked, what they answered, what is proposed, and which plots are free."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from django.db.models import Exists, OuterRef, Prefetch, Q, QuerySet

from plots import renewal as rules
from plots.hours import HOUR
from plots.models import (
    Assignment,
    Decision,
    Due,
    Garden,
    Offer,
    Plot,
    PlotKind,
    Renewal,
    RenewalRound,
    Season,
    User,
    WishChoice,
)
from plots.queries.hours import hours_left
from plots.queries.waiting import waiting_lines
from plots.spelling import natural_key

DAY = timedelta(days=1)


@dataclass(frozen=True)
class Asked:
    """One held plot in a round of renewals."""

    assignment: Assignment
    renewal: Renewal | None
    advised: rules.Advised

    @property
    def wish(self) -> str:
        return self.renewal.wish if self.renewal else ""

    @property
    def decision(self) -> str:
        return self.renewal.decision if self.renewal else ""

    @property
    def standing(self) -> str:
        """The one word to filter by: what was decided, else what is proposed."""
        return self.decision or self.advised.advice.value


@dataclass(frozen=True)
class FreeInTurn:
    """A free plot: offered to somebody who waits, or with a proposal for whom it could be."""

    plot: Plot
    proposal: rules.Proposal | None
    offer: Offer | None


def open_round_of(garden: Garden) -> RenewalRound | None:
    """The round that is being asked now."""
    return (
        RenewalRound.objects.filter(season__garden=garden, closed_on__isnull=True)
        .select_related("season__garden")
        .order_by("-season__starts_on")
        .first()
    )


def closed_rounds(garden: Garden) -> QuerySet[RenewalRound]:
    """Earlier rounds, the latest first."""
    closed = RenewalRound.objects.filter(season__garden=garden, closed_on__isnull=False)
    return closed.select_related("season").order_by("-season__starts_on")


def next_season(garden: Garden) -> Season | None:
    """The earliest season that has not begun."""
    return garden.seasons.filter(starts_on__gt=garden.today()).order_by("starts_on").first()


def asked_in(round: RenewalRound) -> QuerySet[Assignment]:
    """What is held into the round's season unless a person ends it, and what was decided in this round."""
    garden = round.season.garden
    decided = Renewal.objects.filter(round=round, assignment=OuterRef("pk")).exclude(decision="")
    open_ended = Q(ended_on__isnull=True, began_on__lt=round.season.starts_on)
    return (
        Assignment.objects.filter(open_ended | Exists(decided), plot__garden=garden)
        .exclude(season=round.season)
        .select_related("plot__garden", "holder", "season")
    )


def held_in(round: RenewalRound, assignments: QuerySet[Assignment] | None = None) -> list[Asked]:
    """The plots of the round in the order of their stakes, each with its answer and what is proposed."""
    garden, today = round.season.garden, round.season.garden.today()
    answers = Renewal.objects.filter(round=round).select_related("successor__plot", "answered_by")
    asked = asked_in(round) if assignments is None else assignments
    asked = asked.prefetch_related("co_gardeners", Prefetch("renewals", answers, to_attr="answers"))
    terms = rules.Terms(
        answer_by=round.answer_by,
        last_call=round.last_call,
        needs_hours=garden.rules.renew_needs_hours,
        needs_dues=garden.rules.renew_needs_dues,
    )
    owing, found = people_owing(garden, today), list(asked)
    hours = _hours_missing(found, today) if terms.needs_hours else {}
    rows = [_held(one, terms, owing, hours, today) for one in found]
    return sorted(rows, key=lambda row: natural_key(row.assignment.plot.label))


def _hours_missing(asked: Iterable[Assignment], today: date) -> dict[int, Decimal]:
    """Hours still owed of the season that ends, by assignment."""
    missing: dict[int, Decimal] = {}
    for season in {one.season_id: one.season for one in asked}.values():
        left = hours_left(season, today=today)
        missing |= {key: Decimal(minutes) / HOUR for key, minutes in left.items()}
    return missing


def _held(
    one: Assignment, terms: rules.Terms, owing: set[int], hours: dict[int, Decimal], today: date
) -> Asked:
    renewal = one.answers[0] if one.answers else None
    answered = renewal is not None and renewal.wish
    standing = rules.Standing(
        wish=rules.Wish(renewal.wish) if answered else None,
        answered_on=renewal.answered_on if answered else None,
        dues_unpaid=one.holder_id in owing,
        hours_left=hours.get(one.pk, Decimal(0)),
    )
    return Asked(one, renewal, rules.advise(standing, terms, today=today))


def open_dues(garden: Garden) -> QuerySet[Due]:
    """What is neither paid nor waived."""
    return garden.dues.filter(paid_on__isnull=True, waived_on__isnull=True)


def people_owing(garden: Garden, today: date) -> set[int]:
    """Who has open dues past their day."""
    late = open_dues(garden).filter(due_on__lt=today, amount__gt=0)
    return set(late.values_list("person_id", flat=True))


def own_questions(round: RenewalRound, person: User) -> list[Asked]:
    """What the person is asked in the round: about the plots they hold, or share with its holder."""
    mine = Q(holder=person) | Q(co_gardeners=person)
    return held_in(round, asked_in(round).filter(mine).distinct())


def free_plots(garden: Garden, season: Season) -> list[Plot]:
    """Plots that members can hold and that nobody holds when the season starts, nor later in it."""
    held = Assignment.objects.standing(season.starts_on).filter(
        plot=OuterRef("pk"), began_on__lte=season.ends_on
    )
    plots = garden.plots.filter(~Exists(held), kind=PlotKind.PERSONAL, retired_on__isnull=True)
    return sorted(plots, key=lambda plot: natural_key(plot.label))


def free_from(plot: Plot, today: date) -> date | None:
    """The first day on which the plot can be given to somebody; `None` while somebody holds it open-ended."""
    last = today - DAY
    for ended_on in plot.assignments.standing(today).values_list("ended_on", flat=True):
        if ended_on is None:
            return None
        last = max(last, ended_on)
    return last + DAY


def movers_in(round: RenewalRound) -> list[Renewal]:
    """Households that asked for another plot and have not been given one, earliest answer first."""
    asked = round.renewals.filter(wish=WishChoice.MOVE).exclude(decision=Decision.FREED)
    return list(asked.select_related("assignment__plot", "assignment__holder").order_by("answered_on", "pk"))


def proposals_for(round: RenewalRound) -> list[FreeInTurn]:
    """Every plot that is free in the round's season, with who could have it by the garden's rules."""
    garden = round.season.garden
    plots = free_plots(garden, round.season)
    offered = {offer.plot_id: offer for offer in _open_offers(plots)}
    movers = [
        rules.Candidate(renewal.pk, renewal.assignment.holder.name, renewal.answered_on)
        for renewal in movers_in(round)
        if renewal.answered_on is not None
    ]
    to_give = [plot for plot in plots if plot.pk not in offered]
    proposals = rules.propose(
        [rules.FreePlot(plot.pk, plot.label, plot.accessible) for plot in to_give],
        movers=movers,
        lines=waiting_lines(garden, to_give),
        movers_first=garden.rules.movers_first,
    )
    proposed = {proposal.plot.pk: proposal for proposal in proposals}
    return [FreeInTurn(plot, proposed.get(plot.pk), offered.get(plot.pk)) for plot in plots]


def _open_offers(plots: Iterable[Plot]) -> QuerySet[Offer]:
    return Offer.objects.filter(plot__in=plots, place__isnull=False).select_related("entry")


def count_by_standing(rows: Iterable[Asked]) -> dict[str, int]:
    """How many plots stand at each word of `Asked.standing`."""
    counts: dict[str, int] = {}
    for row in rows:
        counts[row.standing] = counts.get(row.standing, 0) + 1
    return counts
