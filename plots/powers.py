"""What the parts in a garden may do: the one table of roles and powers, without a database.

A coordinator has every power. A helper has those that a coordinator stated for them; a member has none.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum


class Power(StrEnum):
    """One thing that a helper may be trusted with, over the whole garden."""

    PLOTS = "plots"  # the map, plots, who holds them, the season turn
    PEOPLE = "people"  # the roster, invitations, sign-in links of plain members
    WAITING = "waiting"  # the waiting list and its offers
    WORKDAYS = "workdays"  # workdays, hours, dates of the season
    CARE = "care"  # care rounds and the private matters they open
    NOTICES = "notices"  # what is sent to members and hung at the gate
    MONEY = "money"  # dues
    SETTINGS = "settings"  # settings, rules, frost dates, crops of the garden


EVERY_POWER = frozenset(Power)
COORDINATOR, HELPER, MEMBER = "coordinator", "helper", "member"


def powers_of(role: str, stated: Iterable[str] = ()) -> frozenset[Power]:
    """The powers of somebody with this role for whom these are stated; other words count for nothing.

    >>> sorted(powers_of("helper", ["care", "plots", "cooking"]))
    [<Power.CARE: 'care'>, <Power.PLOTS: 'plots'>]
    >>> powers_of("member", ["care"])
    frozenset()
    """
    if role == COORDINATOR:
        return EVERY_POWER
    if role == HELPER:
        return frozenset(power for power in Power if power.value in set(stated))
    return frozenset()


def covers(role: str, stated: Iterable[str], other_role: str, other_stated: Iterable[str]) -> bool:
    """Whether the first may do all that the second may: only then may they open the second's account.

    >>> covers("helper", ["people"], "member", [])
    True
    >>> covers("helper", ["people"], "helper", ["money"])
    False
    >>> covers("helper", list(Power), "coordinator", [])
    False
    """
    if other_role == COORDINATOR:
        return role == COORDINATOR
    mine, theirs = powers_of(role, stated), powers_of(other_role, other_stated)
    return Power.PEOPLE in mine and theirs <= mine and (role != MEMBER)
