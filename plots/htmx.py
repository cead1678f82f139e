"""A page, or the part of it that htmx asks for; the only code that knows htmx's headers."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.cache import patch_vary_headers


def part_or_page(request: HttpRequest, part: str, page: str, context: dict[str, Any]) -> HttpResponse:
    """Renders the template of the part for htmx, and that of the page for everybody else.

    Going back to an address that htmx has left asks for the whole page again, though htmx asks.
    """
    htmx = request.htmx  # type: ignore[attr-defined]
    response = render(request, part if htmx and not htmx.history_restore_request else page, context)
    patch_vary_headers(response, ("HX-Request", "HX-History-Restore-Request"))
    return response
