"""Constraints that neither Django nor every database has of itself."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.db import DEFAULT_DB_ALIAS, models
from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.backends.ddl_references import Statement, Table
from django.db.models import Q

_EVENTS = {"insert": "INSERT", "update": "UPDATE"}
_TRIGGER = (
    "CREATE TRIGGER %(name)s AFTER %(event)s ON %(table)s WHEN EXISTS (SELECT 1 FROM %(table)s AS other"
    " WHERE other.%(of)s = NEW.%(of)s AND other.%(key)s <> NEW.%(key)s"
    " AND (NEW.%(last)s IS NULL OR other.%(first)s <= NEW.%(last)s)"
    " AND (other.%(last)s IS NULL OR other.%(last)s >= NEW.%(first)s))"
    " BEGIN SELECT RAISE(ABORT, '%(text)s'); END"
)
# Ranges of one number stand for "the same", so that no extension of PostgreSQL is needed.
_EXCLUDE = (
    "CONSTRAINT %(name)s EXCLUDE USING gist (int8range(%(of)s, %(of)s, '[]') WITH &&,"
    " daterange(%(first)s, %(last)s, '[]') WITH &&)"
)


class NoOverlap(models.BaseConstraint):
    """Of the rows that share `of`, no two have a day in common between their `first` and `last` day.

    Both days belong to the row; without a last day it goes on for ever. PostgreSQL holds this with an
    exclusion constraint. SQLite has none but lets only one connection write at a time, so that triggers hold
    it as strictly.
    """

    def __init__(self, *, of: str, first: str, last: str, **rest: Any) -> None:
        super().__init__(**rest)
        self.of, self.first, self.last = of, first, last

    def deconstruct(self) -> tuple[str, Any, dict[str, Any]]:
        path, args, kwargs = super().deconstruct()
        return path, args, {**kwargs, "of": self.of, "first": self.first, "last": self.last}

    def __eq__(self, other: object) -> bool:
        return isinstance(other, NoOverlap) and self.deconstruct() == other.deconstruct()

    def __hash__(self) -> int:
        return hash((self.name, self.of, self.first, self.last))

    def constraint_sql(
        self, model: type[models.Model] | None, schema_editor: BaseDatabaseSchemaEditor | None
    ) -> Any:
        """Part of CREATE TABLE; on SQLite triggers that follow it."""
        if schema_editor.connection.vendor == "postgresql":
            return _EXCLUDE % self._names(model, schema_editor)
        schema_editor.deferred_sql += [self._trigger(event, model, schema_editor) for event in _EVENTS]
        return None

    def create_sql(
        self, model: type[models.Model] | None, schema_editor: BaseDatabaseSchemaEditor | None
    ) -> Any:
        """For a table that is there already; SQLite makes it anew and so asks for `constraint_sql`."""
        table = Table(model._meta.db_table, schema_editor.quote_name)
        constraint = _EXCLUDE % self._names(model, schema_editor)
        return Statement("ALTER TABLE %(table)s ADD %(constraint)s", table=table, constraint=constraint)

    def remove_sql(
        self, model: type[models.Model] | None, schema_editor: BaseDatabaseSchemaEditor | None
    ) -> Any:
        table = Table(model._meta.db_table, schema_editor.quote_name)
        name = schema_editor.quote_name(self.name)
        return Statement("ALTER TABLE %(table)s DROP CONSTRAINT %(name)s", table=table, name=name)

    def validate(
        self,
        model: type[models.Model],
        instance: models.Model,
        exclude: Any = None,
        using: str = DEFAULT_DB_ALIAS,
    ) -> None:
        """The sentence for a form; only the database itself decides between two at once."""
        if exclude and {self.of, self.first, self.last} & set(exclude):
            return
        of, first, last = (getattr(instance, name) for name in (self.of, self.first, self.last))
        if of is None or first is None:
            return
        same = model._default_manager.using(using).filter(**{self.of: of}).exclude(pk=instance.pk)
        begun = Q() if last is None else Q(**{f"{self.first}__lte": last})
        still = Q(**{f"{self.last}__isnull": True}) | Q(**{f"{self.last}__gte": first})
        if same.filter(begun, still).exists():
            raise ValidationError(self.get_violation_error_message(), code=self.violation_error_code)

    def _names(self, model: Any, schema_editor: Any) -> dict[str, str]:
        columns = {
            part: model._meta.get_field(getattr(self, part)).column for part in ("of", "first", "last")
        }
        columns |= {"key": model._meta.pk.column, "name": self.name}
        return {part: schema_editor.quote_name(column) for part, column in columns.items()}

    def _trigger(self, event: str, model: Any, schema_editor: Any) -> Statement:
        names = self._names(model, schema_editor)
        names["name"] = schema_editor.quote_name(f"{self.name}_{event}")
        table = Table(model._meta.db_table, schema_editor.quote_name)
        return Statement(_TRIGGER, table=table, event=_EVENTS[event], text=self.name, **names)
