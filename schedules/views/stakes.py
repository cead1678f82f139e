"""What the code of a stake opens."""

from __future__ import annotations

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from plots import access, queries, service


@login_not_required
@never_cache
@require_safe
def at_plot(request: HttpRequest, code: str) -> HttpResponse:
    """What a stake's code opens: the plot's log for who may write it, to others its public line alone."""
    plot = queries.plot_of_stake(code)
    if not service.may_guess(request=request, right=plot is not None):
        return render(request, "schedules/at_plot_later.html", status=429)
    if plot is None:
        raise Http404
    garden = plot.garden
    if access.plots_to_log(request.user, garden).filter(pk=plot.pk).exists():
        return redirect(f"{reverse('schedules:log_new', args=[garden.slug])}?plots={plot.pk}")
    is_member = access.role_in(request.user, garden) is not None
    context = {"plot": plot, "at_garden": garden, **({"garden": garden} if is_member else {})}
    return render(request, "schedules/at_plot.html", context)
