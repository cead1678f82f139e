"""Sign-in links: made for a member, and asked for by somebody who cannot come in."""

from __future__ import annotations

from datetime import timedelta

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST

from plots import access, service
from plots.forms.people import AskForLinkForm
from plots.models import Garden, Membership, User
from plots.powers import Power
from plots.service import post
from plots.views.answers import form_page, page_with_form, typed
from plots.wording.invitations import link_letter


@require_POST
def member_link(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    membership = access.person_to_change(request.user, garden, pk)
    show_link_once(request, membership)
    return redirect("plots:member", slug, pk)


@require_POST
def member_link_post(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Sends a new link to the member's own address; where it does not go out, it is shown instead."""
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    membership = access.person_to_change(request.user, garden, pk)
    person = membership.user
    link = service.invite(garden=garden, person=person)
    if person.email and _sent(garden, person, link):
        messages.success(request, _("The link is on its way to %(email)s.") % {"email": person.email})
    else:
        messages.error(request, _("It could not be sent. Hand it over yourself: here it is."))
        request.session[f"link {pk}"] = link
    return redirect("plots:member", slug, pk)


def _sent(garden: Garden, person: User, link: str) -> bool:
    subject, body = link_letter(garden, person, link)
    return post.send(to=person.email, subject=subject, body=body)


def show_link_once(request: HttpRequest, membership: Membership) -> None:
    """Keeps a new link in the session until the next page shows it: reloading makes no second one."""
    link = service.invite(garden=membership.garden, person=membership.user)
    request.session[f"link {membership.pk}"] = link


@login_not_required
@never_cache
@page_with_form
def ask_for_link(request: HttpRequest) -> HttpResponse:
    """Says the same whoever asks, so that nobody learns from it who belongs to a garden."""
    form = AskForLinkForm(typed(request))
    if form.is_bound and form.is_valid():
        account = form.cleaned_data["account"]
        if service.count_attempt(request=request, account=f"ask {account}"):
            person = service.ask_for_link(account=account)
            if person is not None and person.email and post.can_send():
                _send_asked(person)
            return render(request, "plots/link_asked.html")
        form.add_error(None, _("Too many attempts. Wait a quarter of an hour, or ask your coordinator."))
    return form_page(request, "plots/link_ask.html", form)


def _send_asked(person: User) -> None:
    """The link by email at once; if it does not go out, the request stays open for a coordinator."""
    if service.letter_is_on_its_way(person):
        return
    garden = person.memberships.select_related("garden").first().garden
    link = service.make_link(user=person, lasts=timedelta(days=garden.rules.link_days))
    if _sent(garden, person, link):
        service.settle_request(person=person)
