"""What was changed, in words: the sentence of each change and its values as people read them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from django.apps import apps
from django.db import models
from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.models import Change, Role
from plots.models.fields import MonthDayField
from plots.month_days import parse_month_day
from plots.powers import Power
from plots.quantities import Quantity
from plots.wording.days import month_day_text
from plots.wording.powers import POWER_WORDS
from plots.wording.quantities import quantity_text

# What `record` is called with: one line a code, each part of the program under its own heading.
WHAT: dict[str, Promise] = {
    # the garden and its rules
    "garden-made": gettext_lazy("The garden was made"),
    "settings-changed": gettext_lazy("Settings were changed"),
    "rules-changed": gettext_lazy("Rules were changed"),
    "season-made": gettext_lazy("A season was added"),
    "season-changed": gettext_lazy("The season was changed"),
    # people
    "member-joined": gettext_lazy("Became a member"),
    "member-left": gettext_lazy("The membership ended"),
    "role-changed": gettext_lazy("The part in the garden was changed"),
    "person-changed": gettext_lazy("Name or addresses were changed"),
}

# Labels of values that are no field of the thing they are about.
LABELS: dict[str, Promise] = {
    "role": gettext_lazy("part"),
    "powers": gettext_lazy("powers"),
    "holder": gettext_lazy("held by"),
    "co_gardeners": gettext_lazy("co-gardeners"),
    "season": gettext_lazy("season"),
    "began_on": gettext_lazy("from"),
    "ended_on": gettext_lazy("until"),
}


@dataclass(frozen=True)
class Line:
    """One changed value: empty texts where there was none."""

    label: str
    before: str
    after: str


@dataclass(frozen=True)
class Told:
    """A change as the page shows it; `at` is the hour at the garden."""

    pk: int
    at: str
    moment: datetime
    by: str
    about: str
    what: str
    why: str
    lines: tuple[Line, ...]
    code: str
    undoes: bool
    undone: bool
    undoable: bool = False


def tell(change: Change, *, undoable: bool = False) -> Told:
    """The change in words. The row needs `garden` and `undone_by` at hand, or asks for them."""
    names = [*change.before, *(name for name in change.after if name not in change.before)]
    field_of = _fields(change.about_model)
    lines = [
        Line(
            _label(name, field_of.get(name)),
            _text(change.before.get(name), name, field_of.get(name), change.garden.units),
            _text(change.after.get(name), name, field_of.get(name), change.garden.units),
        )
        for name in names
    ]
    moment = change.at.astimezone(change.garden.zone).replace(tzinfo=None)
    return Told(
        pk=change.pk,
        at=date_format(moment, "DATETIME_FORMAT"),
        moment=moment,
        by=change.by_name or _("somebody whose account is gone"),
        about=change.about_name,
        what=what_text(change.what),
        why=change.why,
        lines=tuple(lines),
        code=change.what,
        undoes=change.undoes_id is not None,
        undone=hasattr(change, "undone_by"),
        undoable=undoable,
    )


def what_text(code: str) -> str:
    return str(WHAT.get(code, code))


def _fields(label: str) -> Mapping[str, models.Field]:
    try:
        return {field.name: field for field in apps.get_model(label)._meta.concrete_fields}
    except LookupError:  # a model of an earlier version
        return {}


def _label(name: str, field: models.Field | None) -> str:
    if field is not None:
        return str(field.verbose_name)
    return str(LABELS.get(name, name.replace("_", " ")))


def _text(value: object, name: str, field: models.Field | None, units: str) -> str:
    if value is None or value == "" or value == []:
        return ""
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, dict):
        return str(value.get("name", ""))
    if isinstance(value, list):
        return ", ".join(_text(item, name, field, units) for item in value)
    if name == "powers":
        return str(POWER_WORDS[Power(value)]) if value in list(Power) else str(value)
    if name == "role":
        return str(Role(value).label) if value in Role.values else str(value)
    if field is not None and field.choices:
        return str(dict(field.flatchoices).get(value, value))
    if name.endswith("_m") and isinstance(value, int | float):
        return quantity_text(float(value), Quantity.LENGTH, units)
    return _day(value, field)


def _day(value: object, field: models.Field | None) -> str:
    text = str(value)
    if isinstance(field, MonthDayField) and (day := parse_month_day(text)):
        return month_day_text(day)
    if len(text) == 10 and text[4:5] == text[7:8] == "-":
        try:
            return date_format(date.fromisoformat(text))
        except ValueError:
            return text
    return text
