"""A card that brings one member in."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.utils.text import slugify
from django.utils.translation import get_language
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from plots import access
from plots.powers import Power
from schedules.service.print_table.people_sheets import cards_for
from schedules.service.print_table.table import Asked
from schedules.views.paper import paper


@require_POST
def invitation_card(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Makes a link for one member and prints it; a link is a secret, so it is never made by only looking."""
    from schedules.reports.setting import to_pdf  # lazy: reportlab

    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    membership = access.person_to_change(request.user, garden, pk)
    asked = Asked(
        garden=garden,
        user=request.user,
        today=garden.today(),
        paper=garden.paper,
        language=get_language() or "en",
    )
    document = cards_for(asked, _("A card to come in with"), [membership])
    return paper(to_pdf(document), f"{membership.garden.slug}-card-{slugify(membership.user.sign_in_name)}")
