"""Everything kept about a person, for that person: one table a kind, as CSV in one archive, and their photos.

A row is about a person when it points at them in any column but one that says who did something (`by`,
`decided_by` …): those rows are about somebody else. Kinds added later come along by themselves.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from tempfile import SpooledTemporaryFile
from typing import IO

from django.apps import apps
from django.core.files.storage import default_storage
from django.db.models import ForeignKey, ManyToManyField, Model, Q
from django.utils.text import slugify

from plots.csv_out import csv_text
from plots.models import User
from schedules.models import LogPhoto

APPS = ("plots", "crops", "schedules")
# Secrets, and counts that protect accounts.
NEVER = frozenset({"plots.signinlink", "plots.signinfailure"})
# Kinds that belong to whoever made them.
MADE_BY = {
    "crops.planting": "made_by",
    "schedules.logphoto": "made_by",
    "schedules.printing": "made_by",
    "schedules.sighting": "log__person",
    "schedules.treatment": "log__person",
}
# Secrets, what the larger picture shows already, and the files and readers of printed sheets.
_LEFT_OUT = frozenset({"password", "token", "token_hash", "thumb", "file", "members"})
_IN_MEMORY = 5_000_000  # bytes; a season's photos go by way of a file


def archive_of(person: User) -> IO[bytes]:
    """A ZIP with a CSV for each kind of which there is something, and the photos that the person took."""
    out = SpooledTemporaryFile(max_size=_IN_MEMORY)  # noqa: SIM115 - whoever sends it closes it
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("account.csv", _table([person]))
        for name, rows in tables_about(person):
            archive.writestr(f"{name}.csv", _table(rows))
        _add_photos(archive, person)
    out.seek(0)
    return out


def _add_photos(archive: zipfile.ZipFile, person: User) -> None:
    """Each picture once, under the name that the table of photos says."""
    mine = LogPhoto.objects.filter(made_by=person)
    for name in sorted(set(mine.values_list("image", flat=True))):
        if default_storage.exists(name):
            with default_storage.open(name) as picture:
                archive.writestr(f"photos/{name}", picture.read(), zipfile.ZIP_STORED)


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
    fields = [field for field in rows[0]._meta.concrete_fields if field.name not in _LEFT_OUT]
    titles = [str(field.verbose_name) for field in fields]
    return csv_text(titles, [[_value(row, field) for field in fields] for row in rows])


def _value(row: Model, field: object) -> object:
    value = getattr(row, field.name)  # type: ignore[attr-defined]
    return str(value) if isinstance(value, Model) else value
