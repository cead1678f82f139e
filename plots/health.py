"""Two addresses for whatever watches over the installation."""

from __future__ import annotations

import os

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe


@login_not_required
@never_cache
@require_safe
def live(request: HttpRequest) -> HttpResponse:
    """The process answers; it does not ask the database, whose failure a restart would not mend."""
    return HttpResponse("live\n", content_type="text/plain; charset=utf-8")


@login_not_required
@never_cache
@require_safe
def ready(request: HttpRequest) -> HttpResponse:
    """The database answers and is up to date, the data folder can be written; else 503 and what is wrong."""
    wrong = database_trouble()
    if not os.access(settings.DATA_DIR, os.W_OK):
        wrong.append("the data folder cannot be written")
    text = "ready\n" if not wrong else "not ready: " + "; ".join(wrong) + "\n"
    return HttpResponse(text, content_type="text/plain; charset=utf-8", status=503 if wrong else 200)


def database_trouble() -> list[str]:
    """What is wrong with the database, in words; nothing where all is well."""
    try:
        executor = MigrationExecutor(connection)
        behind = executor.migration_plan(executor.loader.graph.leaf_nodes())
    except DatabaseError:
        return ["the database does not answer"]
    return ["migrations have not been applied"] if behind else []
