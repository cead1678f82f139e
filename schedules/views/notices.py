"""A notice on paper for the gate."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_safe

from plots import access
from plots.powers import Power
from schedules.views.paper import head_of, paper


@require_safe
def gate_notice_pdf(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    from schedules.reports.gate_notice import gate_notice_pdf  # lazy: reportlab

    garden = access.garden_to_run(request.user, slug, Power.NOTICES)
    notice = get_object_or_404(garden.notices, pk=pk)
    head = head_of(garden, notice.subject, subtitle=garden.name)
    return paper(gate_notice_pdf(head, notice.body), notice.subject)
