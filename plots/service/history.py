"""Keeping what was changed: called inside the transaction that makes the change."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.db.models import Model

from plots.models import Change, Garden, User


def record(
    *,
    garden: Garden,
    by: User | None,
    about: Model,
    what: str,
    before: Mapping[str, object] | None = None,
    after: Mapping[str, object] | None = None,
    why: str = "",
    by_name: str = "",
) -> Change:
    """Keeps one change of `about`; `before` and `after` give the changed fields alone.

    A person or another row among the values is kept with its key and its name of today. `by` is `None` for
    somebody without an account (who answered an offer by its link); then `by_name` says who.
    """
    return Change.objects.create(
        garden=garden,
        about_model=about._meta.label_lower,
        about_pk=about.pk,
        about_name=str(about)[:200],
        what=what,
        before=_kept(before or {}),
        after=_kept(after or {}),
        why=why.strip(),
        by=by,
        by_name=(by_name or str(by or ""))[:120],
    )


def fields_of(row: Model, names: Iterable[str]) -> dict[str, object]:
    """The row's values of these fields: what `before` is made of."""
    return {name: getattr(row, name) for name in names}


def record_fields(
    *, garden: Garden, by: User | None, about: Model, what: str, before: Mapping[str, object], why: str = ""
) -> Change | None:
    """Keeps what differs between `before` (see `fields_of`) and the row now; `None` if nothing does."""
    now = fields_of(about, before)
    changed = [name for name in before if before[name] != now[name]]
    if not changed:
        return None
    old, new = ({name: values[name] for name in changed} for values in (before, now))
    return record(garden=garden, by=by, about=about, what=what, before=old, after=new, why=why)


@transaction.atomic
def save_changes(*, garden: Garden, by: User | None, row: Model, what: str, why: str = "") -> Change | None:
    """Saves a row that is there already, and keeps which of its fields this changes."""
    former = type(row)._default_manager.select_for_update().get(pk=row.pk)
    names = [field.name for field in row._meta.concrete_fields if not field.primary_key]
    row.save()
    row.refresh_from_db(fields=names)  # as the database has it: a 4 is 4.00 there
    return record_fields(garden=garden, by=by, about=row, what=what, before=fields_of(former, names), why=why)


def _kept(values: Mapping[str, object]) -> dict[str, object]:
    return {name: kept(value) for name, value in values.items()}


def kept(value: Any) -> Any:
    """The value as JSON gives it back: dates as ISO 8601, a row as its key and its name of today."""
    if isinstance(value, Model):
        return {"pk": value.pk, "name": str(value)}
    if isinstance(value, list | tuple | set | frozenset):
        return [kept(item) for item in value]
    if value is None or isinstance(value, bool | int | float | str):
        return value
    if isinstance(value, Decimal):
        return format(value.normalize(), "f")  # 8 and 8.00 are the same hours
    return value.isoformat() if isinstance(value, date) else str(value)
