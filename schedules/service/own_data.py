"""Everything kept about a person, for that person: one table a kind, as CSV in one archive.

A row is about a person when it points at them in any column but one that says who did something (`by`,
`decided_by` …): those rows are about somebody else. Kinds added later come along by themselves.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from io import BytesIO

from django.apps import apps
from django.db.models import ForeignKey, ManyToManyField, Model, Q
from django.utils.text import slugify

from plots.csv_out import csv_text
from plots.models import User

APPS = ("plots", "crops", "schedules")
# Secrets, and counts that protect accounts.
NEVER = frozenset({"plots.signinlink", "plots.signinfailure"})
# Kinds that belong to whoever made them.
MADE_BY = {"crops.planting": "made_by"}
_SECRET_FIELDS = frozenset({"password", "token", "token_hash"})


def archive_of(person: User) -> bytes:
    """A ZIP with a CSV for each kind of which there is something."""
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("account.csv", _table([person]))
        for name, rows in tables_about(person):
            archive.writestr(f"{name}.csv", _table(rows))
    return out.getvalue()


def tables_about(person: User) -> Iterator[tuple[str, list[Model]]]:
    """Each kind of row about the person, by its name."""
    for app in APPS:
        for model in apps.get_app_config(app).get_models():
            names = ways_to_a_person(model)
            if not names:
                continue
            about = Q()
            for name in names:
                about |= Q(**{name: person})
            rows = list(model._default_manager.filter(about).distinct().order_by("pk"))
            if rows:
                yield slugify(str(model._meta.verbose_name_plural)), rows


def ways_to_a_person(model: type[Model]) -> list[str]:
    """The columns of a kind of row that say whom it is about."""
    label = model._meta.label_lower
    if label in NEVER:
        return []
    if label in MADE_BY:
        return [MADE_BY[label]]
    fields = (*model._meta.concrete_fields, *model._meta.many_to_many)
    return [
        field.name
        for field in fields
        if isinstance(field, ForeignKey | ManyToManyField)
        and field.related_model is User
        and not f"_{field.name}".endswith("_by")
    ]


def _table(rows: list[Model]) -> str:
    fields = [field for field in rows[0]._meta.concrete_fields if field.name not in _SECRET_FIELDS]
    titles = [str(field.verbose_name) for field in fields]
    return csv_text(titles, [[_value(row, field) for field in fields] for row in rows])


def _value(row: Model, field: object) -> object:
    value = getattr(row, field.name)  # type: ignore[attr-defined]
    return str(value) if isinstance(value, Model) else value
