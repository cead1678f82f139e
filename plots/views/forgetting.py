"""Forgetting people who left: their name and addresses go, what was held stays counted."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.models import User


@require_safe
def people_left(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    left = queries.people_who_left(garden, today=garden.today())
    return render(request, "plots/people_left.html", {"garden": garden, "left": left})


@require_POST
def person_forget(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    person = User.objects.filter(pk=pk, is_active=True).first()
    if person is None or not queries.person_in_history(garden, pk):
        raise Http404
    try:
        service.forget_person(garden=garden, person=person, by=request.user)
    except ValidationError as error:
        messages.error(request, error.messages[0])
    else:
        messages.success(request, _("The name and addresses are forgotten."))
    return redirect("plots:people_left", slug)
