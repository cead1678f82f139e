"""The waiting list: whose turn it is, and why. It proposes and explains; a person makes the offer.

Nobody is skipped: who cannot have a plot now (their wish, the household's cap, an open offer) keeps the
place, and the reason is given. An offer whose time is over needs no clock to run somewhere: everything here
looks at `now`, so what an unanswered offer does to a place is seen at once, and the next proposal with it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from enum import StrEnum

from plots.month_days import in_year

Value = int | str | date


class Priority(StrEnum):
    """What a garden may put before the date; each is a plain yes or no about a place."""

    MEMBER = "member"  # already a member of the garden
    NO_PLOT = "no-plot"  # the household gardens no plot yet
    NEAR = "near"  # lives near, as the garden defines it
    GROUP = "group"  # yes to the garden's own question


class After(StrEnum):
    """What a declined or unanswered offer does to the place."""

    END = "end"
    KEEPS = "keeps"
    LEAVES = "leaves"


class Why(StrEnum):
    """Why a place is where it is, or why it is not its turn for a plot."""

    JOINED = "joined"
    MEMBER = "member"
    NO_PLOT = "no plot"
    NEAR = "near"
    GROUP = "group"
    ASKED_ACCESSIBLE = "asked for an accessible bed"
    CHOSE = "chose"
    DECLINED = "moved back after declining"
    UNANSWERED = "moved back after silence"
    BY_HAND = "date set by hand"
    NEEDS_ACCESSIBLE = "needs an accessible bed"
    CHOSE_OTHERS = "chose others"
    AT_CAP = "household has its plots"
    HAS_OFFER = "has an offer"
    REFUSED = "had this plot offered"
    PROPOSED = "is proposed another"
    FOR_WHO_NEEDS_IT = "accessible beds go first to who needs one"


@dataclass(frozen=True, slots=True)
class Reason:
    """A reason with its values, for `plots.wording.waiting`."""

    why: Why
    values: tuple[Value, ...] = ()


@dataclass(frozen=True, slots=True)
class Rules:
    """What the garden has decided; `first` in order, the most important before."""

    first: tuple[Priority, ...] = ()
    accessible_first: bool = True
    plots_per_household: int = 2
    after_silence: After = After.END


@dataclass(frozen=True, slots=True)
class Offer:
    """An offer that nobody has answered or settled: open until `ends_at`, run out from then on."""

    plot: int
    ends_at: datetime
    told: bool = True  # whether anybody told them of it


@dataclass(frozen=True, slots=True)
class Entry:
    """Somebody who waits. Instants are aware, in the garden's zone; dates of reasons are read from them."""

    pk: int
    joined_at: datetime
    placed_at: datetime  # the date order goes by this; later than `joined_at` after moving back
    placed_by: Why = Why.JOINED
    traits: frozenset[Priority] = frozenset()
    needs_accessible: bool = False
    choices: frozenset[str] = frozenset()  # sizes or sites by the garden's own names; none: any
    household_holds: int = 0
    refused: frozenset[int] = frozenset()  # plots that were offered and not taken
    offer: Offer | None = None


@dataclass(frozen=True, slots=True)
class FreePlot:
    """A plot that can be given: the choices that cover it, and whether it is an accessible bed."""

    pk: int
    choices: frozenset[str] = frozenset()
    accessible: bool = False


@dataclass(frozen=True, slots=True)
class Place:
    """A place in line, counted from 1, with the reasons for it."""

    number: int
    entry: Entry
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Passed:
    """Somebody ahead of who is proposed, and why it is not their turn for this plot."""

    place: Place
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Proposal:
    """Who is next for a plot; with `place` none, nobody in line can have it, and `passed` tells why."""

    plot: FreePlot
    place: Place | None
    passed: tuple[Passed, ...]


class State(StrEnum):
    """How it stands with a free plot; there is no state in which nothing is said."""

    OFFERED = "offered"
    RAN_OUT = "ran out"
    NEXT = "next"
    NOBODY = "nobody"


@dataclass(frozen=True, slots=True)
class Situation:
    """A free plot, its open or run-out offer, and unless the offer is still open, who is next."""

    plot: FreePlot
    state: State
    offered_to: int | None = None
    ends_at: datetime | None = None
    proposal: Proposal | None = None


# --- the line ---


def line(entries: Iterable[Entry], rules: Rules, *, now: datetime) -> tuple[Place, ...]:
    """Everybody who waits, in order: by the garden's priorities, then by date and time."""
    standing = [entry for one in entries if (entry := settled(one, rules, now=now))]
    ordered = sorted(standing, key=lambda entry: _order(entry, rules))
    return tuple(
        Place(number, entry, _reasons(entry, rules)) for number, entry in enumerate(ordered, start=1)
    )


def settled(entry: Entry, rules: Rules, *, now: datetime) -> Entry | None:
    """The entry as the garden's rule leaves it when its offer has run out; `None`: the place is lost."""
    if entry.offer is None or now < entry.offer.ends_at:
        return entry
    if not entry.offer.told:  # nobody loses anything by an offer they did not know of
        return replace(entry, offer=None)
    free = replace(entry, offer=None, refused=entry.refused | {entry.offer.plot})
    if rules.after_silence is After.LEAVES:
        return None
    if rules.after_silence is After.END:
        return replace(free, placed_at=entry.offer.ends_at, placed_by=Why.UNANSWERED)
    return free


def _order(entry: Entry, rules: Rules) -> tuple[tuple[bool, ...], datetime, int]:
    return tuple(one not in entry.traits for one in rules.first), entry.placed_at, entry.pk


def _reasons(entry: Entry, rules: Rules) -> tuple[Reason, ...]:
    reasons = [Reason(Why.JOINED, (entry.joined_at.date(),))]
    if entry.placed_by is not Why.JOINED:
        reasons.append(Reason(entry.placed_by, (entry.placed_at.date(),)))
    reasons += [Reason(_TRAIT[one]) for one in rules.first if one in entry.traits]
    if entry.needs_accessible:
        reasons.append(Reason(Why.ASKED_ACCESSIBLE))
    if entry.choices:
        reasons.append(Reason(Why.CHOSE, tuple(sorted(entry.choices))))
    return tuple(reasons)


_TRAIT = {
    Priority.MEMBER: Why.MEMBER,
    Priority.NO_PLOT: Why.NO_PLOT,
    Priority.NEAR: Why.NEAR,
    Priority.GROUP: Why.GROUP,
}


def ahead_of(place: Place, places: Sequence[Place], rules: Rules) -> Counter[Why]:
    """How many stand before a place for which reason: an earlier date, or the priority that decides."""
    return Counter(
        _decisive(other.entry, place.entry, rules) for other in places if other.number < place.number
    )


def _decisive(ahead: Entry, behind: Entry, rules: Rules) -> Why:
    for one in rules.first:
        if one in ahead.traits and one not in behind.traits:
            return _TRAIT[one]
    return Why.JOINED


# --- whose turn it is for a plot ---


def next_for(
    plot: FreePlot, places: Sequence[Place], rules: Rules, *, spoken_for: Mapping[int, int] | None = None
) -> Proposal:
    """The first in line who can have the plot; `spoken_for` are entries already proposed another plot."""
    elsewhere = spoken_for or {}
    queue = sorted(places, key=lambda place: (_waits_for_need(place.entry, plot, rules), place.number))
    chosen = next((place for place in queue if not _against(place.entry, plot, rules, elsewhere)), None)
    passed = [
        Passed(place, _against(place.entry, plot, rules, elsewhere) or (Reason(Why.FOR_WHO_NEEDS_IT),))
        for place in places
        if chosen is None or place.number < chosen.number
    ]
    return Proposal(plot, chosen, tuple(passed))


def queue_for(plot: FreePlot, places: Sequence[Place], rules: Rules) -> tuple[Place, ...]:
    """Everybody who could have the plot, in the order that holds for it."""
    able = [place for place in places if not _against(place.entry, plot, rules, {})]
    return tuple(sorted(able, key=lambda place: (_waits_for_need(place.entry, plot, rules), place.number)))


def _waits_for_need(entry: Entry, plot: FreePlot, rules: Rules) -> bool:
    return plot.accessible and rules.accessible_first and not entry.needs_accessible


def _against(entry: Entry, plot: FreePlot, rules: Rules, elsewhere: Mapping[int, int]) -> tuple[Reason, ...]:
    reasons = []
    if entry.offer is not None:
        reasons.append(Reason(Why.HAS_OFFER, (entry.offer.ends_at.date(),)))
    if plot.pk in entry.refused:
        reasons.append(Reason(Why.REFUSED))
    reasons += _against_the_wish(entry, plot)
    if entry.household_holds >= rules.plots_per_household:
        reasons.append(Reason(Why.AT_CAP, (entry.household_holds,)))
    if not reasons and entry.pk in elsewhere:
        reasons.append(Reason(Why.PROPOSED))
    return tuple(reasons)


def _against_the_wish(entry: Entry, plot: FreePlot) -> list[Reason]:
    reasons = []
    if entry.needs_accessible and not plot.accessible:
        reasons.append(Reason(Why.NEEDS_ACCESSIBLE))
    if entry.choices and not entry.choices & plot.choices:
        reasons.append(Reason(Why.CHOSE_OTHERS, tuple(sorted(entry.choices))))
    return reasons


def fits_none(entry: Entry, plots: Sequence[FreePlot]) -> bool:
    """Whether no plot of the garden, free or held, is what the person wishes: they would wait for ever."""
    return bool(plots) and all(_against_the_wish(entry, plot) for plot in plots)


def look_alikes(contacts: Iterable[tuple[int, str, str]]) -> frozenset[int]:
    """Entries (key, email, telephone) that share an address or a number with another one.

    >>> sorted(look_alikes([(1, "", "555 0101"), (2, "", "555-0101"), (3, "a@b.org", ""), (4, "", "")]))
    [1, 2]
    """
    found: dict[str, list[int]] = {}
    for pk, email, phone in contacts:
        number = "".join(filter(str.isdigit, phone))
        for word in {email, number if len(number) > 5 else ""} - {""}:
            found.setdefault(word, []).append(pk)
    return frozenset(pk for pks in found.values() if len(pks) > 1 for pk in pks)


def situations(
    plots: Sequence[FreePlot], entries: Sequence[Entry], rules: Rules, *, now: datetime
) -> tuple[Situation, ...]:
    """How it stands with every free plot, in the order given; nobody is proposed two plots at once.

    Accessible beds are looked at first, so that who needs one is not left over.
    """
    places = line(entries, rules, now=now)
    holding = {entry.offer.plot: entry for entry in entries if entry.offer is not None}
    spoken_for: dict[int, int] = {}
    found: dict[int, Situation] = {}
    for plot in sorted(plots, key=lambda one: not one.accessible):
        found[plot.pk] = _situation(plot, holding.get(plot.pk), places, rules, now, spoken_for)
    return tuple(found[plot.pk] for plot in plots)


def _situation(
    plot: FreePlot,
    holder: Entry | None,
    places: Sequence[Place],
    rules: Rules,
    now: datetime,
    spoken_for: dict[int, int],
) -> Situation:
    offer = holder.offer if holder else None
    to, ends_at = (holder.pk, offer.ends_at) if holder and offer else (None, None)
    if ends_at is not None and now < ends_at:
        return Situation(plot, State.OFFERED, to, ends_at)
    proposal = next_for(plot, places, rules, spoken_for=spoken_for)
    if proposal.place is not None:
        spoken_for[proposal.place.entry.pk] = plot.pk
    if ends_at is not None:
        return Situation(plot, State.RAN_OUT, to, ends_at, proposal)
    return Situation(plot, State.NEXT if proposal.place else State.NOBODY, proposal=proposal)


def against_counts(proposal: Proposal) -> Counter[Why]:
    """Why nobody can have the plot, counted."""
    return Counter(reason.why for passed in proposal.passed for reason in passed.reasons)


# --- still interested? ---


def round_due(month_day: str, *, today: date, last_asked: date | None, oldest: date | None) -> date | None:
    """Since when the yearly question is due: its latest day, if nobody was asked since; else `None`.

    `oldest` is when the first of those who wait joined; who joined since that day is not asked yet.
    """
    due = in_year(month_day, today.year)
    if due is not None and due > today:
        due = in_year(month_day, today.year - 1)
    if due is None or oldest is None or oldest >= due or (last_asked is not None and last_asked >= due):
        return None
    return due


def may_return(*, left_on: date, today: date, days: int) -> bool:
    """Whether a place lost by silence or declining can still be given back with its date."""
    return today <= left_on + timedelta(days=days)
