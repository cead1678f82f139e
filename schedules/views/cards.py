"""Cards that bring people in, and the emergency sheet."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.models import Membership
from plots.powers import Power
from schedules.views.paper import head_of, paper

if TYPE_CHECKING:
    from schedules.reports.cards import Card


@require_POST
def invitation_card(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Makes a link for one member and prints it; a link is a secret, so it is never made by only looking."""
    from schedules.reports.cards import cards_pdf  # lazy: reportlab

    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    membership = access.person_to_change(request.user, garden, pk)
    head = head_of(garden, _("A card to come in with"))
    return paper(cards_pdf(head, [_card(membership)]), f"card-{membership.user.sign_in_name}")


@require_POST
def invitation_cards(request: HttpRequest, slug: str) -> HttpResponse:
    """A card for each member who never signed in and whose account the asker may open."""
    from schedules.reports.cards import cards_pdf  # lazy: reportlab

    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    waiting = queries.members_of(garden).filter(user__last_login=None).select_related("garden__rules")
    cards = [_card(one) for one in waiting if access.may_change_person(request.user, one)]
    return paper(cards_pdf(head_of(garden, _("Cards to come in with")), cards), f"cards-{slug}")


def _card(membership: Membership) -> Card:
    from schedules.reports.cards import Card  # lazy: reportlab

    garden = membership.garden
    link = service.invite(garden=garden, person=membership.user, on_card=True)
    until = garden.today() + timedelta(days=garden.rules.card_days)
    return Card(membership.user.name, link, until)


@require_safe
def emergency_sheet(request: HttpRequest, slug: str) -> HttpResponse:
    """Whom members want called, for the sealed envelope in the shed."""
    from schedules.reports.emergency import EmergencyRow, emergency_pdf  # lazy: reportlab

    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    roster = queries.roster_of(garden, keeper=True, today=garden.today())
    named = [row for row in roster if row.membership.emergency_name or row.membership.emergency_phone]
    rows = [
        EmergencyRow(
            name=row.name,
            plots=", ".join(row.labels),
            call=row.membership.emergency_name,
            phone=row.membership.emergency_phone,
        )
        for row in named
    ]
    note = _("Keep it sealed in the shed; open it only in an emergency.")
    head = head_of(garden, _("Emergency sheet"), note=note)
    return paper(emergency_pdf(head, garden.place, rows, len(roster) - len(rows)), f"emergency-{slug}")
