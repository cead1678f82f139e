"""The step of setting a garden up that says where its frost dates come from."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse

from plots.access import garden_to_run
from plots.set_up import Step
from plots.views.answers import page_with_form
from plots.views.set_up import step_page
from schedules import service
from schedules.wording.climate import source_text


@page_with_form
def frost(request: HttpRequest, slug: str) -> HttpResponse:
    garden = garden_to_run(request.user, slug)
    chosen = service.chosen_climate(garden)
    return step_page(
        request, garden, Step.FROST, "schedules", chosen=chosen, source=source_text(garden, chosen)
    )
