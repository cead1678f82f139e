"""What the garden decides for itself: its rules to read, and block by block to change."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from plots import access, queries, service
from plots.forms.rules import rules_form
from plots.models import BLOCKS, GardenRules
from plots.powers import Power
from plots.views.answers import form_page, page_with_form, typed
from plots.wording.rules import block_title, rules_in_words


@require_safe
def rules(request: HttpRequest, slug: str) -> HttpResponse:
    """All rules, for every member: nobody should learn one by breaking it."""
    garden = access.garden_to_see(request.user, slug)
    may_run = access.may_run(request.user, garden, Power.SETTINGS)
    context = {
        "garden": garden,
        "may_run": may_run,
        "blocks": rules_in_words(garden.rules),
        "changes": queries.changes_of(garden, garden.rules) if may_run else [],
    }
    return render(request, "plots/rules.html", context)


@page_with_form
def rules_edit(request: HttpRequest, slug: str, block: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    if block not in BLOCKS:
        raise Http404
    form = rules_form(block)(typed(request), instance=GardenRules.objects.get(garden=garden))
    if form.is_bound and form.is_valid():
        service.save_changes(
            garden=garden, by=request.user, row=form.save(commit=False), what="rules-changed"
        )
        messages.success(request, _("The rules are kept."))
        return redirect("plots:rules", slug)
    return form_page(request, "plots/rules_edit.html", form, garden=garden, title=block_title(block))
