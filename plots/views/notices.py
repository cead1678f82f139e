"""Notices: the list, writing one, giving it out, and who could not be reached."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.notices import NoticeForm
from plots.listing import Column, Filter, Listing
from plots.models import Delivery, Garden, Notice, Reached
from plots.powers import Power
from plots.service import post
from plots.views.answers import csv_answer, form_page, list_page, page_with_form, typed

STATES = [("draft", gettext_lazy("not given out yet")), ("given", gettext_lazy("given out"))]
NOTICES: Listing[Notice] = Listing(
    columns=[
        Column("subject", gettext_lazy("Notice"), lambda one: one.subject),
        Column("made", gettext_lazy("Written"), lambda one: one.made_at),
        Column("audience", gettext_lazy("For"), lambda one: one.get_audience_display()),
        Column("people", gettext_lazy("People"), lambda one: one.people),
        Column("reached", gettext_lazy("Reached"), lambda one: one.reached),
        Column("missed", gettext_lazy("Not reached"), lambda one: one.missed),
    ],
    filters=[
        Filter(
            "state",
            gettext_lazy("State"),
            STATES,
            lambda one, word: (one.given_at is None) == (word == "draft"),
        )
    ],
    text=lambda one: f"{one.subject} {one.body}",
    page_size=50,
)


@require_safe
def notices(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.NOTICES)
    return list_page(request, "plots/notices.html", NOTICES, queries.notices_of(garden), garden=garden)


@page_with_form
def notice_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.NOTICES)
    return _form(request, garden, Notice(garden=garden))


@page_with_form
def notice_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.NOTICES)
    return _form(request, garden, _notice(garden, pk))


def _form(request: HttpRequest, garden: Garden, notice: Notice) -> HttpResponse:
    form = NoticeForm(typed(request), instance=notice)
    if form.is_bound and form.is_valid():
        try:
            service.keep_notice(
                notice=form.save(commit=False), picked=form.cleaned_data["picked"], by=request.user
            )
        except ValidationError as error:
            form.add_error(None, error)
        else:
            return redirect("plots:notice", garden.slug, form.instance.pk)
    return form_page(request, "plots/notice_edit.html", form, garden=garden, notice=notice)


@require_safe
def notice(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Before it is given out: who would get it how. After that: who was reached, and whom to call."""
    garden = access.garden_to_run(request.user, slug, Power.NOTICES)
    found = _notice(garden, pk)
    if found.given_at is None:
        ways = queries.ways_of(queries.people_of_notice(found), can_send=post.can_send())
        context = {"ways": ways}
    else:
        rows = list(queries.deliveries_of(found))
        if request.GET.get("as") == "csv":
            return _call_list(garden, rows)
        context = {
            "calls": [row for row in rows if row.way == "phone" or (row.way == "email" and row.missed)],
            "mailed": [row for row in rows if row.way == "email" and not row.missed],
            "unknown": [row for row in rows if row.way == "none"],
        }
    context |= {"garden": garden, "notice": found, "can_send": post.can_send(), "may_run": True}
    context |= {"named": queries.named_in(found), "changes": queries.changes_of(garden, found)}
    return render(request, "plots/notice.html", context)


def _call_list(garden: Garden, rows: list[Delivery]) -> HttpResponse:
    kept = [row for row in rows if row.state != Reached.REACHED]
    lines = [(row.person.name, row.person.phone, row.person.address, row.get_state_display()) for row in kept]
    titles = (_("Name"), _("Telephone"), _("Postal address"), _("State"))
    return csv_answer(f"{garden.slug}-calls", titles, lines)


@require_POST
def notice_give(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Gives it out, and sends what goes by email; pressed again it sends to those who still wait."""
    garden = access.garden_to_run(request.user, slug, Power.NOTICES)
    found = _notice(garden, pk)
    try:
        service.give_out(notice=found, by=request.user)
    except ValidationError as error:
        messages.error(request, error.messages[0])
        return redirect("plots:notice", slug, pk)
    left = service.send_waiting(notice=found)
    if left:
        words = ngettext("%(n)d email still waits.", "%(n)d emails still wait.", left)
        messages.warning(request, words % {"n": left})
    else:
        messages.success(request, _("The notice is given out. Below stands who is still to be reached."))
    return redirect("plots:notice", slug, pk)


@require_POST
def delivery_mark(request: HttpRequest, slug: str, pk: int, delivery_pk: int) -> HttpResponse:
    """What came of a call."""
    garden = access.garden_to_run(request.user, slug, Power.NOTICES)
    row = get_object_or_404(Delivery, notice__garden=garden, notice=pk, pk=delivery_pk)
    asked = request.POST.get("state", "")
    if asked in Reached.values:
        service.mark_delivery(delivery=row, state=Reached(asked))
    return redirect("plots:notice", slug, pk)


def _notice(garden: Garden, pk: int) -> Notice:
    found = get_object_or_404(garden.notices, pk=pk)
    found.garden = garden
    return found
