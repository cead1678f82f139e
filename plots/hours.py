"""Hours of work for the garden: what is owed by its rule, what is done, what is left. Times are minutes.

Shares of days are rounded down to the rule's step, in favour of who owes. Why somebody is excused is neither
asked nor known here.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from plots.quantities import QuantityError, parse_number

HOUR, DAY = 60, 24 * 60


class OwedBy(StrEnum):
    """What hours are counted by."""

    MEMBER = "member"  # each person who holds or shares a plot
    HOUSEHOLD = "household"  # people who share a plot, together, however many plots
    PLOT = "plot"  # the people on a plot together, for each plot


class State(StrEnum):
    """Where somebody stands."""

    NONE = "none"  # owes nothing
    DONE = "done"
    OPEN = "open"
    OVERDUE = "overdue"


@dataclass(frozen=True, slots=True)
class HoursRule:
    """A season's rule: `minutes` owed by each until `due`; `step` is what shares are rounded down to."""

    minutes: int
    by: OwedBy
    prorata: bool
    step: int
    first: date
    last: date
    due: date


@dataclass(frozen=True, slots=True)
class Tenure:
    """That these people (the holder first) have a plot in the season, from day to day, both counted."""

    key: int
    plot: int
    people: tuple[int, ...]
    began: date
    until: date | None = None


@dataclass(frozen=True, slots=True)
class Worked:
    """Time that somebody worked."""

    person: int
    minutes: int
    day: date


@dataclass(frozen=True, slots=True)
class Reason:
    """Why so much is owed: a code, and the plain numbers and days that it is about."""

    code: str
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Standing:
    """What `people` together owe and did; `tenures` are the plots it is about."""

    people: tuple[int, ...]
    tenures: tuple[int, ...]
    owed: int
    done: int
    due: date
    reasons: tuple[Reason, ...]
    has_left: bool = False

    @property
    def left(self) -> int:
        return max(0, self.owed - self.done)

    def state(self, today: date) -> State:
        if not self.owed:
            return State.NONE
        if not self.left:
            return State.DONE
        return State.OVERDUE if today > self.due else State.OPEN


def standings(
    rule: HoursRule,
    tenures: Iterable[Tenure],
    worked: Iterable[Worked],
    excused: Mapping[int, int | None],
    *,
    today: date,
    households: Mapping[int, int] | None = None,
) -> list[Standing]:
    """Where everybody stands who owes or worked; `excused` gives minutes by person, `None` for all of them.

    `households` says by person which household they were put into, besides sharing plots. Work counts from
    the first to the last day of the season, whoever did it for those who owe together.
    """
    held = [tenure for tenure in tenures if _touches(tenure, rule)]
    minutes = _minutes_in(rule, worked)
    groups = _groups(rule.by, held, households or {})
    shares = _work_by_group(groups, minutes)
    found = [_standing(rule, group, done, excused, today) for group, done in zip(groups, shares, strict=True)]
    owing = {person for group in groups for tenure in group for person in tenure.people}
    others = [
        Standing((person,), (), 0, done, rule.due, (Reason("holds-nothing"),))
        for person, done in minutes.items()
        if person not in owing
    ]
    return found + others


def _touches(tenure: Tenure, rule: HoursRule) -> bool:
    return tenure.began <= rule.last and (tenure.until is None or tenure.until >= rule.first)


def _minutes_in(rule: HoursRule, worked: Iterable[Worked]) -> dict[int, int]:
    minutes: dict[int, int] = defaultdict(int)
    for one in worked:
        if rule.first <= one.day <= rule.last:
            minutes[one.person] += one.minutes
    return minutes


def _groups(by: OwedBy, held: Sequence[Tenure], households: Mapping[int, int]) -> list[list[Tenure]]:
    """The tenures that owe together; for members each person's own, seen as theirs alone."""
    if by is OwedBy.PLOT:
        return [[tenure] for tenure in held]
    if by is OwedBy.MEMBER:
        own: dict[int, list[Tenure]] = defaultdict(list)
        for tenure in held:
            for person in tenure.people:
                own[person].append(Tenure(tenure.key, tenure.plot, (person,), tenure.began, tenure.until))
        return list(own.values())
    return _households(held, households)


def _households(held: Sequence[Tenure], households: Mapping[int, int]) -> list[list[Tenure]]:
    """Tenures joined wherever they have a person or a household in common."""
    leads: dict[tuple[str, int], tuple[str, int]] = {}

    def lead(tie: tuple[str, int]) -> tuple[str, int]:
        while (above := leads.setdefault(tie, tie)) != tie:
            leads[tie] = leads[above]  # shortens the way for whoever asks next
            tie = above
        return tie

    for tenure in held:
        first = lead(("person", tenure.people[0]))
        for person in tenure.people:
            leads[lead(("person", person))] = first
            if person in households:
                leads[lead(("household", households[person]))] = first
    found: dict[tuple[str, int], list[Tenure]] = defaultdict(list)
    for tenure in held:
        found[lead(("person", tenure.people[0]))].append(tenure)
    return list(found.values())


def _work_by_group(groups: Sequence[Sequence[Tenure]], minutes: Mapping[int, int]) -> list[int]:
    """Each group's minutes. Who belongs to several plots gives to that with the fewest so far.

    People with one plot come first, so that nobody's work is spent where others have done enough already.
    """
    places: dict[int, list[int]] = defaultdict(list)
    for place, group in enumerate(groups):
        for person in dict.fromkeys(person for tenure in group for person in tenure.people):
            places[person].append(place)
    done = [0] * len(groups)
    for person in sorted(places, key=lambda one: len(places[one])):
        _spread(done, places[person], minutes.get(person, 0))
    return done


def _spread(done: list[int], places: Sequence[int], minutes: int) -> None:
    """Fills the emptiest of these places first, until all of them stand level."""
    for level_of in range(1, len(places) + 1):
        lowest = sorted(places, key=lambda place: done[place])[:level_of]
        room = DAY * 366 if level_of == len(places) else done[sorted(places, key=done.__getitem__)[level_of]]
        given = min(minutes, sum(max(0, room - done[place]) for place in lowest))
        for n, place in enumerate(lowest):
            done[place] += given // level_of + (n < given % level_of)
        minutes -= given


def _standing(
    rule: HoursRule, group: Sequence[Tenure], done: int, excused: Mapping[int, int | None], today: date
) -> Standing:
    people = tuple(dict.fromkeys(person for tenure in group for person in tenure.people))
    began = max(rule.first, min(tenure.began for tenure in group))
    until = min(rule.last, max(tenure.until or rule.last for tenure in group))
    has_left = until < rule.last and until < today
    reasons = [Reason(f"each-{rule.by}", {"minutes": rule.minutes})]
    owed = rule.minutes
    if rule.prorata and (began > rule.first or until < rule.last):
        days, whole = (until - began).days + 1, (rule.last - rule.first).days + 1
        owed = rule.minutes * days // whole // rule.step * rule.step
        reasons.append(Reason("share", {"days": days, "of": whole, "minutes": owed}))
    elif has_left:
        owed = 0
        reasons.append(Reason("left", {"on": until}))
    for person in people:
        if owed and person in excused:
            off = excused[person]
            less = owed if off is None else min(off, owed)
            owed -= less
            reasons.append(Reason("excused", {"person": person, "minutes": less}))
    return Standing(
        people, tuple(tenure.key for tenure in group), owed, done, rule.due, tuple(reasons), has_left
    )


class HoursError(ValueError):
    """What was typed cannot be read as a time worked."""


_CLOCK = r"(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm)?"
_FROM_TO = re.compile(rf"{_CLOCK}\s*(?:-|–|to)\s*{_CLOCK}", re.IGNORECASE)
_HOURS_MINUTES = re.compile(r"(\d{1,2})\s*(?::|h)\s*(\d{1,2})\s*(?:m|min)?", re.IGNORECASE)
_MINUTES = re.compile(r"(\d{1,4})\s*(?:m|min)\.?", re.IGNORECASE)
_HOURS = re.compile(r"(.+?)\s*(?:h|hr|hrs|hour|hours)\.?", re.IGNORECASE)


def parse_minutes(text: str, *, most: int = DAY) -> int:
    """Minutes of a time worked: hours as `2.5`, `2,5`, `1 1/2`, `2:30`, `2 h 30`, `45 min`, or `9-11:30`.

    Raises `HoursError` for anything else, for nothing and for more than `most`, usually a day.

    >>> [parse_minutes(text) for text in ("2.5", "2 1/2", "2:30", "2h30", "150 min", "9:30-12", "11-1:30")]
    [150, 150, 150, 150, 150, 150, 150]
    """
    typed = " ".join(text.split())
    if len(typed) > 40:
        raise HoursError(text)
    minutes = _parsed(typed)
    if minutes is None or not 0 < minutes <= most:
        raise HoursError(text)
    return minutes


def _parsed(typed: str) -> int | None:
    if found := _FROM_TO.fullmatch(typed):
        start, end = _clock(*found.groups()[:3]), _clock(*found.groups()[3:])
        if start is None or end is None:
            return None
        # "11-1:30" crosses noon on a clock of twelve hours.
        return end - start if end > start else end + DAY // 2 - start
    if found := _HOURS_MINUTES.fullmatch(typed):
        hours, minutes = int(found[1]), int(found[2])
        return hours * HOUR + minutes if minutes < HOUR else None
    if found := _MINUTES.fullmatch(typed):
        return int(found[1])
    number = found[1] if (found := _HOURS.fullmatch(typed)) else typed
    try:
        return round(parse_number(number) * HOUR)
    except (QuantityError, OverflowError):
        return None


def _clock(hour: str, minute: str | None, half: str | None) -> int | None:
    """Minutes since midnight."""
    hours, minutes = int(hour), int(minute or 0)
    if hours > 24 or minutes >= HOUR or (half and not 1 <= hours <= 12):
        return None
    if half:
        hours = hours % 12 + (12 if half.lower() == "pm" else 0)
    return hours * HOUR + minutes
