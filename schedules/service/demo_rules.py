"""The demonstration's rules: what a meeting decided, and one change that was taken back."""

from __future__ import annotations

from plots.models import Garden, GardenRules, User
from plots.service import save_changes, undo


def decide_rules(garden: Garden, coordinator: User) -> None:
    """Leaves a history behind, and every number that other parts count by as it was."""
    rules = GardenRules.objects.get(garden=garden)
    rules.start_within_days = 21
    save_changes(
        garden=garden, by=coordinator, row=rules, what="rules-changed",
        why="Decided at the autumn meeting: April is often too wet to dig.",
    )  # fmt: skip
    rules.appeal_days = 7
    hasty = save_changes(garden=garden, by=coordinator, row=rules, what="rules-changed")
    if hasty:
        undo(change=hasty, by=coordinator)
    garden.rules.refresh_from_db()
