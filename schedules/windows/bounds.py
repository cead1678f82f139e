"""Weighing the bounds that several rules put on one edge, in day numbers of `schedules.seasons`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from schedules.windows.types import Edge, Reason


@dataclass(frozen=True, slots=True)
class Bound:
    """The day a rule allows, with the rule's code and the values it used."""

    day: int
    code: str
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Span:
    """Earliest, best and latest day number of the operation that begins a planting, with their reasons."""

    earliest: int
    best: int
    latest: int
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class NoSpan:
    """Why a planting cannot begin at all in a turn."""

    reasons: tuple[Reason, ...]


def earliest_allowed(bounds: Iterable[Bound]) -> tuple[int, tuple[Reason, ...]]:
    """The latest of the bounds on an earliest day; the reasons, the decisive one first."""
    return _weigh(bounds, Edge.EARLIEST, max)


def latest_allowed(bounds: Iterable[Bound]) -> tuple[int, tuple[Reason, ...]]:
    """The earliest of the bounds on a latest day; the reasons, the decisive one first."""
    return _weigh(bounds, Edge.LATEST, min)


def _weigh(
    bounds: Iterable[Bound], edge: Edge, choose: Callable[[Iterable[int]], int]
) -> tuple[int, tuple[Reason, ...]]:
    weighed = tuple(bounds)
    day = choose(bound.day for bound in weighed)
    decisive = next(bound for bound in weighed if bound.day == day)
    ordered = (decisive, *(bound for bound in weighed if bound is not decisive))
    return day, tuple(Reason(bound.code, edge, bound is decisive, bound.values) for bound in ordered)


def nothing_between(earliest: tuple[date, Reason], latest: tuple[date, Reason]) -> tuple[Reason, ...]:
    """Why there is no window: two edges that leave no day, then what set the one and the other."""
    left = Reason("no-day-left", Edge.NONE, True, {"earliest": earliest[0], "latest": latest[0]})
    set_by = (Reason(why.code, Edge.NONE, True, why.values) for _day, why in (earliest, latest))
    return left, *set_by


def no_span(code: str, **values: object) -> NoSpan:
    """A single reason for not planting at all."""
    return NoSpan((Reason(code, Edge.NONE, True, values),))
