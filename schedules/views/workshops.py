"""Workshops: the list, one of them with its pack, and how many came."""

from __future__ import annotations

from datetime import date
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST, require_safe

from crops.models import Workshop
from crops.wording.names import crop_label
from plots import queries
from plots.access import garden_to_run, garden_to_see, may_run
from plots.listing import Column, Filter, Listing
from plots.models import Garden
from plots.powers import Power
from plots.views.answers import form_page, list_page, page_with_form, typed
from schedules.access import workshop_to_see, workshops_to_see
from schedules.forms.workshops import AttendanceForm, PackForm, WorkshopForm
from schedules.service.print_table.kinds import KINDS
from schedules.service.workshops import (
    choose_pack,
    keep_workshop,
    remove_workshop,
    restore_workshop,
    write_attendance,
)
from schedules.wording.topics import TOPICS

_PAPERS = ("workshop-pack", "workshop-sign-in", "name-tags", "quiz")


def _listing(today: date) -> Listing[Workshop]:
    when = [("ahead", _("still to come")), ("past", _("past"))]
    return Listing(
        columns=[
            Column("title", gettext_lazy("Workshop"), lambda one: one.title),
            Column("on", gettext_lazy("Day"), lambda one: one.on),
            Column("place", gettext_lazy("Place"), lambda one: one.place),
            Column("expected", gettext_lazy("Expected"), lambda one: one.expected),
            Column("attended", gettext_lazy("Came"), lambda one: one.attended),
            Column("sheets", gettext_lazy("Sheets"), lambda one: len(one.topics)),
        ],
        filters=[
            Filter(
                "when", gettext_lazy("When"), when, lambda one, word: (one.on >= today) == (word == "ahead")
            )
        ],
        text=lambda one: f"{one.title} {one.place} {one.note}",
        page_size=50,
    )


@require_safe
def workshops(request: HttpRequest, slug: str) -> HttpResponse:
    """Those to come, the next one first; then, for who runs them, the past ones, the last one first."""
    garden = garden_to_see(request.user, slug)
    today = garden.today()
    rows = list(workshops_to_see(request.user, garden))
    ahead = [one for one in rows if not one.is_over(today)]
    past = [one for one in reversed(rows) if one.is_over(today)]
    context = {"today": today, "may_run": may_run(request.user, garden, Power.WORKDAYS)}
    listing = _listing(today)
    return list_page(request, "schedules/workshops.html", listing, [*ahead, *past], garden=garden, **context)


@require_safe
def workshop(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    found = workshop_to_see(request.user, slug, pk)
    garden = found.garden
    runs = may_run(request.user, garden, Power.WORKDAYS)
    crops = list(found.crops.all())
    context = {
        "garden": garden,
        "workshop": found,
        "may_run": runs,
        "is_over": found.is_over(garden.today()),
        "is_ahead": found.on > garden.today(),
        "sheets": [TOPICS[code] for code in found.topics if code in TOPICS],
        "crops": [crop_label(crop) for crop in crops],
        "crops_query": urlencode([("crops", crop.pk) for crop in crops]),
        "papers": [KINDS[code] for code in _PAPERS],
        "papers_query": _papers_query(found),
        "changes": queries.changes_of(garden, found) if runs else [],
    }
    return render(request, "schedules/workshop.html", context)


def _papers_query(found: Workshop) -> str:
    """Which workshop, and in its language where it has one of its own."""
    language = {"language": found.language} if found.language else {}
    return urlencode({"workshop": found.pk, **language})


@page_with_form
def workshop_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.WORKDAYS)
    return _form(request, garden, Workshop(garden=garden))


@page_with_form
def workshop_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.WORKDAYS)
    return _form(request, garden, _standing(garden, pk))


def _form(request: HttpRequest, garden: Garden, found: Workshop) -> HttpResponse:
    is_new = found.pk is None
    form = WorkshopForm(typed(request), instance=found)
    if form.is_bound and form.is_valid():
        kept = keep_workshop(workshop=form.save(commit=False), by=request.user)
        messages.success(request, _("The workshop is kept."))
        return redirect("schedules:workshop_pack" if is_new else "schedules:workshop", garden.slug, kept.pk)
    return form_page(request, "schedules/workshop_edit.html", form, garden=garden, workshop=found)


@page_with_form
def workshop_pack(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Chooses the sheets and the crops that they tell of."""
    garden = garden_to_run(request.user, slug, Power.WORKDAYS)
    found = _standing(garden, pk)
    form = PackForm(typed(request), garden=garden, workshop=found)
    if form.is_bound and form.is_valid():
        choose_pack(workshop=found, by=request.user, **form.cleaned_data)
        messages.success(request, _("The pack is kept."))
        return redirect("schedules:workshop", slug, pk)
    return form_page(request, "schedules/workshop_pack.html", form, garden=garden, workshop=found)


@page_with_form
def workshop_came(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Writes down how many came, from its day on."""
    garden = garden_to_run(request.user, slug, Power.WORKDAYS)
    found = _standing(garden, pk)
    form = AttendanceForm(typed(request), initial={"attended": found.attended})
    is_ahead = found.on > garden.today()
    if form.is_bound and is_ahead:
        form.add_error(None, _("This workshop is still to come."))
    if form.is_bound and form.is_valid():
        write_attendance(workshop=found, attended=form.cleaned_data["attended"], by=request.user)
        messages.success(request, _("Kept."))
        return redirect("schedules:workshop", slug, pk)
    context = {"garden": garden, "workshop": found, "is_ahead": is_ahead}
    return form_page(request, "schedules/workshop_came.html", form, **context)


@require_POST
def workshop_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.WORKDAYS)
    found = get_object_or_404(garden.workshops, pk=pk)
    remove_workshop(workshop=found, by=request.user)
    undo = reverse("schedules:workshop_restore", args=[slug, pk])
    messages.success(request, _("“%(what)s” is off the list.") % {"what": found}, extra_tags=undo)
    return redirect("schedules:workshops", slug)


@require_POST
def workshop_restore(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.WORKDAYS)
    found = get_object_or_404(garden.workshops, pk=pk)
    restore_workshop(workshop=found, by=request.user)
    messages.success(request, _("“%(what)s” is back on the list.") % {"what": found})
    return redirect("schedules:workshops", slug)


def _standing(garden: Garden, pk: int) -> Workshop:
    return get_object_or_404(Workshop.objects.standing().filter(garden=garden), pk=pk)
