"""Households: who belongs together, and how many plots they hold against what the rules allow."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date

from plots.models import Assignment, Garden, Membership
from plots.spelling import name_key, natural_key

ABOVE, AT, BELOW, NONE = "above", "at", "below", "none"


@dataclass(frozen=True, slots=True)
class HouseholdRow:
    """Members who count as one household; somebody without a household is one alone."""

    name: str
    members: tuple[Membership, ...]
    plots: tuple[str, ...]  # held today or agreed for later, by their labels
    allowed: int
    together: bool

    @property
    def state(self) -> str:
        """How the plots stand to what is allowed."""
        if not self.plots:
            return NONE
        held = len(self.plots)
        return ABOVE if held > self.allowed else AT if held == self.allowed else BELOW


def households_of(garden: Garden, *, today: date) -> list[HouseholdRow]:
    """Every household with a member who can sign in, by name, those alone under their own."""
    members = garden.memberships.filter(user__is_active=True).select_related("user", "household")
    grouped: defaultdict[tuple[str, int], list[Membership]] = defaultdict(list)
    for member in sorted(members, key=lambda one: (name_key(one.user.name), one.pk)):
        alone = member.household_id is None
        grouped["alone" if alone else "household", member.pk if alone else member.household_id].append(member)
    held: defaultdict[int, set[str]] = defaultdict(set)
    standing = Assignment.objects.standing(today).filter(plot__garden=garden)
    for holder, label in standing.values_list("holder", "plot__label"):
        held[holder].add(label)
    allowed = garden.rules.plots_per_household
    rows = [_row(kind == "household", people, held, allowed) for (kind, _pk), people in grouped.items()]
    return sorted(rows, key=lambda row: name_key(row.name))


def _row(
    together: bool, people: list[Membership], held: defaultdict[int, set[str]], allowed: int
) -> HouseholdRow:
    first = people[0]
    labels = set().union(*(held[member.user_id] for member in people))
    return HouseholdRow(
        name=str(first.household) if together else first.user.name,
        members=tuple(people),
        plots=tuple(sorted(labels, key=natural_key)),
        allowed=allowed,
        together=together,
    )
