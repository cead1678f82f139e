"""The hand-over: what is open, and the pack for who takes over."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from plots import access, queries


@require_safe
def pack(request: HttpRequest, slug: str) -> HttpResponse:
    """What waits for a person, part by part, and the way to the printed pack."""
    garden = access.garden_to_run(request.user, slug)
    matters = queries.open_matters(garden, today=garden.today())
    return render(request, "schedules/hand_over_pack.html", {"garden": garden, "matters": matters})
