"""The hand-over: what is open, and the pack for who takes over."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from plots import access, queries
from schedules.service.hand_over import hand_over_pack
from schedules.views.paper import head_of, paper


@require_safe
def pack(request: HttpRequest, slug: str) -> HttpResponse:
    """What waits for a person, part by part, and the way to the printed pack."""
    garden = access.garden_to_run(request.user, slug)
    matters = queries.open_matters(garden, today=garden.today())
    return render(request, "schedules/hand_over_pack.html", {"garden": garden, "matters": matters})


@require_safe
def pack_pdf(request: HttpRequest, slug: str) -> HttpResponse:
    from schedules.reports.hand_over import hand_over_pdf  # lazy: reportlab

    garden = access.garden_to_run(request.user, slug)
    note = _("Holds names and telephone numbers: for coordinators only.")
    head = head_of(garden, _("Hand-over"), subtitle=garden.name, note=note)
    return paper(hand_over_pdf(head, hand_over_pack(garden)), f"hand-over-{slug}")
