"""Being away: the people of a plot say so with one tap, or whoever is trusted with care for them."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.care import PauseForm
from plots.models import Assignment, PauseWhy
from plots.powers import Power
from plots.views.answers import form_page


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
    """One tap; a day that cannot be comes back on a page of its own."""
    held = access.assignment_to_pause(request.user, slug, assignment_pk)
    form = PauseForm(request.POST)
    if form.is_valid() and _paused(request, held, form):
        messages.success(request, _("Nobody expects anything of plot %(plot)s.") % {"plot": held.plot})
        return redirect(_back(request, held))
    about = {"garden": held.plot.garden, "assignment": held, "back": _back(request, held)}
    return form_page(request, "plots/pause_new.html", form, **about)


def _paused(request: HttpRequest, held: Assignment, form: PauseForm) -> bool:
    why, until = PauseWhy(form.cleaned_data["why"]), form.cleaned_data["until"]
    try:
        service.pause(assignment=held, why=why, until=until, on=held.plot.garden.today(), by=request.user)
    except ValidationError as error:
        form.add_error("until", error)
        return False
    return True


@require_POST
def pause_end(request: HttpRequest, slug: str, assignment_pk: int) -> HttpResponse:
    held = access.assignment_to_pause(request.user, slug, assignment_pk)
    today = held.plot.garden.today()
    running = queries.pause_on(held, today)
    if running is not None:
        service.end_pause(pause=running, on=today, by=request.user)
        messages.success(request, _("The pause of plot %(plot)s is over.") % {"plot": held.plot})
    return redirect(_back(request, held))


def _back(request: HttpRequest, held: Assignment) -> str:
    """Where one came from, as far as that is a page of ours that they may see."""
    asked = request.POST.get("next", "")
    may_care = access.may_run(request.user, held.plot.garden, Power.CARE)
    if may_care and url_has_allowed_host_and_scheme(asked, allowed_hosts=None):
        return asked
    return reverse("plots:pauses", args=[held.plot.garden.slug])
