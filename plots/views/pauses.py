"""Being away: the people of a plot say so with one tap, or whoever is trusted with care for them."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.care import PauseForm
from plots.models import Assignment, PauseWhy
from plots.powers import Power


@require_safe
def pauses(request: HttpRequest, slug: str) -> HttpResponse:
    """One's own plots, each with the pause that runs or a button for each of the two words."""
    garden = access.garden_to_see(request.user, slug)
    today = garden.today()
    own = (
        Assignment.objects.on(today)
        .filter(Q(holder=request.user) | Q(co_gardeners=request.user), plot__garden=garden)
        .select_related("plot")
        .prefetch_related("pauses")
        .distinct()
    )
    rows = [(held, queries.pause_on(held, today)) for held in own]
    return render(request, "plots/pauses.html", {"garden": garden, "rows": rows, "form": PauseForm()})


@require_POST
def pause_new(request: HttpRequest, slug: str, assignment_pk: int) -> HttpResponse:
    held = access.assignment_to_pause(request.user, slug, assignment_pk)
    form = PauseForm(request.POST)
    if form.is_valid():
        why, until = PauseWhy(form.cleaned_data["why"]), form.cleaned_data["until"]
        today = held.plot.garden.today()
        try:
            service.pause(assignment=held, why=why, until=until, on=today, by=request.user)
        except ValidationError as error:
            messages.error(request, error.messages[0])
        else:
            messages.success(request, _("Nobody expects anything of plot %(plot)s.") % {"plot": held.plot})
    else:
        messages.error(request, _("Choose illness or travel, and a day if you know it."))
    return _back(request, held)


@require_POST
def pause_end(request: HttpRequest, slug: str, assignment_pk: int) -> HttpResponse:
    held = access.assignment_to_pause(request.user, slug, assignment_pk)
    today = held.plot.garden.today()
    running = queries.pause_on(held, today)
    if running is not None:
        service.end_pause(pause=running, on=today, by=request.user)
        messages.success(request, _("The pause of plot %(plot)s is over.") % {"plot": held.plot})
    return _back(request, held)


def _back(request: HttpRequest, held: Assignment) -> HttpResponse:
    asked = request.POST.get("next", "")
    may_care = access.may_run(request.user, held.plot.garden, Power.CARE)
    if may_care and url_has_allowed_host_and_scheme(asked, allowed_hosts=None):
        return redirect(asked)
    return redirect("plots:pauses", held.plot.garden.slug)
