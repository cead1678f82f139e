"""A person's own data, to take along."""

from __future__ import annotations

from django.http import FileResponse, HttpRequest, HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from schedules.service.own_data import archive_of


@never_cache
@require_safe
def own_data(request: HttpRequest) -> HttpResponse:
    """Everything kept about whoever asks, as tables in one archive."""
    return FileResponse(
        archive_of(request.user),
        as_attachment=True,
        filename="trugbook-about-me.zip",
        content_type="application/zip",
    )
