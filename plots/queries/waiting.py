"""The waiting list with what a page shows of it: the line with its reasons, and every free plot."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from django.db.models import Exists, OuterRef, Prefetch, Q, QuerySet
from django.utils import timezone

from plots import waiting
from plots.models import (
    Answer,
    Assignment,
    Garden,
    InterestAnswer,
    InterestRound,
    Offer,
    PlacedBy,
    Plot,
    PlotChoice,
    PlotKind,
    Season,
    User,
    WaitingEntry,
)
from plots.renewal import Candidate
from plots.spelling import natural_key

_PLACED_BY = {
    PlacedBy.JOINED: waiting.Why.JOINED,
    PlacedBy.DECLINED: waiting.Why.DECLINED,
    PlacedBy.UNANSWERED: waiting.Why.UNANSWERED,
    PlacedBy.BY_HAND: waiting.Why.BY_HAND,
}
_NOT_TAKEN = [Answer.DECLINED, Answer.UNANSWERED]


@dataclass(frozen=True)
class Row:
    """One who waits: `place` is `None` when an unanswered offer has ended it by the garden's rule."""

    entry: WaitingEntry
    place: waiting.Place | None
    twice: bool = False  # shares a telephone number or an email address with somebody else in line
    unmet: bool = False  # no plot of the garden is what they wish
    full: bool = False  # the household has as many plots as the rules allow

    @property
    def offer(self) -> Offer | None:
        return getattr(self.entry, "open_offer", None)


@dataclass(frozen=True)
class Stand:
    """How it stands with one free plot: whom it is offered to, who is next."""

    plot: Plot
    season: Season
    situation: waiting.Situation
    offer: Offer | None
    next_row: Row | None


@dataclass(frozen=True)
class WaitingList:
    """The list of a garden at one moment."""

    garden: Garden
    rules: waiting.Rules
    entries: tuple[waiting.Entry, ...]  # as written down, run-out offers and all
    rows: tuple[Row, ...]
    now: datetime

    @property
    def places(self) -> tuple[waiting.Place, ...]:
        return tuple(row.place for row in self.rows if row.place)

    def row_of(self, entry_pk: int) -> Row | None:
        return next((row for row in self.rows if row.entry.pk == entry_pk), None)

    def in_turn(self, plot: waiting.FreePlot) -> Row | None:
        """The first in line who can have the plot, also where another one is proposed to them just now."""
        place = waiting.next_for(plot, self.places, self.rules).place
        return self.row_of(place.entry.pk) if place else None

    def ahead_of(self, row: Row) -> Counter[waiting.Why]:
        return waiting.ahead_of(row.place, self.places, self.rules) if row.place else Counter()


def waiting_rules(garden: Garden) -> waiting.Rules:
    rules = garden.rules
    first = dict.fromkeys(
        waiting.Priority(word) for word in (rules.priority_1, rules.priority_2, rules.priority_3) if word
    )
    return waiting.Rules(
        first=tuple(first),
        accessible_first=rules.accessible_first,
        plots_per_household=rules.plots_per_household,
        after_silence=waiting.After(rules.after_silence),
    )


def waiting_list(garden: Garden, *, now: datetime | None = None) -> WaitingList:
    """Everybody who waits, in line; places that a run-out offer has ended come last."""
    moment = (now or timezone.now()).astimezone(garden.zone)
    rules = waiting_rules(garden)
    waiters = {entry.pk: entry for entry in _who_waits(garden)}
    entries = _entries(garden, waiters.values(), moment)
    places = waiting.line(entries, rules, now=moment)
    rows = [Row(waiters.pop(place.entry.pk), place) for place in places]
    rows += [Row(entry, None) for entry in waiters.values()]
    return WaitingList(garden, rules, tuple(entries), tuple(rows), moment)


def _who_waits(garden: Garden) -> QuerySet[WaitingEntry]:
    # A plot not taken this season is asked about again in another.
    not_taken = Offer.objects.filter(answer__in=_NOT_TAKEN, season__ends_on__gte=garden.today())
    return (
        garden.waiting.filter(place__isnull=False)
        .select_related("open_offer__plot", "open_offer__season", "member")
        .prefetch_related("choices", Prefetch("offers", not_taken, to_attr="not_taken"))
    )


def _entries(garden: Garden, waiters: Iterable[WaitingEntry], now: datetime) -> list[waiting.Entry]:
    rows = list(waiters)
    members = dict(garden.memberships.values_list("user_id", "household_id"))
    holds = _holdings(garden, rows, members, now)
    return [_entry(row, garden, members, holds) for row in rows]


def _household(person_pk: int | None, members: dict[int, int | None]) -> Hashable:
    """What a household is counted by; a person without one is one of their own."""
    if person_pk is None:
        return None
    household = members.get(person_pk)
    return ("person", person_pk) if household is None else ("household", household)


def household_holds(garden: Garden, person_pk: int | None, *, but: Offer | None = None) -> int:
    """How many plots the person's household holds or is offered, not counting one offer."""
    if person_pk is None:
        return 0
    members = dict(garden.memberships.values_list("user_id", "household_id"))
    rows = [row for row in _who_waits(garden) if but is None or row.pk != but.entry_id]
    count = _holdings(garden, rows, members, timezone.now().astimezone(garden.zone))
    return count[_household(person_pk, members)]


def account_of(entry: WaitingEntry) -> User | None:
    """The account that has the email address of somebody who waits, whoever it belongs to."""
    if entry.member_id is not None or not entry.email:
        return None
    return User.objects.filter(email=entry.email, is_active=True).first()


def _holdings(
    garden: Garden, rows: Sequence[WaitingEntry], members: dict[int, int | None], now: datetime
) -> dict[Hashable, int]:
    """How many plots each household holds, is agreed to hold, or is offered right now."""
    held = Assignment.objects.standing(now.date()).filter(plot__garden=garden)
    pairs = set(held.values_list("holder_id", "plot_id"))
    count: dict[Hashable, int] = defaultdict(int)
    for holder, _plot in pairs:
        count[_household(holder, members)] += 1
    for row in rows:
        offer = getattr(row, "open_offer", None)
        if offer is not None and now < offer.ends_at:
            count[_household(row.member_id or row.household_of_id, members)] += 1
    return count


def _entry(
    row: WaitingEntry, garden: Garden, members: dict[int, int | None], holds: dict[Hashable, int]
) -> waiting.Entry:
    household = _household(row.member_id or row.household_of_id, members)
    held = holds.get(household, 0) if household is not None else 0
    has = {
        waiting.Priority.MEMBER: row.member_id in members,
        waiting.Priority.NO_PLOT: not held,
        waiting.Priority.NEAR: row.near,
        waiting.Priority.GROUP: row.in_group,
    }
    offer = getattr(row, "open_offer", None)
    return waiting.Entry(
        pk=row.pk,
        joined_at=row.joined_at.astimezone(garden.zone),
        placed_at=row.placed_at.astimezone(garden.zone),
        placed_by=_PLACED_BY[PlacedBy(row.placed_by)],
        traits=frozenset(trait for trait, yes in has.items() if yes),
        needs_accessible=row.needs_accessible,
        choices=frozenset(choice.name for choice in row.choices.all()),
        household_holds=held,
        refused=frozenset(past.plot_id for past in row.not_taken),
        offer=_open_offer(offer, garden) if offer else None,
    )


def _open_offer(offer: Offer, garden: Garden) -> waiting.Offer:
    ends_at = offer.ends_at.astimezone(garden.zone)
    return waiting.Offer(offer.plot_id, ends_at, told=offer.told_at is not None)


# --- free plots ---


def plots_to_give(garden: Garden, season: Season, today: date) -> list[Plot]:
    """Plots that are free for some of the season, or are offered to somebody now, by their stakes."""
    from_day = max(today, season.starts_on)
    to_the_end = Q(ended_on__isnull=True) | Q(ended_on__gte=season.ends_on)
    held = Assignment.objects.standing(from_day).filter(
        to_the_end, plot=OuterRef("pk"), began_on__lte=season.ends_on
    )
    offered = Offer.objects.filter(plot=OuterRef("pk"), place__isnull=False)
    free = ~Exists(held) & Q(kind=PlotKind.PERSONAL, retired_on__isnull=True)
    plots = garden.plots.filter(free | Exists(offered)).prefetch_related("choices")
    return sorted(plots, key=lambda plot: natural_key(plot.label))


def _free_plots(plots: Iterable[Plot]) -> list[waiting.FreePlot]:
    return [
        waiting.FreePlot(plot.pk, frozenset(choice.name for choice in plot.choices.all()), plot.accessible)
        for plot in plots
    ]


def stands(list_now: WaitingList, season: Season) -> list[Stand]:
    """How it stands with every plot that can be given in the season; none is left without a word."""
    plots = plots_to_give(list_now.garden, season, list_now.now.date())
    rows = {row.entry.pk: row for row in list_now.rows}
    found = waiting.situations(_free_plots(plots), list_now.entries, list_now.rules, now=list_now.now)
    return [_stand(plot, season, one, rows) for plot, one in zip(plots, found, strict=True)]


def _stand(plot: Plot, season: Season, situation: waiting.Situation, rows: dict[int, Row]) -> Stand:
    offered = rows.get(situation.offered_to) if situation.offered_to is not None else None
    place = situation.proposal.place if situation.proposal else None
    following = rows[place.entry.pk] if place else None
    return Stand(plot, season, situation, offered.offer if offered else None, following)


def waiting_lines(garden: Garden, plots: Sequence[Plot]) -> dict[int, list[Candidate]]:
    """Who could have each of the plots, in the order that holds for it."""
    list_now = waiting_list(garden)
    names = {row.entry.pk: row.entry.name for row in list_now.rows}
    covered = PlotChoice.objects.filter(garden=garden).values_list("plots__pk", "name")
    choices: dict[int, set[str]] = defaultdict(set)
    for plot_pk, name in covered:
        choices[plot_pk].add(name)
    return {
        plot.pk: [
            Candidate(place.entry.pk, names[place.entry.pk], place.entry.joined_at.date())
            for place in waiting.queue_for(
                waiting.FreePlot(plot.pk, frozenset(choices[plot.pk]), plot.accessible),
                list_now.places,
                list_now.rules,
            )
        ]
        for plot in plots
    }


def marked_rows(list_now: WaitingList) -> list[Row]:
    """The line with what a person should look into: who may be in it twice, or waits for what cannot come."""
    plots = list_now.garden.plots.filter(kind=PlotKind.PERSONAL, retired_on__isnull=True)
    every = _free_plots(plots.prefetch_related("choices"))
    unmet = {entry.pk for entry in list_now.entries if waiting.fits_none(entry, every)}
    twice = waiting.look_alikes((row.entry.pk, row.entry.email, row.entry.phone) for row in list_now.rows)
    cap = list_now.rules.plots_per_household
    full = {one.pk for one in list_now.entries if one.offer is None and one.household_holds >= cap}
    return [
        replace(row, twice=row.entry.pk in twice, unmet=row.entry.pk in unmet, full=row.entry.pk in full)
        for row in list_now.rows
    ]


# --- still interested? ---


def interest_round_of(garden: Garden) -> InterestRound | None:
    """The round that is being asked now."""
    return garden.interest_rounds.filter(closed_on__isnull=True).select_related("garden").first()


def interest_due(list_now: WaitingList) -> date | None:
    """Since when the yearly question is due, `None` while it is not."""
    month_day = list_now.garden.rules.interest_day
    last = list_now.garden.interest_rounds.values_list("asked_on", flat=True).first()
    joined = [row.entry.joined_at.astimezone(list_now.garden.zone).date() for row in list_now.rows]
    today = list_now.now.date()
    return waiting.round_due(month_day, today=today, last_asked=last, oldest=min(joined, default=None))


def asked_in_interest(round: InterestRound) -> list[InterestAnswer]:
    answers = round.answers.select_related("entry__garden", "entry__member")
    return list(answers.order_by("entry__placed_at", "entry__pk"))


def to_be_emailed(round: InterestRound, *, reminder: bool = False) -> list[InterestAnswer]:
    """Who is silent and has an address: those never written to, or for a reminder those who were.

    Whose letter is the oldest comes first, so that a slow mail server leaves nobody out for ever.
    """
    silent = round.answers.filter(still__isnull=True, entry__place__isnull=False).exclude(entry__email="")
    rows = silent.filter(emailed_at__isnull=not reminder).select_related("entry__garden")
    return list(rows.order_by("emailed_at", "pk"))
