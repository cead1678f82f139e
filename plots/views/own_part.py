"""A member's own part in a garden: who may see how to reach them, whom to call, and whom they garden with."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from plots import access, queries, service
from plots.forms.people import OwnPartForm, PaperConsentForm
from plots.views.answers import form_page, typed


@require_http_methods(["GET", "HEAD", "POST"])
def own_part(request: HttpRequest, slug: str) -> HttpResponse:
    """For every member about themselves, and nobody else."""
    garden = access.garden_to_see(request.user, slug)
    membership = garden.memberships.select_related("user", "household", "garden").get(user=request.user)
    form = OwnPartForm(typed(request), instance=membership)
    if form.is_bound and form.is_valid():
        service.change_own_part(membership=form.save(commit=False), by=request.user)
        messages.success(request, _("Kept."))
        return redirect("plots:own_part", slug)
    return form_page(
        request,
        "plots/own_part.html",
        form,
        garden=garden,
        membership=membership,
        held=queries.held_by(membership, today=garden.today()),
        household=queries.housemates_of(membership),
        changes=queries.changes_of(garden, request.user, only=["consent-changed", "consent-on-paper"]),
    )


@require_http_methods(["GET", "HEAD", "POST"])
def paper_consent(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """What a member agreed to on paper; they see on their own page that it was typed in, and by whom."""
    garden = access.garden_to_run(request.user, slug)
    membership = access.member_to_see(request.user, garden, pk)
    form = PaperConsentForm(typed(request), instance=access.member_to_see(request.user, garden, pk))
    if form.is_bound and form.is_valid():
        agreed_on = form.cleaned_data["agreed_on"]
        service.keep_paper_consent(membership=form.save(commit=False), agreed_on=agreed_on, by=request.user)
        messages.success(request, _("Kept."))
        return redirect("plots:member", slug, pk)
    return form_page(request, "plots/paper_consent.html", form, garden=garden, membership=membership)
