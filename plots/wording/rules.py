"""A garden's rules in words."""

from __future__ import annotations

from dataclasses import dataclass

from django.db import models
from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.models import BLOCKS, GardenRules
from plots.models.fields import MonthDayField
from plots.month_days import parse_month_day
from plots.wording.days import month_day_text
from plots.wording.quantities import number_text

BLOCK_TITLES: dict[str, Promise] = {
    "plots": gettext_lazy("Plots and households"),
    "waiting": gettext_lazy("Waiting list"),
    "season": gettext_lazy("Season turn and dues"),
    "dates": gettext_lazy("Dates of the year"),
    "hours": gettext_lazy("Workdays and hours"),
    "care": gettext_lazy("Care rounds"),
    "roster": gettext_lazy("Roster and letters"),
}


@dataclass(frozen=True)
class RuleText:
    label: str
    value: str


@dataclass(frozen=True)
class BlockText:
    block: str
    title: str
    rules: tuple[RuleText, ...]


def block_title(block: str) -> str:
    return str(BLOCK_TITLES[block])


def rules_in_words(rules: GardenRules) -> list[BlockText]:
    """Every rule of the garden, block by block, as its members may read them."""
    return [
        BlockText(
            block,
            block_title(block),
            tuple(
                RuleText(capfirst(str(column.verbose_name)), _value(rules, column))
                for column in BLOCKS[block]._meta.local_fields
            ),
        )
        for block in BLOCKS
    ]


def _value(rules: GardenRules, column: models.Field) -> str:
    value = getattr(rules, column.name)
    if value is None or value == "":
        return _("not set")
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if column.choices:
        return str(getattr(rules, f"get_{column.name}_display")())
    if isinstance(column, MonthDayField):
        day = parse_month_day(value)
        return month_day_text(day) if day else str(value)
    if isinstance(value, str):
        return " · ".join(line.strip() for line in value.splitlines() if line.strip())
    text = number_text(float(value))
    return f"{rules.currency}{text}" if column.name.startswith("dues_per_") else text
