"""The weekly letter: how this week's would read, and asking for it or not."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from plots import access
from plots.models import Garden, Membership
from plots.powers import Power
from plots.service import post
from plots.views.answers import page_with_form
from schedules.service.letters import choose_letter, readers_on_paper, weekly_letter


@page_with_form
def letter(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    membership = Membership.objects.select_related("user", "garden").get(garden=garden, user=request.user)
    if request.method == "POST":
        wanted = request.POST.get("wanted") == "yes"
        choose_letter(membership=membership, wanted=wanted)
        text = _("The letter will come every week.") if wanted else _("No letter will come any more.")
        messages.success(request, text)
        return redirect("schedules:letter", slug)
    context = {
        "garden": garden,
        "membership": membership,
        "letter": weekly_letter(membership, garden.today()),
        "can_send": post.can_send(),
        "weekday": garden.rules.get_letter_weekday_display(),
        "on_paper": _readers_on_paper(request, garden),
    }
    return render(request, "schedules/letter.html", context)


def _readers_on_paper(request: HttpRequest, garden: Garden) -> int | None:
    """How many letters there are to print, for whoever gives notices out."""
    if not access.may_run(request.user, garden, Power.NOTICES):
        return None
    return readers_on_paper(garden, can_send=post.can_send()).count()
