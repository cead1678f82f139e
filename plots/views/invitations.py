"""Sign-in links: made for a member, and asked for by somebody who cannot come in."""

from __future__ import annotations

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from plots import access, service
from plots.forms.people import AskForLinkForm
from plots.models import Membership
from plots.powers import Power
from plots.views.answers import form_page, typed

page_with_form = require_http_methods(["GET", "HEAD", "POST"])


@require_POST
def member_link(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    membership = access.person_to_change(request.user, garden, pk)
    show_link_once(request, membership)
    return redirect("plots:member", slug, pk)


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
            service.ask_for_link(account=account)
            return render(request, "plots/link_asked.html")
        form.add_error(None, _("Too many attempts. Wait a quarter of an hour, or ask your coordinator."))
    return form_page(request, "plots/link_ask.html", form)
