"""The step of setting a garden up that says where its frost dates come from."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_http_methods

from plots.access import garden_to_run
from plots.set_up import Step
from plots.views.set_up import step_page
from schedules import service
from schedules.wording.climate import source_text


@require_http_methods(["GET", "HEAD", "POST"])
def frost(request: HttpRequest, slug: str) -> HttpResponse:
    garden = garden_to_run(request.user, slug)
    chosen = service.chosen_climate(garden)
    return step_page(
        request, garden, Step.FROST, "schedules", chosen=chosen, source=source_text(garden, chosen)
    )
