"""Forgetting people who left: their name and addresses go, what was held stays counted."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.listing import Column, Filter, Listing
from plots.models import User
from plots.queries.roster import Left
from plots.views.answers import list_page

LEFT: Listing[Left] = Listing(
    columns=[
        Column("name", gettext_lazy("Name"), lambda row: row.person.name),
        Column("left_on", gettext_lazy("Left on"), lambda row: row.left_on),
        Column("kept_until", gettext_lazy("Kept until"), lambda row: row.kept_until),
        Column("email", gettext_lazy("Email"), lambda row: row.person.email, on_page=False),
        Column("phone", gettext_lazy("Telephone"), lambda row: row.person.phone, on_page=False),
        Column("address", gettext_lazy("Postal address"), lambda row: row.person.address, on_page=False),
    ],
    filters=[
        Filter(
            "kept",
            gettext_lazy("Kept"),
            [("due", gettext_lazy("long enough")), ("still", gettext_lazy("still within the rule"))],
            lambda row, word: row.due == (word == "due"),
        )
    ],
    text=lambda row: f"{row.person.name} {row.person.email or ''} {row.person.phone}",
)


@require_safe
def people_left(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    left = queries.people_who_left(garden, today=garden.today())
    return list_page(request, "plots/people_left.html", LEFT, left, garden=garden)


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
