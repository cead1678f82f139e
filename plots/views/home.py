"""The way in: where a person goes first, and a garden's own front page."""

from __future__ import annotations

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from plots import access, queries, service
from plots.models import SetUp


@login_not_required
@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """This week in one's own garden; a choice where there are several."""
    if not request.user.is_authenticated:
        return redirect("plots:sign_in" if service.is_founded() else "plots:first_visit")
    gardens = list(access.visible_gardens(request.user))
    if len(gardens) == 1:
        return redirect("schedules:week", gardens[0].slug)
    context = {"gardens": gardens, "may_make_gardens": access.may_make_gardens(request.user)}
    return render(request, "plots/home.html", context)


@require_safe
def garden(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    context = {
        "garden": garden,
        "may_run": access.may_run(request.user, garden),
        "powers": access.powers_in(request.user, garden),
        "may_make_gardens": access.may_make_gardens(request.user),
        "season": queries.season_now(garden),
        "set_up": SetUp.objects.filter(garden=garden, closed_at=None).first(),
        "own_plots": queries.plots_with_holders(access.own_plots(request.user, garden), today=garden.today()),
        "plot_count": garden.plots.filter(retired_on__isnull=True).count(),
        "member_count": garden.memberships.filter(user__is_active=True).count(),
    }
    return render(request, "plots/garden.html", context)
