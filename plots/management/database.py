"""For commands that need the database: one sentence where it is not ready, instead of a traceback."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.management.base import CommandError
from django.db import OperationalError, ProgrammingError

from plots.health import database_trouble


class NeedsDatabase:
    """Stands before the command's own base class."""

    def execute(self, *args: Any, **options: Any) -> Any:
        """Runs the command; raises `CommandError` where the database is silent or was never migrated."""
        try:
            return super().execute(*args, **options)  # type: ignore[misc]
        except (OperationalError, ProgrammingError):
            trouble = database_trouble()
            if not trouble:
                raise
            said = trouble[0][:1].upper() + trouble[0][1:]
            raise CommandError(
                f"{said}, with DATA_DIR {settings.DATA_DIR}. A command wants the settings of the service; "
                "a new installation wants: python3 manage.py migrate"
            ) from None
