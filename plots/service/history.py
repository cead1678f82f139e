"""Keeping what was changed: called inside the transaction that makes the change."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

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
    """Keeps what differs between `before` (see `fields_of`) and the row as it is now; `None` if nothing does."""
    now = fields_of(about, before)
    changed = [name for name in before if before[name] != now[name]]
    if not changed:
        return None
    old, new = ({name: values[name] for name in changed} for values in (before, now))
    return record(garden=garden, by=by, about=about, what=what, before=old, after=new, why=why)


def _kept(values: Mapping[str, object]) -> dict[str, object]:
    return {name: _value(value) for name, value in values.items()}


def _value(value: Any) -> object:
    if isinstance(value, Model):
        return {"pk": value.pk, "name": str(value)}
    if isinstance(value, list | tuple | set | frozenset):
        return [_value(item) for item in value]
    return value
