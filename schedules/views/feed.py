"""The calendar on a member's phone: its secret address, and what is read there."""

from __future__ import annotations

import hashlib

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import translation
from django.utils.cache import get_conditional_response
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots.access import garden_to_see, own_plots
from schedules.feeds import feed_calendar
from schedules.queries import feed_at, live_feed
from schedules.service import GardenDates, chosen_climate, make_feed, revoke_feed


@require_safe
def feed(request: HttpRequest, slug: str) -> HttpResponse:
    """The address to copy, and how to renew or stop it."""
    garden = garden_to_see(request.user, slug)
    context = {
        "garden": garden,
        "feed": live_feed(request.user, garden),
        "own": own_plots(request.user, garden),
    }
    return render(request, "schedules/feed.html", context)


@require_POST
def feed_make(request: HttpRequest, slug: str) -> HttpResponse:
    """A first address, or a new one in place of the old."""
    garden = garden_to_see(request.user, slug)
    make_feed(user=request.user, garden=garden)
    messages.success(request, _("Your calendar has its address."))
    return redirect("schedules:feed", slug)


@require_POST
def feed_revoke(request: HttpRequest, slug: str) -> HttpResponse:
    """Stops the address."""
    garden = garden_to_see(request.user, slug)
    revoke_feed(user=request.user, garden=garden)
    messages.success(request, _("The address no longer works. Phones that had it keep what they last read."))
    return redirect("schedules:feed", slug)


@login_not_required
@require_safe
def feed_ics(request: HttpRequest, token: str) -> HttpResponse:
    """What a phone reads: the dates of the plots that the owner of the address holds now."""
    found = feed_at(token)
    if found is None:
        raise Http404
    dates = GardenDates.of(found.garden)
    chosen = chosen_climate(found.garden)
    year = found.garden.today().year
    with translation.override(found.user.language or found.garden.language or settings.LANGUAGE_CODE):
        plots = own_plots(found.user, found.garden)
        entries = [] if dates is None else dates.entries(plots, range(year - 1, year + 2))
        changed_at = chosen.changed_at if chosen else found.made_at
        body = feed_calendar(found.garden, entries, dates_changed_at=changed_at)
    response = HttpResponse(body, content_type="text/calendar; charset=utf-8")
    response["ETag"] = f'"{hashlib.sha256(body).hexdigest()[:32]}"'
    response["Cache-Control"] = "private, no-cache"
    return get_conditional_response(request, etag=response["ETag"], response=response)
